//! Which columns a table shows, folded away until asked for.

use layshaft_editor::Input;
use layshaft_editor::table::TableName;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::hooks::use_bench;

/// Properties of [`TableColumns`].
#[derive(Properties, PartialEq)]
pub struct TableColumnsProps {
    /// The table.
    pub name: TableName,
    /// Columns that can be left out, and whether they are shown.
    pub choice: Vec<(&'static str, bool)>,
}

/// A box to tick for each column.
#[component]
pub fn TableColumns(props: &TableColumnsProps) -> Html {
    let bench = use_bench();
    let table = props.name;
    let tick = |column: &'static str, shown: bool| {
        let onchange = bench.0.reform(move |event: Event| Input::ShowColumn {
            table,
            column,
            shown: event.target_unchecked_into::<HtmlInputElement>().checked(),
        });
        html! { <label class="tick" key={column}><input type="checkbox" checked={shown} {onchange} />{ column }</label> }
    };
    html! {
        <details class="table-columns">
            <summary>{ "Columns" }</summary>
            <div class="ticks" role="group" aria-label="Columns of the table">{ for props.choice.iter().map(|(column, shown)| tick(column, *shown)) }</div>
        </details>
    }
}
