//! A shaft on the flow drawing: a circle with a marker that turns.

use std::rc::Rc;

use layshaft_editor::scene::{Pace, ShaftItem, Standing, same};
use yew::prelude::*;

use super::element_view::{is_pressed, tab_index};
use super::scene_view::emphasis_class;

/// Properties of [`ShaftView`].
#[derive(Properties)]
pub struct ShaftViewProps {
    /// The shaft.
    pub item: Rc<ShaftItem>,
    /// Whether the Tab key stops here.
    pub is_stop: bool,
    /// Whether it only shows what moves.
    pub is_copy: bool,
    /// Whether what is being dragged would be joined to it.
    pub is_drop: bool,
    /// How smoothly it moves.
    pub pace: Pace,
}

impl PartialEq for ShaftViewProps {
    fn eq(&self, other: &Self) -> bool {
        (self.is_stop, self.is_drop, self.pace, self.is_copy)
            == (other.is_stop, other.is_drop, other.pace, other.is_copy)
            && same(&self.item, &other.item)
    }
}

/// The marker is an arrow on the rim, so that its sense can be read in print as well.
#[component]
pub fn ShaftView(props: &ShaftViewProps) -> Html {
    let item = &props.item;
    let class = classes!(
        "shaft",
        standing_class(item.standing),
        emphasis_class(item.emphasis),
        props.is_drop.then_some("is-drop"),
        item.is_away.then_some("is-away")
    );
    let r = item.radius;
    let said = (!props.is_copy).then(|| item.spoken.clone());
    html! {
        <g id={(!props.is_copy).then(|| item.key.clone())} {class} role={said.is_some().then_some("button")} tabindex={tab_index(props.is_stop, props.is_copy)}
            aria-pressed={is_pressed(emphasis_class(item.emphasis))} aria-label={said} transform={format!("translate({} {})", item.at.x, item.at.y)}>
            <circle class="ground" r={(r + 5.0).to_string()} />
            if item.is_drive { <circle class="drive-ring" r={(r + 4.0).to_string()} /> }
            <circle class="rim" r={r.to_string()} />
            if item.standing == Standing::Held { <path class="hatching" d={HELD} /> }
            { marker(item, props.pace) }
            <circle class="hub" r="2.5" />
        </g>
    }
}

/// Strokes of the frame in the circle of a shaft that is held, clear of its label.
const HELD: &str = "M-10 7H10M-9 7l-3 4M-4 7l-4 5M1 7l-4 5M6 7l-4 5M0 0V7";
/// The marker in a circle of radius 1: a spoke, and an arrowhead on the rim that points clockwise.
const SPOKE: &str = "M0-.18V-.92";
const ARROW: &str = "M-.22-1.17.26-.92-.22-.67z";

fn marker(item: &ShaftItem, pace: Pace) -> Html {
    let period = item
        .period_s
        .filter(|_| pace.moves() && item.turned_deg.is_none());
    let turning = period.map(|period| format!("--period:{period}s;--steps:{}", pace.steps(period)));
    // During a run a mark stands where its shaft has turned to.
    let turned = item.turned_deg.map(|degrees| format!("rotate({degrees:.1})"));
    let class = classes!(
        "marker",
        period.is_some().then_some("is-turning"),
        (!item.clockwise).then_some("is-counter")
    );
    let mirror = if item.clockwise { "" } else { " scale(-1 1)" };
    html! {
        <g {class} style={turning} transform={turned}>
            <g transform={format!("scale({}){mirror}", item.radius)}>
                <path class="spoke" d={SPOKE} />
                <path class="arrow" d={ARROW} />
            </g>
        </g>
    }
}

fn standing_class(standing: Standing) -> &'static str {
    match standing {
        Standing::Turning => "is-turning",
        Standing::AtRest => "is-at-rest",
        Standing::Held => "is-held",
        Standing::Free => "is-free",
        Standing::Unreached => "is-unreached",
        Standing::Jammed => "is-jammed",
    }
}
