//! An element on the flow drawing: its wires with the power along them, and its symbol.

use std::rc::Rc;

use layshaft_editor::scene::{ElementItem, Emphasis, Pace, Wire, same};
use yew::prelude::*;

use super::mark_view::MarkView;
use super::ribbon_view::RibbonView;
use super::scene_view::emphasis_class;
use super::symbol_view::SymbolView;

/// Properties of [`WiresView`].
#[derive(Properties)]
pub struct WiresViewProps {
    /// The element.
    pub item: Rc<ElementItem>,
    /// How smoothly it moves.
    pub pace: Pace,
}

impl PartialEq for WiresViewProps {
    fn eq(&self, other: &Self) -> bool {
        self.pace == other.pace && same(&self.item, &other.item)
    }
}

/// What lies under the symbols: plain lines, ribbons of power, and the sliver where loss leaves.
#[component]
pub fn WiresView(props: &WiresViewProps) -> Html {
    let item = &props.item;
    let class = classes!(
        "wires-of",
        emphasis_class(item.emphasis),
        item.open.then_some("is-open"),
        item.in_loop.then_some("is-loop")
    );
    html! {
        <g {class}>
            { for item.wires.iter().map(|wire| view_wire(wire, props.pace)) }
            { for item.wires.iter().filter(|_| item.emphasis >= Emphasis::Selected).map(view_handle) }
            if let Some(loss) = &item.loss {
                <path class="sliver" d={loss.outline.clone()}><title>{ &loss.title }</title></path>
            }
        </g>
    }
}

/// A wire with the power along it.
pub fn view_wire(wire: &Wire, pace: Pace) -> Html {
    html! {
        <>
            <path class="wire" d={wire.path.clone()} />
            if let Some(hatching) = &wire.hatching { <path class="hatching" d={hatching.clone()} /> }
            if let Some(ribbon) = &wire.ribbon { <RibbonView {pace} ribbon={ribbon.clone()} /> }
        </>
    }
}

/// While an element is selected, each of its ends can be led to another shaft.
fn view_handle(wire: &Wire) -> Html {
    let at = wire.handle();
    html! { <circle class="handle" cx={at.x.to_string()} cy={at.y.to_string()} r="5" /> }
}

/// Properties of [`ElementView`].
#[derive(Properties)]
pub struct ElementViewProps {
    /// The element.
    pub item: Rc<ElementItem>,
    /// Whether the Tab key stops here.
    pub is_stop: bool,
    /// Whether it only shows what moves.
    pub is_copy: bool,
}

impl PartialEq for ElementViewProps {
    fn eq(&self, other: &Self) -> bool {
        (self.is_stop, self.is_copy) == (other.is_stop, other.is_copy) && same(&self.item, &other.item)
    }
}

/// The symbol: what is pressed, focused and spoken of.
#[component]
pub fn ElementView(props: &ElementViewProps) -> Html {
    let item = &props.item;
    let class = classes!(
        "element",
        emphasis_class(item.emphasis),
        item.open.then_some("is-open"),
        item.in_loop.then_some("is-loop"),
        item.is_away.then_some("is-away")
    );
    let said = (!props.is_copy).then(|| item.spoken.clone());
    let place = format!("translate({} {})", item.at.x, item.at.y);
    let turn = format!("rotate({})", item.angle_deg);
    let (x, y) = item.symbol.half;
    html! {
        <g id={(!props.is_copy).then(|| item.key.clone())} {class} role={said.is_some().then_some("button")} tabindex={tab_index(props.is_stop, props.is_copy)}
            aria-pressed={is_pressed(emphasis_class(item.emphasis))} aria-label={said} transform={place}>
            <g transform={turn}>
                <path class="ground" d={format!("M-{x} -{y}H{x}V{y}H-{x}Z")} />
                <g transform="translate(-24 -16)"><SymbolView symbol={item.symbol} /></g>
            </g>
            if let Some((mark, from_centre)) = item.mark { <MarkView {mark} at={from_centre} /> }
        </g>
    }
}

/// Where the Tab key stops; a copy is not reached at all.
pub fn tab_index(is_stop: bool, is_copy: bool) -> Option<&'static str> {
    (!is_copy).then_some(if is_stop { "0" } else { "-1" })
}

/// Whether something is selected, in the words of the accessibility tree.
pub fn is_pressed(class: Option<&str>) -> &'static str {
    if class.is_some_and(|class| class.starts_with("is-selected")) {
        "true"
    } else {
        "false"
    }
}
