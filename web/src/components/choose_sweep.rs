//! What is varied, what is looked at, the plot and its marks.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::chart::Carry;
use layshaft_editor::choosing::sweep::{OutputRow, SweepField};
use layshaft_editor::choosing::{ChooseInput, Entry, SweepInput, SweepSheet};
use wasm_bindgen::JsCast as _;
use web_sys::{HtmlElement, HtmlInputElement};
use yew::prelude::*;

use super::chart_view::ChartView;
use super::choose_entry::{ChooseEntry, ChooseList};
use super::map_view::MapView;
use crate::browser::document;
use crate::hooks::{Bench, use_bench};

/// Properties of [`ChooseSweep`].
#[derive(Properties, PartialEq)]
pub struct ChooseSweepProps {
    /// What it shows.
    pub sheet: Rc<SweepSheet>,
}

/// The question, the answer in words, the picture, and what else can be looked at.
#[component]
pub fn ChooseSweep(props: &ChooseSweepProps) -> Html {
    let bench = use_bench();
    let sheet = &props.sheet;
    if sheet.inputs.options.is_empty() {
        return html! { <p class="empty">{ &sheet.empty }</p> };
    }
    let chosen = |make: fn(String) -> SweepInput| bench.0.reform(move |value| sweep(make(value)));
    let also = sheet.also.options.iter();
    let is_map = sheet.map.is_some()
        || also
            .clone()
            .any(|option| option.chosen && !option.value.is_empty());
    html! {
        <>
            <div class="choose-fields sweep-pick">
                <ChooseList choice={sheet.inputs.clone()} on_choose={chosen(SweepInput::Choose)} />
                { find(&bench, sheet) }
            </div>
            if !sheet.empty.is_empty() { <p class="empty">{ &sheet.empty }</p> }
            if !sheet.verdict.is_empty() {
                <div class="sweep-verdict">{ for sheet.verdict.iter().map(|sentence| html! { <p>{ sentence }</p> }) }</div>
            }
            { picture(&bench, sheet) }
            { commands(&bench, sheet) }
            <div class="choose-fields sweep-range">
                { for sheet.fields.iter().map(|(field, shown)| entry(&bench, *field, shown)) }
            </div>
            <div class="choose-fields sweep-wide">
                <ChooseList choice={sheet.also.clone()} on_choose={chosen(SweepInput::Also)} />
                if is_map {
                    <ChooseList choice={sheet.output.clone()} on_choose={chosen(SweepInput::LookAt)} />
                    if !sheet.positions.options.is_empty() {
                        <ChooseList choice={sheet.positions.clone()} on_choose={chosen(SweepInput::In)} />
                    }
                }
            </div>
            if !is_map { { outputs(&bench, &sheet.outputs) } }
        </>
    }
}

const fn sweep(input: SweepInput) -> Input {
    Input::Choose(ChooseInput::Sweep(input))
}

fn entry(bench: &Bench, field: SweepField, entry: &Entry) -> Html {
    let typed = bench.0.reform(move |text| sweep(SweepInput::Type(field, text)));
    html! { <ChooseEntry key={entry.key.clone()} entry={entry.clone()} on_type={typed} on_keep={bench.on(sweep(SweepInput::Keep))} /> }
}

fn picture(bench: &Bench, sheet: &SweepSheet) -> Html {
    html! {
        <>
            if let Some(chart) = &sheet.chart {
                <ChartView chart={chart.clone()} name={sheet.file.clone()} carried={sheet.carried.clone()} tried={sheet.tried.clone()}
                    on_carry={bench.0.reform(|carry| sweep(SweepInput::Carry(carry)))} />
            }
            if let Some(map) = &sheet.map { <MapView map={map.clone()} name={sheet.file.clone()} /> }
        </>
    }
}

/// Ways out of trying values, and gears for the ratio. Pressed with a pointer they leave the focus where it is, because the
/// mark keeps what it says when it is left.
fn commands(bench: &Bench, sheet: &SweepSheet) -> Html {
    let stays = Callback::from(|event: MouseEvent| event.prevent_default());
    let way = |said: &str, carry: Carry| {
        let to_mark = bench.0.clone();
        let onclick = Callback::from(move |_: MouseEvent| {
            to_mark.emit(sweep(SweepInput::Carry(carry)));
            focus_mark();
        });
        html! {
            if !said.is_empty() {
                <button type="button" class="button" onmousedown={stays.clone()} {onclick}>{ said }</button>
            }
        }
    };
    let gears = sheet.gears.as_deref().unwrap_or_default();
    html! {
        if !gears.is_empty() || !sheet.back.is_empty() {
            <div class="commands">
                if !gears.is_empty() {
                    <button type="button" class="button" onclick={bench.on(sweep(SweepInput::FindGears))}>{ gears }</button>
                }
                { way(&sheet.keep, Carry::Keep) }
                { way(&sheet.back, Carry::Back) }
            </div>
            if !sheet.gears_why.is_empty() { <p class="field-hint">{ &sheet.gears_why }</p> }
        }
    }
}

/// The button that was pressed goes away, and the mark is what it was about.
fn focus_mark() {
    let mark = document().query_selector(".chart-handle").ok().flatten();
    if let Some(mark) = mark.and_then(|mark| mark.dyn_into::<HtmlElement>().ok()) {
        // Refused only where the page lost it meanwhile.
        let _ = mark.focus();
    }
}

/// A search through everything that can be varied.
fn find(bench: &Bench, sheet: &SweepSheet) -> Html {
    let typed = bench.0.reform(|text| sweep(SweepInput::Find(text)));
    html! {
        <div class="sweep-find">
            <ChooseEntry entry={sheet.find.clone()} on_type={typed} />
            if !sheet.found.is_empty() {
                <ul class="sweep-found" aria-label="Found">
                    { for sheet.found.iter().map(|(path, name)| html! {
                        <li key={path.clone()}><button type="button" class="link-like" onclick={bench.on(sweep(SweepInput::Choose(path.clone())))}>{ name }</button></li>
                    }) }
                </ul>
            } else if !sheet.find.text.trim().is_empty() {
                <p class="field-hint">{ "Nothing here has these words in its name." }</p>
            }
        </div>
    }
}

/// Numbers that can be looked at: the usual ones in sight, the others in a fold.
fn outputs(bench: &Bench, rows: &[OutputRow]) -> Html {
    let (usual, others): (Vec<&OutputRow>, Vec<&OutputRow>) =
        rows.iter().partition(|row| row.usual || row.on);
    html! {
        <fieldset class="sweep-outputs">
            <legend>{ "Look at" }</legend>
            <div class="sweep-checks">{ for usual.into_iter().map(|row| check(bench, row)) }</div>
            if !others.is_empty() {
                <details class="fold">
                    <summary>{ "More to look at" }</summary>
                    <div class="sweep-checks">{ for others.into_iter().map(|row| check(bench, row)) }</div>
                </details>
            }
        </fieldset>
    }
}

fn check(bench: &Bench, row: &OutputRow) -> Html {
    let path = row.path.clone();
    let onchange = bench.0.reform(move |event: Event| {
        let on = event.target_unchecked_into::<HtmlInputElement>().checked();
        sweep(SweepInput::Look(path.clone(), on))
    });
    html! {
        <label class="sweep-check" key={row.path.clone()}><input type="checkbox" checked={row.on} {onchange} />{ &row.name }</label>
    }
}
