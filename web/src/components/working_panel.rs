//! The working of one ratio, line by line in exact fractions.

use std::rc::Rc;

use layshaft_editor::explaining::Explanation;
use layshaft_editor::{Input, WorkingSheet};
use layshaft_layout::Id;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

use super::hide_answers::HideAnswers;
use super::working_line::WorkingLine;
use crate::hooks::use_bench;

/// Properties of [`WorkingPanel`].
#[derive(Properties, PartialEq)]
pub struct WorkingPanelProps {
    /// Where a number of the ledger that was pressed comes from.
    pub explanation: Option<Rc<Explanation>>,
    /// The working; none where no shaft's speed is settled.
    pub sheet: Option<Rc<WorkingSheet>>,
    /// Whether answers are hidden.
    pub hides_answers: bool,
}

/// The choice of the shaft, the lines, and the switch that hides the answers.
#[component]
pub fn WorkingPanel(props: &WorkingPanelProps) -> Html {
    let bench = use_bench();
    let explained = props.explanation.as_deref().map(explanation);
    let Some(sheet) = &props.sheet else {
        return html! { <>{ explained }<p class="empty">{ "Select a shaft whose speed the drive settles, and its ratio is worked out here step by step." }</p></> };
    };
    let choose = bench.0.reform(|event: Event| {
        Input::Working(Id::from(
            &event.target_unchecked_into::<HtmlSelectElement>().value(),
        ))
    });
    html! {
        <div class="working">
            { explained }
            <h3 class="details-title">{ &sheet.title }</h3>
            <div class="working-tools">
                <label class="choice">{ "Shaft" }
                    <select class="entry" onchange={choose}>
                        { for sheet.shafts.iter().map(|shaft| html! {
                            <option value={shaft.as_str().to_owned()} selected={*shaft == sheet.shaft}>{ shaft.as_str() }</option>
                        }) }
                    </select>
                </label>
                <HideAnswers hidden={props.hides_answers} />
            </div>
            <ol class="working-lines">
                { for sheet.lines.iter().enumerate().map(|(number, line)| html! { <WorkingLine key={number} {number} line={line.clone()} /> }) }
            </ol>
        </div>
    }
}

/// Where a number comes from, a sentence after the other.
fn explanation(explanation: &Explanation) -> Html {
    html! {
        <section class="explanation" aria-label={explanation.title.clone()}>
            <h3 class="details-title">{ &explanation.title }</h3>
            <ol>{ for explanation.lines.iter().map(|line| html! { <li>{ line }</li> }) }</ol>
        </section>
    }
}
