//! What came of a run: the sentence, the facts, where the energy went.

use std::rc::Rc;

use layshaft_editor::runs::{Fact, RunResult};
use yew::prelude::*;

use super::cell_view::number;

/// Properties of [`RunResults`].
#[derive(Properties, PartialEq)]
pub struct RunResultsProps {
    /// What came of it.
    pub result: Rc<RunResult>,
}

/// The sentence in large type, facts beside energies.
#[component]
pub fn RunResults(props: &RunResultsProps) -> Html {
    let result = &props.result;
    let class = classes!(
        "run-headline",
        (result.failed || result.fell_short).then_some("is-short")
    );
    html! {
        <>
            <h3 {class}>{ &result.headline }</h3>
            if !result.facts.is_empty() { <dl class="results run-facts">{ for result.facts.iter().map(fact) }</dl> }
            if !result.energy.is_empty() {
                <details class="fold">
                    <summary>{ &result.energy_line }</summary>
                    <dl class="results">{ for result.energy.iter().map(fact) }</dl>
                    <p class="quiet">{ &result.balance }</p>
                </details>
            }
        </>
    }
}

fn fact(fact: &Fact) -> Html {
    html! {
        <div class={classes!("result", fact.part.then_some("is-part"))} key={fact.name}>
            <dt>{ fact.name }</dt><dd>{ number(&fact.value) }</dd>
        </div>
    }
}
