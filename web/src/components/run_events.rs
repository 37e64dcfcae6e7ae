//! What happened in a run, in order of time; each goes to its moment.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::runs::{RunInput, RunResult};
use yew::prelude::*;

use super::cell_view::number;
use crate::hooks::use_bench;

/// Properties of [`RunEvents`].
#[derive(Properties, PartialEq)]
pub struct RunEventsProps {
    /// What came of the run.
    pub result: Rc<RunResult>,
}

/// A numbered list of buttons.
#[component]
pub fn RunEvents(props: &RunEventsProps) -> Html {
    let bench = use_bench();
    html! {
        <>
            <h3 class="panel-heading">{ "What happens" }</h3>
            <ol class="run-events" aria-label="Events of the run">
                { for props.result.events.iter().enumerate().map(|(place, event)| html! {
                    <li key={place}>
                        <button type="button" class="run-event" onclick={bench.on(Input::Run(RunInput::ToEvent(place)))}>
                            <span class="run-event-number">{ place + 1 }</span>
                            <span class="run-event-time">{ number(&event.time) }</span>
                            <span>{ &event.words }</span>
                        </button>
                    </li>
                }) }
            </ol>
        </>
    }
}
