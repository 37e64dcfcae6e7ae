//! How an element stands, as a mark in a small circle: it holds, slips, or is overrun.

use layshaft_editor::Point;
use layshaft_editor::scene::Mark;
use yew::prelude::*;

/// Properties of [`MarkView`].
#[derive(Properties, PartialEq)]
pub struct MarkViewProps {
    /// The mark.
    pub mark: Mark,
    /// Its centre.
    pub at: Point,
}

/// The mark on its ground.
#[component]
pub fn MarkView(props: &MarkViewProps) -> Html {
    let place = format!("translate({} {})", props.at.x, props.at.y);
    html! {
        <g class="mark" transform={place}>
            <circle r={Mark::RADIUS.to_string()} />
            <path d={props.mark.path()} />
        </g>
    }
}
