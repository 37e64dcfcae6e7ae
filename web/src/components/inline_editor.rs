//! The field that edits a number where it stands on the drawing.

use std::rc::Rc;

use layshaft_editor::{Editing, Input, View, keys};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::hooks::{Bench, key_press, use_bench};

/// Properties of [`InlineEditor`].
#[derive(Properties, PartialEq)]
pub struct InlineEditorProps {
    /// The field being edited.
    pub editing: Rc<Editing>,
    /// Where the bench is looked at.
    pub view: View,
}

/// An input laid exactly over the number; every keystroke is computed at once.
#[component]
pub fn InlineEditor(props: &InlineEditorProps) -> Html {
    let bench = use_bench();
    let editing = &props.editing;
    let Some(place) = editing.place else {
        return html! {};
    };
    let at = props.view.to_screen(place.centre());
    let key = editing.field.key();
    let problem_id = format!("{key}-problem");
    let invalid = editing.problem.is_some();
    html! {
        <div class="inline-editor" style={format!("left:{}px;top:{}px", at.x, at.y)}>
            <input id={key} class="entry" type="text" inputmode="numeric" autocomplete="off" aria-label={editing.spoken.clone()}
                value={editing.text.clone()} size={(editing.text.chars().count().max(2)).to_string()}
                aria-invalid={invalid.then_some("true")} aria-describedby={invalid.then(|| problem_id.clone())}
                oninput={on_input(&bench, editing)} onkeydown={on_key(&bench, editing)} onblur={bench.on(Input::LeaveEdit)} />
            if let Some(problem) = &editing.problem { <p class="field-problem" id={problem_id} role="alert">{ problem }</p> }
        </div>
    }
}

fn on_input(bench: &Bench, editing: &Editing) -> Callback<InputEvent> {
    let field = editing.field.clone();
    bench.0.reform(move |event: InputEvent| {
        let text = event.target_unchecked_into::<HtmlInputElement>().value();
        Input::Type {
            field: field.clone(),
            text,
        }
    })
}

/// Enter keeps, Tab goes on, Esc takes back, arrows step; before anything is typed, keys that begin no number go to the
/// bench.
fn on_key(bench: &Bench, editing: &Editing) -> Callback<KeyboardEvent> {
    let (bench, field, fresh) = (bench.clone(), editing.field.clone(), editing.fresh);
    Callback::from(move |event: KeyboardEvent| {
        let press = key_press(&event);
        if fresh && keys::leaves_number(&press) {
            event.prevent_default();
            event.stop_propagation();
            bench.send(Input::Key(press));
            return;
        }
        let step = if event.shift_key() { 5 } else { 1 };
        let input = match event.key().as_str() {
            "Enter" => Input::EndEdit,
            "Escape" => Input::CancelEdit,
            "Tab" => Input::NextField {
                back: event.shift_key(),
            },
            "ArrowUp" => Input::StepField {
                field: field.clone(),
                by: step,
            },
            "ArrowDown" => Input::StepField {
                field: field.clone(),
                by: -step,
            },
            _ => return,
        };
        event.prevent_default();
        event.stop_propagation();
        bench.send(input);
    })
}
