//! A small form: a motor measured at two loads, from which its four numbers are found.

use std::rc::Rc;

use layshaft_editor::Units;
use layshaft_editor::fields::measured::{ENTRIES, Entry, fill};
use layshaft_layout::{Id, Layout};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::hooks::use_bench;

/// What is typed, one text for each entry.
type Texts = [String; ENTRIES.len()];

/// Properties of [`MeasuredPoints`].
#[derive(Properties, PartialEq)]
pub struct MeasuredPointsProps {
    /// The motor.
    pub motor: Id,
    /// Units that bare numbers are read in.
    pub units: Units,
    /// The layout that it is in.
    pub layout: Rc<Layout>,
}

/// Folded away until asked for; what is typed stays in the form until it is taken over.
#[component]
pub fn MeasuredPoints(props: &MeasuredPointsProps) -> Html {
    let bench = use_bench();
    let texts = use_state(Texts::default);
    let problem = use_state(|| None::<(Option<usize>, String)>);
    let submit = {
        let (texts, problem) = (texts.clone(), problem.clone());
        let (motor, layout, units) = (props.motor.clone(), props.layout.clone(), props.units);
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            match fill(&layout, &motor, &texts, units) {
                Ok(input) => {
                    problem.set(None);
                    bench.send(input);
                }
                Err(wrong) => problem.set(Some(wrong)),
            }
        })
    };
    let wrong_at = |place| matches!(&*problem, Some((at, _)) if *at == Some(place));
    html! {
        <details class="fold">
            <summary>{ "Enter two measured points" }</summary>
            <form class="measured" onsubmit={submit} novalidate=true>
                <p class="quiet">{ "No data sheet? Measure speed, torque and current at two loads and one voltage; the points as far apart as you can." }</p>
                { for ENTRIES.iter().enumerate().map(|(place, entry)| row(place, entry, props.units, &texts, wrong_at(place))) }
                if let Some((_, sentence)) = &*problem { <p class="field-problem" role="alert">{ sentence }</p> }
                <button type="submit" class="button primary">{ "Fill in the numbers" }</button>
            </form>
        </details>
    }
}

fn row(place: usize, entry: &Entry, units: Units, texts: &UseStateHandle<Texts>, wrong: bool) -> Html {
    let id = format!("measured-{place}");
    let typed = {
        let texts = texts.clone();
        Callback::from(move |event: InputEvent| {
            let mut changed = (*texts).clone();
            changed[place] = event.target_unchecked_into::<HtmlInputElement>().value();
            texts.set(changed);
        })
    };
    html! {
        <div class="field" key={place}>
            <label for={id.clone()}>{ entry.label }</label>
            <div class="field-entry">
                <input {id} class="entry" inputmode="decimal" autocomplete="off" value={texts[place].clone()} oninput={typed}
                    aria-invalid={wrong.then_some("true")} />
                <span class="unit" aria-hidden="true">{ entry.unit(units) }</span>
            </div>
        </div>
    }
}
