//! How far results are known: ranges of numbers, and what many draws from them come to.

use layshaft_editor::Input;
use layshaft_editor::choosing::influence::certain::{CertainRow, Strip};
use layshaft_editor::choosing::influence::{CertaintySheet, InfluenceField, RangeRow};
use layshaft_editor::choosing::{Entry, InfluenceInput};
use yew::prelude::*;

use super::choose_entry::{ChooseEntry, ChooseList};
use super::choose_influence::input;
use crate::hooks::{Bench, use_bench};

/// Properties of [`ChooseKnown`].
#[derive(Properties, PartialEq)]
pub struct ChooseKnownProps {
    /// What it shows.
    pub sheet: CertaintySheet,
}

/// How far results are known.
#[component]
pub fn ChooseKnown(props: &ChooseKnownProps) -> Html {
    let bench = use_bench();
    let sheet = &props.sheet;
    let add = bench.0.reform(|path: String| input(InfluenceInput::Doubt(path)));
    html! {
        <section class="known" aria-labelledby="known-title">
            <h3 id="known-title">{ "How well is it known?" }</h3>
            <p class="quiet">{ &sheet.lead }</p>
            if !sheet.ranges.is_empty() {
                <ul class="known-ranges">{ for sheet.ranges.iter().map(|range| range_row(range, &bench)) }</ul>
            }
            <div class="known-add">
                if let Some(choice) = &sheet.add { <ChooseList key={sheet.ranges.len()} choice={choice.clone()} on_choose={add} /> }
                if let Some(words) = &sheet.doubt_losses {
                    <button type="button" class="button" onclick={bench.on(input(InfluenceInput::DoubtLosses))}>{ words }</button>
                }
            </div>
            if !sheet.rows.is_empty() { { results(&sheet.rows) } }
            { for sheet.notes.iter().map(|note| html! { <p class="quiet">{ note }</p> }) }
            if !sheet.ranges.is_empty() {
                <details class="fold">
                    <summary>{ "Draws" }</summary>
                    <div class="choose-fields">{ for sheet.settings.iter().map(|(field, entry)| setting(field, entry, &bench.0)) }</div>
                </details>
            }
        </section>
    }
}

/// A range: typed with its field, or from the table with its source.
fn range_row(range: &RangeRow, bench: &Bench) -> Html {
    let Some(entry) = &range.entry else {
        return html! {
            <li key={range.path.clone()} class="known-range is-given">
                <span>{ &range.name }</span>{ " " }<span class="known-ends">{ &range.range }</span>
                <p class="quiet">{ &range.source }</p>
            </li>
        };
    };
    let path = range.path.clone();
    let typed = bench
        .0
        .reform(move |text: String| input(InfluenceInput::Type(InfluenceField::Range(path.clone()), text)));
    let removed = bench.on(input(InfluenceInput::Trust(range.path.clone())));
    html! {
        <li key={range.path.clone()} class="known-range">
            <ChooseEntry entry={entry.clone()} on_type={typed} />
            <button type="button" class="button plain" aria-label={format!("Take the range of {} away", range.name)} onclick={removed}>{ "Remove" }</button>
        </li>
    }
}

fn setting(field: &InfluenceField, entry: &Entry, send: &Callback<Input>) -> Html {
    let field = field.clone();
    let typed = send.reform(move |text: String| input(InfluenceInput::Type(field.clone(), text)));
    html! { <ChooseEntry key={entry.key.clone()} entry={entry.clone()} on_type={typed} /> }
}

/// Quantiles with a small picture of the draws.
fn results(rows: &[CertainRow]) -> Html {
    html! {
        <div class="table-frame" role="region" aria-label="How far results are known" tabindex="0">
            <table class="known-results">
                <caption class="out-of-sight">{ "Of a hundred draws, 5, 50 and 95 lie below these" }</caption>
                <thead><tr>
                    <th scope="col">{ "Result" }</th>
                    <th scope="col" class="number">{ "5 %" }</th><th scope="col" class="number">{ "50 %" }</th><th scope="col" class="number">{ "95 %" }</th>
                    <th scope="col">{ "Draws" }</th>
                </tr></thead>
                <tbody>{ for rows.iter().map(result) }</tbody>
            </table>
        </div>
    }
}

fn result(row: &CertainRow) -> Html {
    html! {
        <>
            if !row.position.is_empty() {
                <tr class="known-position"><th scope="rowgroup" colspan="5">{ &row.position }</th></tr>
            }
            <tr>
                <th scope="row">{ &row.name } if !row.applies.is_empty() { <span class="quiet known-applies">{ &row.applies }</span> }</th>
                { for row.quantiles.iter().flatten().map(|value| html! { <td class="number">{ value }</td> }) }
                <td>{ row.strip.as_ref().map(strip) }</td>
            </tr>
        </>
    }
}

fn strip(strip: &Strip) -> Html {
    let mark = |x: &f64| html! { <line x1={x.to_string()} x2={x.to_string()} y1="0" y2={Strip::HEIGHT.to_string()} /> };
    html! {
        <svg class="known-strip" viewBox={format!("0 0 {} {}", Strip::WIDTH, Strip::HEIGHT)} role="img" aria-label={strip.spoken.clone()}>
            <path d={strip.outline.clone()} />
            { for strip.marks.iter().map(mark) }
        </svg>
    }
}
