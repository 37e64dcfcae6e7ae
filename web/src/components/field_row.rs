//! A field of the details panel: label, entry with its unit inside, hint, and what is wrong with it.

use layshaft_editor::choosing::{ChooseInput, SweepInput};
use layshaft_editor::{Field, FieldKind, Input};
use web_sys::{HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement};
use yew::prelude::*;

use super::icon::{Icon, Picture};
use crate::hooks::{Bench, use_bench};

/// Properties of [`FieldRow`].
#[derive(Properties, PartialEq)]
pub struct FieldRowProps {
    /// The field.
    pub field: Field,
}

/// Whatever is typed goes to the session at once, which computes with it or says what is wrong.
#[component]
pub fn FieldRow(props: &FieldRowProps) -> Html {
    let bench = use_bench();
    let field = &props.field;
    let id = format!("field-{}", field.field.key());
    let (hint_id, problem_id) = (format!("{id}-hint"), format!("{id}-problem"));
    let describes = if field.problem.is_some() {
        problem_id.clone()
    } else {
        hint_id.clone()
    };
    html! {
        <div class={classes!("field", matches!(field.kind, FieldKind::Toggle).then_some("is-toggle"))}>
            <div class="field-head">
                <label for={id.clone()}>{ &field.label }</label>
                { vary(&bench, field) }
            </div>
            <div class="field-entry">{ entry(&bench, field, id, describes) }
                if !field.unit.is_empty() { <span class="unit" aria-hidden="true">{ field.unit }</span> }
            </div>
            if let Some(problem) = &field.problem { <p class="field-problem" id={problem_id} role="alert">{ problem }</p> }
            if !field.hint.is_empty() { <p class="field-hint" id={hint_id}>{ &*field.hint }</p> }
        </div>
    }
}

/// The button that shows what happens when this number changes; a field that is empty or holds no number has none.
fn vary(bench: &Bench, field: &Field) -> Html {
    let Some(input) = field.varied() else {
        return html! {};
    };
    let name = format!("Vary {}", field.label.to_lowercase());
    let vary = Input::Choose(ChooseInput::Sweep(SweepInput::Vary(input)));
    html! {
        <button type="button" class="field-vary" title={name.clone()} aria-label={name} onclick={bench.on(vary)}><Icon of={Picture::Vary} /></button>
    }
}

fn entry(bench: &Bench, field: &Field, id: String, describes: String) -> Html {
    let invalid = field.problem.is_some().then_some("true");
    let text = field.text.clone();
    match &field.kind {
        FieldKind::Choice(options) | FieldKind::Shaft(options) => html! {
            <select {id} class="entry" onchange={choose(bench, field)} aria-describedby={describes} aria-invalid={invalid}>
                { for options.iter().map(|(value, name)| html! {
                    <option value={value.clone()} selected={*value == field.text}>{ name }</option>
                }) }
            </select>
        },
        FieldKind::Toggle => html! {
            <input {id} type="checkbox" checked={field.text == "true"} onchange={toggle(bench, field)} aria-describedby={describes} />
        },
        FieldKind::LongText => html! {
            <textarea {id} class="entry" rows="4" value={text} oninput={typed_area(bench, field)} onblur={bench.on(Input::EndEdit)} aria-describedby={describes} />
        },
        FieldKind::Number { .. } | FieldKind::Text => {
            let mode = if matches!(field.kind, FieldKind::Text) {
                "text"
            } else {
                "decimal"
            };
            html! {
                <input {id} class="entry" type="text" inputmode={mode} autocomplete="off" spellcheck="false" value={text}
                    oninput={typed(bench, field)} onkeydown={on_key(bench, field)} onblur={bench.on(Input::EndEdit)}
                    aria-invalid={invalid} aria-describedby={describes} />
            }
        }
    }
}

fn typed(bench: &Bench, field: &Field) -> Callback<InputEvent> {
    let field = field.field.clone();
    bench.0.reform(move |event: InputEvent| Input::Type {
        field: field.clone(),
        text: event.target_unchecked_into::<HtmlInputElement>().value(),
    })
}

fn typed_area(bench: &Bench, field: &Field) -> Callback<InputEvent> {
    let field = field.field.clone();
    bench.0.reform(move |event: InputEvent| Input::Type {
        field: field.clone(),
        text: event.target_unchecked_into::<HtmlTextAreaElement>().value(),
    })
}

fn choose(bench: &Bench, field: &Field) -> Callback<Event> {
    let (bench, field) = (bench.clone(), field.field.clone());
    Callback::from(move |event: Event| {
        let text = event.target_unchecked_into::<HtmlSelectElement>().value();
        bench.send(Input::Type {
            field: field.clone(),
            text,
        });
        bench.send(Input::EndEdit);
    })
}

fn toggle(bench: &Bench, field: &Field) -> Callback<Event> {
    let (bench, field) = (bench.clone(), field.field.clone());
    Callback::from(move |event: Event| {
        let text = event
            .target_unchecked_into::<HtmlInputElement>()
            .checked()
            .to_string();
        bench.send(Input::Type {
            field: field.clone(),
            text,
        });
        bench.send(Input::EndEdit);
    })
}

/// Enter keeps, Esc takes back; in a number, arrows step.
fn on_key(bench: &Bench, field: &Field) -> Callback<KeyboardEvent> {
    let (bench, reference) = (bench.clone(), field.field.clone());
    let steps = matches!(field.kind, FieldKind::Number { .. });
    Callback::from(move |event: KeyboardEvent| {
        let by = if event.shift_key() { 5 } else { 1 };
        let input = match event.key().as_str() {
            "Enter" => Input::EndEdit,
            "Escape" => Input::CancelEdit,
            "ArrowUp" if steps => Input::StepField {
                field: reference.clone(),
                by,
            },
            "ArrowDown" if steps => Input::StepField {
                field: reference.clone(),
                by: -by,
            },
            _ => return,
        };
        event.prevent_default();
        event.stop_propagation();
        bench.send(input);
    })
}
