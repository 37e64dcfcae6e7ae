//! The link that holds the whole layout: copied, as a code for a phone, as a file, inside another page.

use layshaft_editor::{Action, embed};
use wasm_bindgen_futures::spawn_local;
use web_sys::{HtmlInputElement, HtmlTextAreaElement};
use yew::prelude::*;

use super::qr_view::QrView;
use crate::browser::{address, clipboard, file, share};
use crate::hooks::use_bench;

/// Properties of [`SharePanel`].
#[derive(Properties, PartialEq)]
pub struct SharePanelProps {
    /// The fragment that holds the layout.
    pub fragment: AttrValue,
    /// The layout's title.
    pub title: AttrValue,
    /// What its file is called.
    pub file_name: AttrValue,
    /// What is in it.
    pub file_text: AttrValue,
    /// What became of the last attempt to copy it; none before one.
    pub copied: Option<bool>,
}

/// The link in a field that can always be selected, because a browser may refuse its clipboard.
#[component]
pub fn SharePanel(props: &SharePanelProps) -> Html {
    let bench = use_bench();
    let framed = use_state_eq(|| None::<bool>);
    let link = AttrValue::from(address::link(&props.fragment));
    let frame = embed::frame(&address::base(), &props.fragment, &props.title);
    let select_all =
        Callback::from(|event: FocusEvent| event.target_unchecked_into::<HtmlInputElement>().select());
    let select_frame =
        Callback::from(|event: FocusEvent| event.target_unchecked_into::<HtmlTextAreaElement>().select());
    let hand_on = {
        let (title, link) = (props.title.clone(), link.clone());
        Callback::from(move |_: MouseEvent| share::share(&title, &link))
    };
    let ondragstart = {
        let (name, text) = (props.file_name.clone(), props.file_text.clone());
        Callback::from(move |event: DragEvent| {
            if let Some(carried) = event.data_transfer() {
                file::carry(&carried, &name, &text);
            }
        })
    };
    let as_file = {
        let made_of = (
            props.title.clone(),
            props.file_name.clone(),
            props.file_text.clone(),
        );
        use_memo(made_of, |(title, name, text)| share::file(title, name, text))
    };
    let hand_file_on = {
        let as_file = as_file.clone();
        Callback::from(move |_: MouseEvent| {
            if let Some(data) = &*as_file {
                share::hand_on(data);
            }
        })
    };
    let copy_frame = {
        let (framed, frame) = (framed.setter(), frame.clone());
        Callback::from(move |_: MouseEvent| {
            let (framed, frame) = (framed.clone(), frame.clone());
            spawn_local(async move { framed.set(Some(clipboard::copy(&frame).await)) });
        })
    };
    html! {
        <div class="share">
            <p>{ "This link holds the whole layout. Whoever opens it sees what you see; it reaches no server." }</p>
            <label class="choice" for="share-link">{ "Link to this layout" }</label>
            <input id="share-link" class="entry" readonly=true value={link.clone()} onfocus={select_all} />
            <p class="quiet">{ format!("{} characters long.", link.len()) }</p>
            <div class="commands">
                <button type="button" class="button primary" onclick={bench.act(Action::Share)}>{ "Copy the link" }</button>
                if share::can_share() {
                    <button type="button" class="button" onclick={hand_on}>{ "Share with…" }</button>
                }
            </div>
            <p class="share-state" role="status">{ state(props.copied, "The link is on the clipboard.") }</p>
            <h3 class="panel-heading">{ "For a phone" }</h3>
            <QrView link={link.clone()} />
            <h3 class="panel-heading">{ "As a file" }</h3>
            <p class="quiet">{ "Press to save it, or drag it to where it should go." }</p>
            <div class="commands">
                <button type="button" class="button file-chip" draggable="true" {ondragstart} onclick={bench.act(Action::Download)} aria-label={format!("Save as a file: {}", props.file_name)}>{ &props.file_name }</button>
                if as_file.is_some() {
                    <button type="button" class="button" onclick={hand_file_on}>{ "Share the file with…" }</button>
                }
            </div>
            <h3 class="panel-heading">{ "Inside a web page" }</h3>
            <label class="choice" for="share-frame">{ "Paste this into the page: the sheet can be moved and read there, not changed" }</label>
            <textarea id="share-frame" class="entry" readonly=true rows="4" onfocus={select_frame} value={frame} />
            <div class="commands">
                <button type="button" class="button" onclick={copy_frame}>{ "Copy the frame" }</button>
                <a class="button" href={embed::address(&address::base(), &props.fragment)} target="_blank" rel="noopener">{ "See how it looks" }</a>
            </div>
            <p class="share-state" role="status">{ state(*framed, "The frame is on the clipboard.") }</p>
        </div>
    }
}

const fn state(copied: Option<bool>, done: &'static str) -> &'static str {
    match copied {
        None => "",
        Some(true) => done,
        Some(false) => "The browser keeps its clipboard closed. Select the text above and copy it by hand.",
    }
}
