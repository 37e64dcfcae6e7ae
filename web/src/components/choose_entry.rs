//! Fields of the sheet for choosing: an entry with its unit inside, and a list to choose from.

use layshaft_editor::choosing::{Choice, ChoiceOption, Entry};
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// Properties of [`ChooseEntry`].
#[derive(Properties, PartialEq)]
pub struct ChooseEntryProps {
    /// The field.
    pub entry: Entry,
    /// All of its text, whenever it is typed into.
    pub on_type: Callback<String>,
    /// It was left, or Enter was pressed in it.
    #[prop_or_default]
    pub on_keep: Callback<()>,
}

/// A field with its label over it.
#[component]
pub fn ChooseEntry(props: &ChooseEntryProps) -> Html {
    let entry = &props.entry;
    let problem_id = format!("{}-problem", entry.key);
    let hint_id = format!("{}-hint", entry.key);
    let describes = if entry.problem.is_some() {
        problem_id.clone()
    } else {
        hint_id.clone()
    };
    let typed = props
        .on_type
        .reform(|event: InputEvent| event.target_unchecked_into::<HtmlInputElement>().value());
    html! {
        <div class="field">
            <label for={entry.key.clone()}>{ &entry.label }</label>
            <div class="field-entry">
                <input id={entry.key.clone()} class="entry" type="text" autocomplete="off" spellcheck="false" value={entry.text.clone()}
                    aria-invalid={entry.problem.is_some().then_some("true")} aria-describedby={describes}
                    oninput={typed} onkeydown={on_key(&props.on_keep)} onblur={props.on_keep.reform(|_| ())} />
                if !entry.unit.is_empty() { <span class="unit" aria-hidden="true">{ &entry.unit }</span> }
            </div>
            if let Some(problem) = &entry.problem { <p class="field-problem" id={problem_id} role="alert">{ problem }</p> }
            if !entry.hint.is_empty() { <p class="field-hint" id={hint_id}>{ &entry.hint }</p> }
        </div>
    }
}

/// Enter keeps.
fn on_key(keep: &Callback<()>) -> Callback<KeyboardEvent> {
    let keep = keep.clone();
    Callback::from(move |event: KeyboardEvent| {
        if event.key() == "Enter" {
            event.prevent_default();
            event.stop_propagation();
            keep.emit(());
        }
    })
}

/// Properties of [`ChooseList`].
#[derive(Properties, PartialEq)]
pub struct ChooseListProps {
    /// What can be chosen.
    pub choice: Choice,
    /// The value that was chosen.
    pub on_choose: Callback<String>,
}

/// A list to choose from with its label over it.
#[component]
pub fn ChooseList(props: &ChooseListProps) -> Html {
    let choice = &props.choice;
    let hint_id = format!("{}-hint", choice.key);
    let chosen = props
        .on_choose
        .reform(|event: Event| event.target_unchecked_into::<HtmlSelectElement>().value());
    html! {
        <div class="field">
            <label for={choice.key.clone()}>{ &choice.label }</label>
            <select id={choice.key.clone()} class="entry" onchange={chosen} aria-describedby={hint_id.clone()}>
                { for choice.options.chunk_by(|one, other| one.group == other.group).map(group) }
            </select>
            if !choice.hint.is_empty() { <p class="field-hint" id={hint_id}>{ &choice.hint }</p> }
        </div>
    }
}

fn group(options: &[ChoiceOption]) -> Html {
    let listed = html! { <>{ for options.iter().map(|option| html! {
        <option value={option.value.clone()} selected={option.chosen}>{ &option.name }</option>
    }) }</> };
    match options.first() {
        Some(first) if !first.group.is_empty() => {
            html! { <optgroup label={first.group.clone()}>{ listed }</optgroup> }
        }
        _ => listed,
    }
}
