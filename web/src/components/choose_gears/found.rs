//! The trains found, those of equal ratio together, and fractions near the ratio.

use layshaft_editor::Input;
use layshaft_editor::choosing::{
    ChooseInput, Fractions, GearsColumn, GearsField, GearsInput, PairingRow, RatioGroup, Results, Run,
    TrainRow, Waiting,
};
use yew::prelude::*;

use super::{act, field};
use crate::browser::focus;
use crate::hooks::{Bench, use_bench};

/// The sentence over the trains.
const SUMMARY: &str = "gears-summary";

/// Properties of [`GearsFound`].
#[derive(Properties, PartialEq)]
pub struct GearsFoundProps {
    /// The trains.
    pub results: Results,
    /// Where a train would go.
    pub place: String,
    /// The search under way.
    pub waiting: Option<Waiting>,
    /// What the search goes by.
    pub children: Html,
}

/// How many trains there are, where one would go, and the trains.
#[component]
pub fn GearsFound(props: &GearsFoundProps) -> Html {
    let bench = use_bench();
    let results = &props.results;
    let some = !results.groups.is_empty() || results.nearest.is_some();
    let had_button = use_mut_ref(|| false);
    use_effect_with(results.run, move |run| {
        // The button that was pressed may be gone; the sentence beside it tells what came of it.
        let had_button = had_button.replace(run.is_some());
        if run.is_none() && had_button && focus::is_nowhere() {
            focus::on(SUMMARY);
        }
    });
    html! {
        <section class={classes!("gears-found", results.stale.is_some().then_some("is-stale"))} aria-label="Trains">
            <div class="gears-head">
                <p class="gears-summary" id={SUMMARY} tabindex="-1">{ &results.summary }</p>
                if let Some(run) = results.run { { running(&bench, run, props.waiting.as_ref()) } }
            </div>
            if let Some(became) = &results.became { <p class="gears-became">{ became }</p> }
            { props.children.clone() }
            if let Some(stale) = &results.stale { <p class="gears-became">{ stale }</p> }
            if some { <p class="quiet">{ &props.place }</p> }
            if let Some(nearest) = &results.nearest {
                <table class="gears-trains">
                    <caption class="out-of-sight">{ "The nearest train" }</caption>
                    <tbody>
                        { ratio(&nearest.ratio, &nearest.error) }
                        { train(&bench, results, nearest, GearsInput::PutNearestIn) }
                    </tbody>
                </table>
            }
            if !results.groups.is_empty() { { trains(&bench, results) } }
            if some { <p class="quiet">{ &results.note }</p> }
        </section>
    }
}

/// How far the search is, and the one button that stops it and begins it again, so that the keyboard stays on it.
fn running(bench: &Bench, run: Run, waiting: Option<&Waiting>) -> Html {
    let (name, press) = match run {
        Run::Stop => ("Stop", bench.on(Input::Choose(ChooseInput::Stop))),
        Run::Again => ("Search again", act(bench, GearsInput::SearchAgain)),
    };
    let progress = waiting.map(|waiting| {
        let (done, of) = waiting.progress.map_or((None, "1".to_owned()), |progress| {
            (Some(progress.done.to_string()), progress.of.to_string())
        });
        html! { <progress value={done} max={of} aria-label="How far it is"></progress> }
    });
    html! {
        <div class={classes!("gears-running", (run == Run::Stop).then_some("is-going"))}>
            { progress.unwrap_or_default() }
            <button key="run" type="button" class="button" onclick={press}>{ name }</button>
        </div>
    }
}

fn trains(bench: &Bench, results: &Results) -> Html {
    html! {
        <>
            <div class="table-frame" role="region" aria-label="Trains that were found" tabindex="0">
                <table class="gears-trains">
                    <caption class="out-of-sight">{ "Trains that were found, those of one ratio together" }</caption>
                    <thead>{ heads(bench, results) }</thead>
                    { for results.groups.iter().map(|group| trains_of(bench, results, group)) }
                </table>
            </div>
            if let Some(more) = &results.more {
                <button type="button" class="button" onclick={act(bench, GearsInput::ShowMore)}>{ more }</button>
            }
        </>
    }
}

