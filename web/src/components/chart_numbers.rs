//! The numbers behind a plot: saved as a file, or as a table in a fold.

use layshaft_editor::Input;
use layshaft_editor::chart::NumberTable;
use layshaft_editor::choosing::ChooseInput;
use web_sys::Element;
use yew::prelude::*;

use crate::hooks::use_bench;

/// Properties of [`ChartNumbers`].
#[derive(Properties, PartialEq)]
pub struct ChartNumbersProps {
    /// What files are called, without their ending.
    pub file: AttrValue,
    /// Makes the CSV.
    pub csv: Callback<(), String>,
    /// Makes the picture.
    pub svg: Callback<(), String>,
    /// Makes the table, once it is asked for.
    pub table: Callback<(), NumberTable>,
}

/// Two buttons and a fold.
#[component]
pub fn ChartNumbers(props: &ChartNumbersProps) -> Html {
    let bench = use_bench();
    let open = use_state_eq(|| false);
    let save = |ending: &'static str, text: &Callback<(), String>| {
        let (bench, file, text) = (bench.clone(), props.file.clone(), text.clone());
        Callback::from(move |_: MouseEvent| {
            bench.send(Input::Choose(ChooseInput::Save {
                name: format!("{file}.{ending}"),
                text: text.emit(()),
            }));
        })
    };
    let toggled = {
        let open = open.clone();
        Callback::from(move |event: Event| {
            open.set(event.target_unchecked_into::<Element>().has_attribute("open"))
        })
    };
    html! {
        <div class="chart-numbers">
            <details class="fold" ontoggle={toggled}>
                <summary>{ "Numbers" }</summary>
                if *open { { numbers(&props.table.emit(())) } }
            </details>
            <div class="chart-files">
                <button type="button" class="button plain" aria-label="Save the numbers as CSV" onclick={save("csv", &props.csv)}>{ "CSV" }</button>
                <button type="button" class="button plain" aria-label="Save the picture as SVG" onclick={save("svg", &props.svg)}>{ "SVG" }</button>
            </div>
        </div>
    }
}

fn numbers(table: &NumberTable) -> Html {
    html! {
        <>
            if !table.marks.is_empty() {
                <ul class="chart-marks">{ for table.marks.iter().map(|(at, text)| html! { <li>if !at.is_empty() { <b>{ at }</b>{ " " } }{ text }</li> }) }</ul>
            }
            <div class="table-frame" role="region" aria-label={table.caption.clone()} tabindex="0">
                <table class="map-table">
                    <caption class="out-of-sight">{ &table.caption }</caption>
                    <thead><tr>{ for table.columns.iter().map(|column| html! { <th scope="col" class="number">{ column }</th> }) }</tr></thead>
                    <tbody>{ for table.rows.iter().map(|row| line(row)) }</tbody>
                </table>
            </div>
        </>
    }
}

fn line(row: &[String]) -> Html {
    html! {
        <tr>
            { for row.iter().enumerate().map(|(number, cell)| if number == 0 {
                html! { <th scope="row" class="number">{ cell }</th> }
            } else {
                html! { <td class="number">{ cell }</td> }
            }) }
        </tr>
    }
}
