//! The sheet inside another page: drawing, positions and title block, and the way to the whole program.

use yew::prelude::*;

use super::sheet::Sheet;
use crate::browser::address;
use crate::store::Store;

/// Properties of [`EmbedView`].
#[derive(Properties, PartialEq)]
pub struct EmbedViewProps {
    /// The session that it shows.
    pub store: UseReducerHandle<Store>,
}

/// The sheet alone.
#[component]
pub fn EmbedView(props: &EmbedViewProps) -> Html {
    let link = address::link(&props.store.session().link());
    html! {
        <main class="page is-embedded">
            <h1 class="out-of-sight">{ &props.store.session().layout().title }</h1>
            <Sheet store={props.store.clone()} />
            <p class="embed-foot"><a class="button" href={link} target="_blank" rel="noopener">{ "Open in Layshaft" }</a></p>
        </main>
    }
}