fn trains_of(bench: &Bench, results: &Results, group: &RatioGroup) -> Html {
    html! {
        <tbody>
            { ratio(&group.ratio, &group.error) }
            { for group.rows.iter().map(|row| train(bench, results, row, GearsInput::PutIn(row.index))) }
        </tbody>
    }
}

/// The heads, with a button for whatever trains can be sorted by: ratio, error and number of gears stand over the train
/// itself.
fn heads(bench: &Bench, results: &Results) -> Html {
    let (sorted, backwards) = results.sorted;
    let button = |(column, name): &(GearsColumn, String)| {
        let by = *column == sorted;
        let arrow = match (by, backwards) {
            (false, _) => "",
            (true, false) => " ↓",
            (true, true) => " ↑",
        };
        html! {
            <button type="button" class="link-like" aria-pressed={by.to_string()} aria-label={format!("Sort by: {name}")}
                onclick={act(bench, GearsInput::Sort(*column))}>{ name }{ arrow }</button>
        }
    };
    let (over, beside) = results.columns.split_at(3.min(results.columns.len()));
    html! {
        <tr>
            <th scope="col" class="gears-heads">{ for over.iter().map(button) }</th>
            { for beside.iter().map(|column| html! { <th scope="col" class="number">{ button(column) }</th> }) }
            <th scope="col"><span class="out-of-sight">{ "Take it" }</span></th>
        </tr>
    }
}

/// The ratio that the trains below it make.
fn ratio(ratio: &str, error: &str) -> Html {
    html! { <tr class="gears-ratio"><th scope="rowgroup" colspan="4">{ ratio }<span class="quiet">{ error }</span></th></tr> }
}

fn train(bench: &Bench, results: &Results, row: &TrainRow, put: GearsInput) -> Html {
    let index = row.index;
    html! {
        <>
            <tr>
                <td class="gears-stages"><span aria-hidden="true">{ &row.stages }</span><span class="out-of-sight">{ &row.spoken }</span>
                    <span class="quiet">{ format!("{}, {}", row.gears, row.sense) }</span></td>
                { numbers_and_button(bench, results, [&row.efficiency, &row.size, &row.spoken], put) }
            </tr>
            { for row.pairings.iter().map(|other| pairing(bench, results, index, other)) }
            if let Some(more) = &row.more_pairings {
                <tr class="gears-also"><td colspan="4"><button type="button" class="link-like" onclick={act(bench, GearsInput::ShowPairings(index))}>{ more }</button></td></tr>
            }
        </>
    }
}

/// The same gears paired off otherwise.
fn pairing(bench: &Bench, results: &Results, train: usize, row: &PairingRow) -> Html {
    let put = GearsInput::PutPairingIn(train, row.index);
    html! {
        <tr class="gears-also">
            <td class="gears-stages"><span aria-hidden="true">{ &row.stages }</span><span class="out-of-sight">{ format!("Also {}", row.spoken) }</span></td>
            { numbers_and_button(bench, results, [&row.efficiency, &row.size, &row.spoken], put) }
        </tr>
    }
}

fn numbers_and_button(
    bench: &Bench,
    results: &Results,
    [efficiency, size, spoken]: [&String; 3],
    put: GearsInput,
) -> Html {
    html! {
        <>
            <td class="number">{ efficiency }</td>
            <td class="number">{ size }</td>
            <td class="gears-take"><button type="button" class="button" aria-label={format!("{}: {spoken}", results.put_in)} onclick={act(bench, put)}>{ &results.put_in }</button></td>
        </>
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
                    <thead><tr><th scope="col">{ "Fraction" }</th><th scope="col" class="number">{ "Off by" }</th><th scope="col">{ "Made by" }</th></tr></thead>
                    <tbody>{ for fractions.rows.iter().map(row) }</tbody>
                </table>
            }
        </details>
    }
}
