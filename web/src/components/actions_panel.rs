//! The searchable list of everything that can be done, with its keys.

use layshaft_editor::actions::ActionInfo;
use layshaft_editor::search;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::browser::focus;
use crate::hooks::{Bench, use_bench};

/// The id of the search field.
const SEARCH: &str = "action-search";

/// A search field over the list; Enter does the first one found.
#[component]
pub fn ActionsPanel() -> Html {
    let bench = use_bench();
    let query = use_state_eq(String::new);
    let found = search::actions(&query);
    // Whoever opens the list wants to type; no other panel takes the focus.
    use_effect_with((), |()| focus::on(SEARCH));
    let on_input = {
        let query = query.clone();
        Callback::from(move |event: InputEvent| {
            query.set(event.target_unchecked_into::<HtmlInputElement>().value())
        })
    };
    let first = found.first().cloned();
    let on_key = {
        let bench = bench.clone();
        Callback::from(move |event: KeyboardEvent| {
            if let ("Enter", Some(info)) = (event.key().as_str(), &first) {
                event.prevent_default();
                bench.send(layshaft_editor::Input::Act(info.action.clone()));
            }
        })
    };
    html! {
        <div class="actions">
            <label class="out-of-sight" for={SEARCH}>{ "Search the actions" }</label>
            <input id={SEARCH} class="entry" type="search" placeholder="What do you want to do?" autocomplete="off"
                value={(*query).clone()} oninput={on_input} onkeydown={on_key} />
            if found.is_empty() { <p class="empty">{ "No action has these words. Try a shorter one." }</p> }
            <ul class="action-list" aria-label="Actions">{ for found.iter().map(|info| entry(&bench, info)) }</ul>
        </div>
    }
}

fn entry(bench: &Bench, info: &ActionInfo) -> Html {
    html! {
        <li key={info.name.clone()}>
            <button type="button" class="action" title={info.help} onclick={bench.act(info.action.clone())}>
                <span>{ &info.name }</span>if !info.key.is_empty() { <kbd>{ &info.key }</kbd> }
            </button>
        </li>
    }
}
