//! The small picture of a layout on its card.

use layshaft_editor::shelf::Thumbnail;
use yew::prelude::*;

/// Properties of [`ThumbnailView`].
#[derive(Properties, PartialEq)]
pub struct ThumbnailViewProps {
    /// What is drawn.
    pub picture: Thumbnail,
}

/// Power, lines and parts; nothing where there is no picture.
#[component]
pub fn ThumbnailView(props: &ThumbnailViewProps) -> Html {
    let Thumbnail {
        view_box,
        power,
        lines,
        parts,
    } = &props.picture;
    if view_box.is_empty() {
        return html! { <span class="thumbnail" /> };
    }
    html! {
        <svg class="thumbnail" viewBox={view_box.clone()} aria-hidden="true">
            <path class="thumbnail-lines" d={lines.clone()} />
            <path class="thumbnail-power" d={power.clone()} />
            <path class="thumbnail-parts" d={parts.clone()} />
        </svg>
    }
}
