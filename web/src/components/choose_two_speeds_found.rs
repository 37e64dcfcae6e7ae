//! Arrangements that were found, each over the layout asked about; what each is like unfolds.

use std::rc::Rc;

use layshaft_editor::choosing::TwoSpeedsInput;
use layshaft_editor::choosing::two_speeds::{Fact, Figure, Found, Group, Row};
use yew::prelude::*;

use super::choose_two_speeds::input;
use crate::hooks::use_bench;

/// Properties of [`ChooseTwoSpeedsFound`].
#[derive(Properties, PartialEq)]
pub struct ChooseTwoSpeedsFoundProps {
    /// What was found.
    pub found: Rc<Found>,
    /// The place of the arrangement that is on the bench.
    pub on_bench: Option<usize>,
}

/// The layout asked about, and below it arrangements, the best first.
#[component]
pub fn ChooseTwoSpeedsFound(props: &ChooseTwoSpeedsFoundProps) -> Html {
    let found = &props.found;
    html! {
        <div class="arrangements">
            <div class="arrangements-lead" role="status">
                <p>{ &found.lead }</p>
                { for found.beside.iter().map(|sentence| html! { <p class="arrangements-beside">{ sentence }</p> }) }
            </div>
            if let Some(present) = &found.present {
                <div class="arrangement is-present">
                    <p class="arrangement-name">{ &present.name }<span class="quiet">{ "for comparison" }</span></p>
                    { figures(&found.columns, present) }
                    if !present.works.is_empty() { <p class="quiet">{ &present.works }</p> }
                </div>
            }
            { for found.groups.iter().map(|group| arrangements(props, group)) }
        </div>
    }
}

/// Those of one group under its name.
fn arrangements(props: &ChooseTwoSpeedsFoundProps, group: &Group) -> Html {
    html! {
        <section class="arrangements-group" key={group.title.clone()}>
            <h3>{ &group.title }</h3>
            <p class="quiet">{ &group.note }</p>
            { for group.places.clone().filter_map(|place| {
                let row = props.found.rows.get(place)?;
                Some(html! {
                    <Arrangement key={row.name.clone()} place={place} found={props.found.clone()}
                        on_bench={props.on_bench == Some(place)} />
                })
            }) }
        </section>
    }
}

/// Properties of [`Arrangement`].
#[derive(Properties, PartialEq)]
struct ArrangementProps {
    found: Rc<Found>,
    place: usize,
    on_bench: bool,
}

/// One arrangement: its numbers, and what it is like.
#[component]
fn Arrangement(props: &ArrangementProps) -> Html {
    let bench = use_bench();
    let Some(row) = props.found.rows.get(props.place) else {
        return html! {};
    };
    let open = bench.on(input(TwoSpeedsInput::Open(props.place)));
    html! {
        <details class="arrangement" open={props.place == 0}>
            <summary>
                <span class="arrangement-name">{ &row.name }if props.on_bench { <span class="quiet">{ "on the bench" }</span> }</span>
                { figures(&props.found.columns, row) }
                if let Some(why) = &row.why { <span class="arrangement-why">{ why }</span> }
            </summary>
            <p>{ &row.works }</p>
            <dl class="arrangement-facts">
                { for row.facts.iter().map(fact) }
                if !row.catches.is_empty() {
                    <dt>{ "The catch" }</dt>
                    <dd>{ for row.catches.iter().map(|catch| html! { <p>{ catch }</p> }) }</dd>
                }
            </dl>
            <button type="button" class="button" onclick={open} disabled={props.on_bench}
                aria-label={format!("Open as a layout: {}", row.name)}>{ "Open as a layout" }</button>
        </details>
    }
}

/// A fact, line under line.
fn fact(fact: &Fact) -> Html {
    html! {
        <>
            <dt>{ fact.name }</dt>
            <dd>
                { for fact.lines.iter().map(|line| html! { <p>{ line }</p> }) }
                if let Some(small) = &fact.small { <small class="quiet">{ small }</small> }
            </dd>
        </>
    }
}

/// Numbers with their names.
fn figures(columns: &[String; 4], row: &Row) -> Html {
    html! {
        <span class="arrangement-figures">
            { for columns.iter().zip(&row.figures).map(|(column, number)| figure(column, number)) }
        </span>
    }
}

fn figure(column: &str, number: &Figure) -> Html {
    let class = match number.better {
        Some(true) => "gain is-better",
        Some(false) => "gain is-worse",
        None => "gain",
    };
    html! {
        <span class="arrangement-figure">
            <span class="quiet">{ column }</span>
            <span class="figure-number">{ &number.text }</span>
            if let Some(gain) = &number.gain { <span class={class}>{ gain }</span> }
        </span>
    }
}
