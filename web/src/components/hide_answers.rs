//! The switch that hides all answers, so that a group can work them out first.

use layshaft_editor::Action;
use yew::prelude::*;

use crate::hooks::use_bench;

/// Properties of [`HideAnswers`].
#[derive(Properties, PartialEq)]
pub struct HideAnswersProps {
    /// Whether they are hidden now.
    pub hidden: bool,
}

/// A switch with its words.
#[component]
pub fn HideAnswers(props: &HideAnswersProps) -> Html {
    let bench = use_bench();
    html! {
        <label class="switch">
            <input type="checkbox" role="switch" checked={props.hidden} onchange={bench.act(Action::HideAnswers)} />
            { "Hide answers" }
        </label>
    }
}
