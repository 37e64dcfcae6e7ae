//! The rows of a comparison: a line with the row's name, under it what stands in each column.

use std::rc::Rc;

use layshaft_editor::Cell;
use layshaft_editor::choosing::CompareSheet;
use layshaft_editor::choosing::compare::{CompareRow, CompareValue, Difference, Trend};
use yew::prelude::*;

use crate::components::cell_view::CellView;

/// Properties of [`CompareRows`].
#[derive(Properties, PartialEq)]
pub struct CompareRowsProps {
    /// The sheet whose rows these are.
    pub sheet: Rc<CompareSheet>,
}

/// A group of two lines for each row, so that columns have all of the width on a small screen too.
#[component]
pub fn CompareRows(props: &CompareRowsProps) -> Html {
    let columns = props.sheet.variants.len().to_string();
    let row = |row: &CompareRow| {
        html! {
            <tbody key={row.label}>
                <tr class="compare-label">
                    <th scope="rowgroup" colspan={columns.clone()} id={id(row)}><span title={row.help}>{ row.label }</span></th>
                </tr>
                <tr>
                    { for row.cells.iter().zip(&props.sheet.variants).map(|(values, head)| html! {
                        <td headers={format!("{} {}", id(row), head.key)} data-letter={head.letter}>{ for values.iter().map(value) }</td>
                    }) }
                </tr>
            </tbody>
        }
    };
    html! { <>{ for props.sheet.rows.iter().map(row) }</> }
}

/// An HTML id made of the row's label.
fn id(row: &CompareRow) -> String {
    let label = row.label.to_lowercase();
    format!(
        "compare-{}",
        label.replace(|letter: char| !letter.is_ascii_alphanumeric(), "-")
    )
}

fn value(value: &CompareValue) -> Html {
    let class = if matches!(value.value, Cell::Text(_)) {
        "compare-words"
    } else {
        "compare-number"
    };
    html! {
        <div class="compare-value">
            <span class={if value.position.is_empty() { "" } else { "compare-position" }}>{ &value.position }</span>
            <span class="compare-said">
                <span {class}><CellView cell={value.value.clone()} /></span>
                if !value.also.is_empty() { <span class="quiet">{ &value.also }</span> }
                if let Some(difference) = &value.difference { { shown(difference) } }
            </span>
        </div>
    }
}

fn shown(difference: &Difference) -> Html {
    let same = (difference.trend == Trend::Same).then_some("is-same");
    html! {
        <span class={classes!("compare-difference", same)}>
            <span aria-hidden="true">{ difference.trend.sign() }{ " " }{ &difference.text }</span>
            <span class="out-of-sight">{ &difference.spoken }</span>
        </span>
    }
}
