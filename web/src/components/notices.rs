//! Sentences over the bench about other tabs, the browser's store and a newer program, with what can be done.

use std::rc::Rc;

use layshaft_editor::shelf::Notice;
use layshaft_editor::{Input, ShelfInput};
use yew::prelude::*;

use super::icon::{Icon, Picture};
use crate::hooks::use_bench;

/// Properties of [`Notices`].
#[derive(Properties, PartialEq)]
pub struct NoticesProps {
    /// The sentences.
    pub notices: Rc<Vec<Notice>>,
}

/// One bar for each; none of them is in the way of work.
#[component]
pub fn Notices(props: &NoticesProps) -> Html {
    let bench = use_bench();
    html! {
        <div class="notices" role="status">
            { for props.notices.iter().map(|notice| html! {
                <div class="message" key={notice.text.clone()}>
                    <p class="message-words">{ &notice.text }</p>
                    { for notice.offers.iter().map(|(words, input)| html! {
                        <button type="button" class="button" onclick={bench.on(input.clone())}>{ *words }</button>
                    }) }
                    <button type="button" class="button plain" aria-label="Put this notice away" onclick={bench.on(Input::Shelf(ShelfInput::Dismiss(notice.about)))}>
                        <Icon of={Picture::Close} />
                    </button>
                </div>
            }) }
        </div>
    }
}
