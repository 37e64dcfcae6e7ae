//! The searchable list of everything that can be done, with its keys.

use layshaft_editor::Input;
use layshaft_editor::session::Listed;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::browser::focus;
use crate::hooks::{Bench, use_bench};
use crate::store::Store;

/// The id of the search field.
const SEARCH: &str = "action-search";

/// The id of a line.
fn line_id(number: usize) -> String {
    format!("action-line-{number}")
}

/// Properties of [`ActionsPanel`].
#[derive(Properties, PartialEq)]
pub struct ActionsPanelProps {
    /// The session, which knows what applies.
    pub store: UseReducerHandle<Store>,
}

/// A search field over the list; arrow keys walk through it, Enter does the line that is marked.
#[component]
pub fn ActionsPanel(props: &ActionsPanelProps) -> Html {
    let bench = use_bench();
    let session = props.store.session();
    let query = use_state_eq(|| session.action_query().to_owned());
    let marked = use_state_eq(|| 0_usize);
    let found = session.actions(&query);
    let current = (*marked).min(found.len().saturating_sub(1));
    // Whoever opens the list wants to type; no other panel takes the focus.
    use_effect_with((), |()| focus::on(SEARCH));
    use_effect_with(current, |current| focus::show(&line_id(*current)));
    let on_input = {
        let (query, marked) = (query.clone(), marked.clone());
        Callback::from(move |event: InputEvent| {
            query.set(event.target_unchecked_into::<HtmlInputElement>().value());
            marked.set(0);
        })
    };
    let on_key = {
        let (bench, marked, count) = (bench.clone(), marked.clone(), found.len());
        let chosen = found.get(current).map(|listed| listed.info.action.clone());
        Callback::from(move |event: KeyboardEvent| {
            match (event.key().as_str(), &chosen) {
                ("Enter", Some(action)) => bench.send(Input::Act(action.clone())),
                ("ArrowDown", _) if current + 1 < count => marked.set(current + 1),
                ("ArrowUp", _) => marked.set(current.saturating_sub(1)),
                ("ArrowDown", _) => {}
                _ => return,
            }
            event.prevent_default();
        })
    };
    html! {
        <div class="actions">
            <label class="out-of-sight" for={SEARCH}>{ "Search the actions" }</label>
            <input id={SEARCH} class="entry" type="search" placeholder="What do you want to do?" autocomplete="off"
                role="combobox" aria-expanded="true" aria-controls="action-list" aria-activedescendant={(!found.is_empty()).then(|| line_id(current))}
                value={(*query).clone()} oninput={on_input} onkeydown={on_key} />
            if found.is_empty() { <p class="empty">{ "No action has these words. Try a shorter one." }</p> }
            <ul class="action-list" id="action-list" aria-label="Actions">
                { for found.iter().enumerate().map(|(number, listed)| entry(&bench, number, listed, number == current)) }
            </ul>
        </div>
    }
}

fn entry(bench: &Bench, number: usize, listed: &Listed, is_current: bool) -> Html {
    let info = &listed.info;
    let class = classes!(
        "action",
        listed.why_not.is_some().then_some("is-idle"),
        is_current.then_some("is-current")
    );
    html! {
        <li key={info.name.clone()}>
            <button type="button" id={line_id(number)} {class} title={info.help} aria-disabled={listed.why_not.map(|_| "true")} onclick={bench.act(info.action.clone())}>
                <span>{ &info.name }if let Some(why) = listed.why_not { <span class="why-not">{ why }</span> }</span>
                if !info.key.is_empty() { <kbd>{ &info.key }</kbd> }
            </button>
        </li>
    }
}
