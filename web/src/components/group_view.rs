//! A group on the flow drawing: folded a box with its wires, open a frame round its parts.

use std::rc::Rc;

use layshaft_editor::scene::{GroupItem, Pace};
use yew::prelude::*;

use super::element_view::{is_pressed, tab_index, view_wire};
use super::scene_view::emphasis_class;

/// Properties of [`GroupView`].
#[derive(Properties, PartialEq)]
pub struct GroupViewProps {
    /// The group.
    pub item: Rc<GroupItem>,
    /// Whether the Tab key stops here.
    pub is_stop: bool,
    /// Whether it only shows what moves.
    pub is_copy: bool,
}

/// What is pressed, focused and spoken of; its name is drawn with the labels.
#[component]
pub fn GroupView(props: &GroupViewProps) -> Html {
    let item = &props.item;
    let emphasis = emphasis_class(item.emphasis);
    let class = classes!(
        "group",
        emphasis,
        if item.folded { "is-folded" } else { "is-open-group" },
        item.is_away.then_some("is-away")
    );
    let said = (!props.is_copy).then(|| item.spoken.clone());
    let room = &item.room;
    let corner = if item.folded { "4" } else { "8" };
    html! {
        <g id={(!props.is_copy).then(|| item.key.clone())} {class} role={said.is_some().then_some("button")} tabindex={tab_index(props.is_stop, props.is_copy)}
            aria-pressed={is_pressed(emphasis)} aria-label={said} aria-expanded={(!item.folded).to_string()}>
            if let Some(double) = &item.double_edge { <path class="ribbon-double" d={double.clone()} /> }
            <rect class="group-room" x={room.x.to_string()} y={room.y.to_string()} width={room.width.to_string()} height={room.height.to_string()} rx={corner} />
            if item.folded {
                <rect class="group-inner" x={(room.x + 3.0).to_string()} y={(room.y + 3.0).to_string()}
                    width={(room.width - 6.0).to_string()} height={(room.height - 6.0).to_string()} rx="2" />
            }
        </g>
    }
}

/// Properties of [`GroupWires`].
#[derive(Properties, PartialEq)]
pub struct GroupWiresProps {
    /// The group.
    pub item: Rc<GroupItem>,
    /// How smoothly it moves.
    pub pace: Pace,
}

/// Wires of a folded group with the power along them.
#[component]
pub fn GroupWires(props: &GroupWiresProps) -> Html {
    let item = &props.item;
    html! {
        <g class={classes!("wires-of", emphasis_class(item.emphasis), item.in_loop.then_some("is-loop"))}>
            { for item.wires.iter().map(|wire| view_wire(wire, props.pace)) }
            if let Some(loss) = &item.loss {
                <path class="sliver" d={loss.outline.clone()}><title>{ &loss.title }</title></path>
            }
        </g>
    }
}
