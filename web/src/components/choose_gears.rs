//! Gears for a ratio: what is wanted, the bin, and the trains found.

mod bin;
mod conditions;
mod found;

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::choosing::{
    ChooseInput, Echo, Entry, GearsChoice, GearsField, GearsInput, GearsSheet, Tick, Waiting,
};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use super::choose_entry::{ChooseEntry, ChooseList};
use crate::hooks::{Bench, use_bench};
use bin::GearsBin;
use conditions::GearsConditions;
use found::{GearsFound, GearsFractions};

/// Properties of [`ChooseGears`].
#[derive(Properties, PartialEq)]
pub struct ChooseGearsProps {
    /// What it shows.
    pub sheet: Rc<GearsSheet>,
    /// The search under way.
    pub waiting: Option<Waiting>,
}

/// What is wanted, the bin, and the trains found.
#[component]
pub fn ChooseGears(props: &ChooseGearsProps) -> Html {
    let bench = use_bench();
    let sheet = &props.sheet;
    // What the search goes by stands open where there is room for it, so that the trains are within reach on a phone.
    let roomy = use_memo((), |()| has_room());
    let conditions = html! {
        <details class="fold" open={*roomy || sheet.conditions.open}>
            <summary>{ &sheet.conditions.told }</summary>
            <div class="gears-conditions">
                <div class="choose-fields">
                    { field(&bench, GearsField::Tolerance, &sheet.tolerance) }
                    <ChooseList choice={sheet.stages.clone()} on_choose={choose(&bench, GearsChoice::Stages)} />
                    <ChooseList choice={sheet.sense.clone()} on_choose={choose(&bench, GearsChoice::Sense)} />
                </div>
                <GearsBin bin={sheet.bin.clone()} />
                <GearsConditions rules={sheet.rules.clone()} idlers={sheet.idlers.clone()} />
            </div>
        </details>
    };
    html! {
        <div class="gears">
            <div class="gears-wanted">
                { field(&bench, GearsField::Ratio, &sheet.ratio) }
                if let Some(echo) = &sheet.echo { { told(&bench, echo) } }
            </div>
            <GearsFound results={sheet.results.clone()} place={sheet.place.clone()} waiting={props.waiting.clone()}>
                { conditions }
            </GearsFound>
            <GearsFractions fractions={sheet.fractions.clone()} />
        </div>
    }
}

/// Whether the page is wide enough for everything at once.
fn has_room() -> bool {
    let query = web_sys::window().and_then(|window| window.match_media("(min-width: 700px)").ok().flatten());
    query.is_none_or(|query| query.matches())
}

/// The ratio in words, with a button that turns it round.
fn told(bench: &Bench, echo: &Echo) -> Html {
    html! {
        <p class="gears-echo">
            <strong role="status">{ &echo.told }</strong>
            <button type="button" class="button" onclick={act(bench, GearsInput::TurnRound)}>{ &echo.turn }</button>
        </p>
    }
}

/// Hands an input of this part to the session when something is pressed.
fn act(bench: &Bench, input: GearsInput) -> Callback<MouseEvent> {
    bench.on(Input::Choose(ChooseInput::Gears(input)))
}

fn send(bench: &Bench, input: GearsInput) {
    bench.send(Input::Choose(ChooseInput::Gears(input)));
}

/// A field to type into.
fn field(bench: &Bench, field: GearsField, entry: &Entry) -> Html {
    let on_type = {
        let bench = bench.clone();
        Callback::from(move |text| send(&bench, GearsInput::Type(field, text)))
    };
    let on_keep = {
        let bench = bench.clone();
        Callback::from(move |()| send(&bench, GearsInput::Keep(field)))
    };
    html! { <ChooseEntry entry={entry.clone()} {on_type} {on_keep} /> }
}

/// A word was chosen from a list.
fn choose(bench: &Bench, choice: GearsChoice) -> Callback<String> {
    let bench = bench.clone();
    Callback::from(move |value| send(&bench, GearsInput::Choose(choice, value)))
}

/// Something to switch on or off.
fn tick(bench: &Bench, tick: &Tick) -> Html {
    let switch = tick.switch;
    let on_change = {
        let bench = bench.clone();
        Callback::from(move |event: Event| {
            let on = event.target_unchecked_into::<HtmlInputElement>().checked();
            send(&bench, GearsInput::Switch(switch, on));
        })
    };
    html! {
        <label class="switch"><input type="checkbox" id={tick.key.clone()} checked={tick.on} onchange={on_change} />{ &tick.label }</label>
    }
}
