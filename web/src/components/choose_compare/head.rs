//! What stands over a variant's column: its letter, its name to be typed, its position, what can be done with it.

use layshaft_editor::choosing::compare::VariantHead;
use layshaft_editor::choosing::{Choice, CompareInput};
use web_sys::{HtmlSelectElement, HtmlTextAreaElement};
use yew::prelude::*;

use super::send;
use crate::components::icon::{Icon, Picture};
use crate::hooks::{Bench, use_bench};

/// Properties of [`CompareHead`].
#[derive(Properties, PartialEq)]
pub struct CompareHeadProps {
    /// What it shows.
    pub head: VariantHead,
}

/// The heading of a column, which stays in sight where there is room: letter and name.
#[component]
pub fn CompareHead(props: &CompareHeadProps) -> Html {
    let bench = use_bench();
    let head = &props.head;
    html! {
        <th scope="col" id={head.key.clone()}>
            <div class="compare-title">
                <span class="compare-letter">{ head.letter }</span>
                <VariantName head={head.clone()} />
                if head.can_be_removed {
                    <button type="button" class="button plain" aria-label={format!("Take {} away", head.name)} onclick={act(&bench, CompareInput::Remove(head.number))}>
                        <Icon of={Picture::Close} />
                    </button>
                }
            </div>
        </th>
    }
}

/// What can be done with a variant, under its heading.
#[component]
pub fn CompareTools(props: &CompareHeadProps) -> Html {
    let bench = use_bench();
    let head = &props.head;
    html! {
        <td headers={head.key.clone()}>
            <div class="compare-tools">
                if let Some(choice) = &head.positions { { position_list(head, choice, &bench) } }
                if let Some(problem) = &head.problem { <p class="field-problem">{ problem }</p> }
                if head.can_be_put {
                    <button type="button" class="button" aria-label={format!("Put {} on the bench", head.name)}
                        onclick={act(&bench, CompareInput::PutOnBench(head.number))}>{ "Put on the bench" }</button>
                } else {
                    <p class="quiet compare-origin">{ head.origin }</p>
                }
                if head.is_base {
                    <p class="quiet compare-origin">{ "All are measured against this" }</p>
                } else if head.can_be_removed {
                    <button type="button" class="link-like" aria-label={format!("Measure against {}", head.name)}
                        onclick={act(&bench, CompareInput::Base(head.number))}>{ "Measure against this" }</button>
                }
            </div>
        </td>
    }
}

fn act(bench: &Bench, input: CompareInput) -> Callback<MouseEvent> {
    let bench = bench.clone();
    Callback::from(move |_| send(&bench, input.clone()))
}

/// The name as a field: long ones wrap, Enter ends typing. What is typed is kept here until it is done, because the table
/// is drawn anew with every number that comes in.
#[component]
fn VariantName(props: &CompareHeadProps) -> Html {
    let bench = use_bench();
    let draft = use_state_eq(|| None::<String>);
    let oninput = {
        let draft = draft.setter();
        Callback::from(move |event: InputEvent| {
            draft.set(Some(event.target_unchecked_into::<HtmlTextAreaElement>().value()));
        })
    };
    let onchange = {
        let (draft, number) = (draft.setter(), props.head.number);
        Callback::from(move |event: Event| {
            let text = event.target_unchecked_into::<HtmlTextAreaElement>().value();
            draft.set(None);
            send(&bench, CompareInput::Rename(number, text));
        })
    };
    let value = draft.as_ref().unwrap_or(&props.head.name).clone();
    html! {
        <textarea class="entry" rows="2" autocomplete="off" spellcheck="false" {value}
            aria-label={format!("Name of variant {}", props.head.letter)} {oninput} {onchange} onkeydown={leave_on_enter} />
    }
}

fn leave_on_enter(event: KeyboardEvent) {
    if event.key() == "Enter" {
        event.prevent_default();
        // A field that refuses to be left keeps the focus, which does no harm.
        let _ = event.target_unchecked_into::<HtmlTextAreaElement>().blur();
    }
}

fn position_list(head: &VariantHead, choice: &Choice, bench: &Bench) -> Html {
    let (number, bench) = (head.number, bench.clone());
    let chosen = Callback::from(move |event: Event| {
        let value = event.target_unchecked_into::<HtmlSelectElement>().value();
        send(&bench, CompareInput::Position(number, value));
    });
    html! {
        <select id={choice.key.clone()} class="entry" aria-label={format!("Position of {}", head.name)} onchange={chosen}>
            { for choice.options.iter().map(|option| html! {
                <option value={option.value.clone()} selected={option.chosen}>{ &option.name }</option>
            }) }
        </select>
    }
}
