//! A message over the bench: a link that could not be opened, a file with faults. It stays until dismissed.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::session::Message;
use yew::prelude::*;

use super::icon::{Icon, Picture};
use crate::hooks::use_bench;

/// Properties of [`MessageBar`].
#[derive(Properties, PartialEq)]
pub struct MessageBarProps {
    /// The message.
    pub message: Rc<Message>,
    /// What is offered beside it.
    pub offer: Option<&'static str>,
}

/// What is wrong in a sentence, all its lines, and a button that puts it away.
#[component]
pub fn MessageBar(props: &MessageBarProps) -> Html {
    let bench = use_bench();
    let message = &props.message;
    html! {
        <div class={classes!("message", message.is_error.then_some("is-error"))} role={if message.is_error { "alert" } else { "status" }}>
            <div class="message-words">
                <p>{ &message.text }</p>
                if !message.lines.is_empty() {
                    <ul>{ for message.lines.iter().map(|line| html! { <li>{ line }</li> }) }</ul>
                }
            </div>
            if let Some(offer) = props.offer {
                <button type="button" class="button" onclick={bench.on(Input::TakeOffer)}>{ offer }</button>
            }
            <button type="button" class="button plain" aria-label="Dismiss the message" onclick={bench.on(Input::DismissMessage)}>
                <Icon of={Picture::Close} />
            </button>
        </div>
    }
}
