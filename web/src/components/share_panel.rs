//! The link that holds the whole layout.

use layshaft_editor::Action;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::browser::address;
use crate::hooks::use_bench;

/// Properties of [`SharePanel`].
#[derive(Properties, PartialEq)]
pub struct SharePanelProps {
    /// The fragment that holds the layout.
    pub fragment: AttrValue,
    /// What became of the last attempt to copy it; none before one.
    pub copied: Option<bool>,
}

/// The link in a field that can always be selected, because a browser may refuse its clipboard.
#[component]
pub fn SharePanel(props: &SharePanelProps) -> Html {
    let bench = use_bench();
    let link = address::link(&props.fragment);
    let select_all =
        Callback::from(|event: FocusEvent| event.target_unchecked_into::<HtmlInputElement>().select());
    html! {
        <div class="share">
            <p>{ "This link holds the whole layout. Whoever opens it sees what you see; it reaches no server." }</p>
            <label class="choice" for="share-link">{ "Link to this layout" }</label>
            <input id="share-link" class="entry" readonly=true value={link.clone()} onfocus={select_all} />
            <div class="commands">
                <button type="button" class="button primary" onclick={bench.act(Action::Share)}>{ "Copy the link" }</button>
                <button type="button" class="button" onclick={bench.act(Action::Download)}>{ "Save as a file" }</button>
            </div>
            <p class="share-state" role="status">{ state(props.copied) }</p>
            <p class="quiet">{ format!("{} characters long.", link.len()) }</p>
        </div>
    }
}

const fn state(copied: Option<bool>) -> &'static str {
    match copied {
        None => "",
        Some(true) => "The link is on the clipboard.",
        Some(false) => "The browser keeps its clipboard closed. Select the link above and copy it by hand.",
    }
}
