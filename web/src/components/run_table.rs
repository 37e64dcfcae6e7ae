//! A run as numbers.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::runs::{NumbersTable, RunInput};
use yew::prelude::*;

use crate::hooks::use_bench;

/// Properties of [`RunTable`].
#[derive(Properties, PartialEq)]
pub struct RunTableProps {
    /// The table.
    pub table: Rc<NumbersTable>,
}

/// The table, folded, and the button that saves all samples.
#[component]
pub fn RunTable(props: &RunTableProps) -> Html {
    let bench = use_bench();
    let table = &props.table;
    html! {
        <>
            <details class="fold">
                <summary>{ "The run as a table" }</summary>
                <div class="table-frame" role="region" aria-label="The run as a table" tabindex="0">
                    <table class="run-table">
                        <thead><tr>{ for table.columns.iter().map(|title| html! { <th scope="col" class="number">{ *title }</th> }) }</tr></thead>
                        <tbody>
                            { for table.rows.iter().map(|row| html! {
                                <tr>{ for row.iter().map(|text| html! { <td class="number">{ text }</td> }) }</tr>
                            }) }
                        </tbody>
                    </table>
                </div>
                <p class="quiet">{ &table.note }</p>
            </details>
            <div class="commands">
                <button type="button" class="button" onclick={bench.on(Input::Run(RunInput::SaveNumbers))}>{ "Save all numbers (CSV)" }</button>
            </div>
        </>
    }
}
