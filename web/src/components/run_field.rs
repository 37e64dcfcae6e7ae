//! A field of the run sheet: label, entry with its unit inside, hint, and what is wrong with it.

use layshaft_editor::Input;
use layshaft_editor::runs::{RunEntry, RunField, RunInput};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::hooks::{Bench, use_bench};

/// Properties of [`RunFieldRow`] and [`RunFieldEntry`].
#[derive(Properties, PartialEq)]
pub struct RunFieldProps {
    /// The field.
    pub entry: RunEntry,
}

/// The field with its label over it.
#[component]
pub fn RunFieldRow(props: &RunFieldProps) -> Html {
    let entry = &props.entry;
    html! {
        <div class="field">
            <label for={id(entry.field)}>{ &entry.label }</label>
            <RunFieldEntry entry={entry.clone()} />
            if !entry.hint.is_empty() { <p class="field-hint">{ entry.hint }</p> }
        </div>
    }
}

/// The entry alone, for a table that has its labels in its head.
#[component]
pub fn RunFieldEntry(props: &RunFieldProps) -> Html {
    let bench = use_bench();
    let entry = &props.entry;
    let id = id(entry.field);
    let problem_id = format!("{id}-problem");
    html! {
        <>
            <div class="field-entry">
                <input id={id} class="entry" type="text" inputmode="decimal" autocomplete="off" spellcheck="false" value={entry.text.clone()}
                    aria-label={entry.label.clone()} aria-invalid={entry.problem.is_some().then_some("true")} aria-describedby={problem_id.clone()}
                    oninput={typed(&bench, entry.field)} onkeydown={on_key(&bench)} onblur={bench.on(Input::Run(RunInput::Keep))} />
                <span class="unit" aria-hidden="true">{ entry.unit }</span>
            </div>
            if let Some(problem) = &entry.problem { <p class="field-problem" id={problem_id} role="alert">{ problem }</p> }
        </>
    }
}

fn id(field: RunField) -> String {
    match field {
        RunField::Length(number) => format!("run-length-{number}"),
        RunField::Slope(number) => format!("run-slope-{number}"),
        RunField::FromSpeed => "run-from-speed".to_owned(),
        RunField::Limit => "run-limit".to_owned(),
        RunField::Lift => "run-lift".to_owned(),
    }
}

fn typed(bench: &Bench, field: RunField) -> Callback<InputEvent> {
    bench.0.reform(move |event: InputEvent| {
        let text = event.target_unchecked_into::<HtmlInputElement>().value();
        Input::Run(RunInput::Type { field, text })
    })
}

/// Enter keeps, Esc takes back.
fn on_key(bench: &Bench) -> Callback<KeyboardEvent> {
    let bench = bench.clone();
    Callback::from(move |event: KeyboardEvent| {
        let input = match event.key().as_str() {
            "Enter" if event.ctrl_key() || event.meta_key() => Input::Act(layshaft_editor::Action::Run),
            "Enter" => Input::Run(RunInput::Keep),
            "Escape" => Input::Run(RunInput::GiveUp),
            _ => return,
        };
        event.prevent_default();
        event.stop_propagation();
        bench.send(input);
    })
}
