//! The trains found, those of equal ratio together, and fractions near the ratio.

use layshaft_editor::choosing::{
    Fractions, GearsColumn, GearsField, GearsInput, RatioGroup, Results, TrainRow,
};
use yew::prelude::*;

use super::{act, field};
use crate::hooks::{Bench, use_bench};

/// Properties of [`GearsFound`].
#[derive(Properties, PartialEq)]
pub struct GearsFoundProps {
    /// The trains.
    pub results: Results,
    /// Where a train would go.
    pub place: String,
}

/// How many trains there are, where one would go, and the trains.
#[component]
pub fn GearsFound(props: &GearsFoundProps) -> Html {
    let bench = use_bench();
    let results = &props.results;
    html! {
        <section class="gears-found" aria-label="Trains">
            <p class="gears-summary">{ &results.summary }</p>
            if let Some(nearest) = &results.nearest {
                <table class="gears-trains">
                    <caption class="out-of-sight">{ "The nearest train" }</caption>
                    <tbody>{ train(&bench, results, nearest, Some(&single(nearest)), GearsInput::PutNearestIn) }</tbody>
                </table>
            }
            if !results.groups.is_empty() { { trains(&bench, results) } }
            if !results.groups.is_empty() || results.nearest.is_some() {
                <p class="quiet">{ &props.place }</p>
                <p class="quiet">{ &results.note }</p>
            }
        </section>
    }
}

fn single(row: &TrainRow) -> RatioGroup {
    RatioGroup {
        ratio: row.ratio.clone(),
        error: row.error.clone(),
        rows: vec![row.clone()],
    }
}

fn trains(bench: &Bench, results: &Results) -> Html {
    html! {
        <>
            <div class="table-frame" role="region" aria-label="Trains that were found" tabindex="0">
                <table class="gears-trains">
                    <caption class="out-of-sight">{ "Trains that were found, the best first" }</caption>
                    <thead><tr>{ heads(bench, results) }</tr></thead>
                    { for results.groups.iter().map(|group| html! { <tbody>{ for group.rows.iter().enumerate().map(|(n, row)| {
                        train(bench, results, row, (n == 0).then_some(group), GearsInput::PutIn(row.index))
                    }) }</tbody> }) }
                </table>
            </div>
            if let Some(more) = &results.more {
                <button type="button" class="button" onclick={act(bench, GearsInput::ShowMore)}>{ more }</button>
            }
        </>
    }
}

/// The heads of the columns, each a button that sorts by it; the train itself stands in third place.
fn heads(bench: &Bench, results: &Results) -> Html {
    let (sorted, backwards) = results.sorted;
    let head = |(column, name): &(GearsColumn, String)| {
        let sort = match (*column == sorted, backwards) {
            (false, _) => "none",
            (true, false) => "ascending",
            (true, true) => "descending",
        };
        html! {
            <th scope="col" aria-sort={sort}>
                <button type="button" class="link-like" onclick={act(bench, GearsInput::Sort(*column))}>{ name }</button>
            </th>
        }
    };
    let (before, after) = results.columns.split_at(2.min(results.columns.len()));
    html! {
        <>
            { for before.iter().map(head) }
            <th scope="col">{ "Driver → driven" }</th>
            { for after.iter().map(head) }
            <th scope="col"><span class="out-of-sight">{ "Take it" }</span></th>
        </>
    }
}

/// A train; the first of its ratio carries the ratio for all of them.
fn train(
    bench: &Bench,
    results: &Results,
    row: &TrainRow,
    group: Option<&RatioGroup>,
    put: GearsInput,
) -> Html {
    html! {
        <tr>
            if let Some(group) = group {
                <th scope="rowgroup" rowspan={group.rows.len().to_string()}>{ &group.ratio }</th>
                <td rowspan={group.rows.len().to_string()} class="gears-error">{ &group.error }</td>
            }
            <td class="gears-stages"><span aria-hidden="true">{ &row.stages }</span><span class="out-of-sight">{ &row.spoken }</span></td>
            <td>{ &row.gears }<span class="quiet gears-sense">{ &row.sense }</span></td>
            <td class="number">{ &row.efficiency }</td>
            <td class="number">{ &row.size }</td>
            <td><button type="button" class="button" aria-label={format!("{}: {}", results.put_in, row.spoken)} onclick={act(bench, put)}>{ &results.put_in }</button></td>
        </tr>
    }
}

/// Properties of [`GearsFractions`].
#[derive(Properties, PartialEq)]
pub struct GearsFractionsProps {
    /// Fractions near the ratio.
    pub fractions: Fractions,
}

/// Fractions near the ratio, and which of them the bin makes.
#[component]
pub fn GearsFractions(props: &GearsFractionsProps) -> Html {
    let bench = use_bench();
    let fractions = &props.fractions;
    let row = |row: &layshaft_editor::choosing::FractionRow| {
        html! {
            <tr class={row.strong.then_some("is-strong")}>
                <th scope="row">{ &row.fraction }</th><td class="number">{ &row.error }</td><td>{ &row.train }</td>
            </tr>
        }
    };
    html! {
        <details class="fold">
            <summary>{ "Fractions near the ratio" }</summary>
            { field(&bench, GearsField::Largest, &fractions.largest) }
            if fractions.rows.is_empty() {
                <p class="quiet">{ "Type a ratio: the simplest fractions near it are listed here, with the gears that make them." }</p>
            } else {
                <table class="gears-fractions">
                    <caption class="out-of-sight">{ "Fractions near the ratio" }</caption>
                    <thead><tr><th scope="col">{ "Fraction" }</th><th scope="col">{ "Off by" }</th><th scope="col">{ "Made by" }</th></tr></thead>
                    <tbody>{ for fractions.rows.iter().map(row) }</tbody>
                </table>
            }
        </details>
    }
}
