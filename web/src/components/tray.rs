//! The parts tray: drawn symbols with their names, grouped by use.

use layshaft_editor::{Entry, Group, Tool, catalogue};
use yew::prelude::*;

use super::part_button::PartButton;

/// Properties of [`Tray`].
#[derive(Properties, PartialEq)]
pub struct TrayProps {
    /// The tool in hand.
    pub tool: Tool,
    /// Whether the tray is pulled up, on a phone.
    pub open: bool,
}

/// A row along the front edge of the bench; on a phone it comes up from there.
#[component]
pub fn Tray(props: &TrayProps) -> Html {
    html! {
        <section class={classes!("tray", props.open.then_some("is-open"))} aria-label="Parts tray" id="tray">
            { for Group::ALL.into_iter().map(|group| html! {
                <div class="tray-group" key={group.name()}>
                    <h3>{ group.name() }</h3>
                    <div class="tray-parts">
                        { for catalogue::entries().iter().filter(|entry| entry.group == group).map(|entry| part(entry, props.tool)) }
                    </div>
                </div>
            }) }
        </section>
    }
}

fn part(entry: &'static Entry, tool: Tool) -> Html {
    html! { <PartButton key={entry.name} {entry} in_hand={tool == Tool::Place(entry.kind)} /> }
}
