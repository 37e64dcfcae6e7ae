//! Variants side by side: what can be added, a column for each with what can be done with it, and their rows.

mod head;
mod plot;
mod rows;

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::choosing::{ChooseInput, CompareInput, CompareSheet};
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, HtmlInputElement};
use yew::prelude::*;

use super::choose_entry::ChooseList;
use crate::browser::file;
use crate::hooks::{Bench, use_bench};
use head::{CompareHead, CompareTools};
use plot::PlotOfAll;
use rows::CompareRows;

/// Properties of [`ChooseCompare`].
#[derive(Properties, PartialEq)]
pub struct ChooseCompareProps {
    /// What it shows.
    pub sheet: Rc<CompareSheet>,
}

/// Hands an input of this part to the session.
pub fn send(bench: &Bench, input: CompareInput) {
    bench.send(Input::Choose(ChooseInput::Compare(input)));
}

/// Variants side by side.
#[component]
pub fn ChooseCompare(props: &ChooseCompareProps) -> Html {
    let bench = use_bench();
    let sheet = &props.sheet;
    html! {
        <>
            if !sheet.verdict.is_empty() { <p class="compare-verdict">{ &sheet.verdict }</p> }
            <p class={if sheet.is_problem { "choose-fault" } else { "quiet" }} role={sheet.is_problem.then_some("alert")}>{ &sheet.hint }</p>
            if sheet.adding.is_some() { { adding(sheet, &bench) } }
            <div class="table-frame compare-frame" role="region" aria-label="Variants side by side" tabindex="0">
                <table class="compare" style={format!("--variants: {}", sheet.variants.len())}>
                    <caption class="out-of-sight">{ "Variants side by side" }</caption>
                    <thead>
                        <tr>
                            { for sheet.variants.iter().map(|head| html! { <CompareHead key={head.number.0} head={head.clone()} /> }) }
                        </tr>
                    </thead>
                    <tbody class="compare-first">
                        <tr>
                            { for sheet.variants.iter().map(|head| html! { <CompareTools key={head.number.0} head={head.clone()} /> }) }
                        </tr>
                    </tbody>
                    <CompareRows sheet={sheet.clone()} />
                </table>
            </div>
            if let Some(plot) = &sheet.plot { <PlotOfAll plot={plot.clone()} /> }
        </>
    }
}

/// The bench kept, something from the list, or a file.
fn adding(sheet: &CompareSheet, bench: &Bench) -> Html {
    let Some(choice) = &sheet.adding else {
        return html! {};
    };
    let act = |input: CompareInput| bench.on::<MouseEvent>(Input::Choose(ChooseInput::Compare(input)));
    let pick = {
        let bench = bench.clone();
        Callback::from(move |value| send(&bench, CompareInput::Pick(value)))
    };
    html! {
        <div class="compare-adding">
            <ChooseList choice={choice.clone()} on_choose={pick} />
            <button type="button" class="button" onclick={act(CompareInput::Add)}>{ "Add" }</button>
            <button type="button" class="button" onclick={act(CompareInput::Keep)}>{ "Keep the bench as it is" }</button>
            <label class="button file-button">{ "Add a file…" }
                <input type="file" class="out-of-sight" accept=".json,application/json" onchange={chosen(bench)} aria-label="Add a layout file" />
            </label>
        </div>
    }
}

/// A file was chosen.
fn chosen(bench: &Bench) -> Callback<Event> {
    let bench = bench.clone();
    Callback::from(move |event: Event| {
        let field = event.target_unchecked_into::<HtmlInputElement>();
        if let Some(file) = field.files().and_then(|files| files.get(0)) {
            add_file(file, bench.clone());
        }
        // The same file can be chosen again only if the field is empty.
        field.set_value("");
    })
}

/// One that cannot be read is handed on empty, and the session says why.
fn add_file(file: File, bench: Bench) {
    spawn_local(async move {
        let text = file::read(&file).await.unwrap_or_default();
        let name = file.name();
        send(&bench, CompareInput::AddFile { text, name });
    });
}
