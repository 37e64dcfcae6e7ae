//! All layers of the drawing, one memoised component for each item, keyed by its id.

use std::rc::Rc;

use layshaft_editor::Scene;
use layshaft_editor::scene::{Emphasis, GroupItem};
use yew::prelude::*;

use super::element_view::{ElementView, WiresView};
use super::group_view::{GroupView, GroupWires};
use super::label_view::{ElementLabels, LabelView, ShaftLabel};
use super::overlay_view::OverlayView;
use super::shaft_view::ShaftView;

/// Properties of [`SceneView`].
#[derive(Properties, PartialEq)]
pub struct SceneViewProps {
    /// What is drawn.
    pub scene: Rc<Scene>,
    /// Whether it only shows what moves: then it has no ground, and nobody speaks of what is in it or reaches it by key.
    #[prop_or_default]
    pub is_copy: bool,
}

/// From the grid up: wires with their power, symbols, shafts, labels, and what only shows during a gesture.
#[component]
pub fn SceneView(props: &SceneViewProps) -> Html {
    let (scene, is_copy) = (&props.scene, props.is_copy);
    let stop = tab_stop(scene).filter(|_| !is_copy);
    let groups = || scene.groups.iter().filter(|item| !item.is_away);
    let elements = || scene.elements.iter().filter(|item| !item.is_away);
    let shafts = || scene.shafts.iter().filter(|item| !item.is_away);
    html! {
        <>
            if !is_copy {
                { definitions() }
                <rect class="grid" x="-50000" y="-50000" width="100000" height="100000" fill="url(#grid)" />
            }
            <g class="open-groups">
                { for scene.groups.iter().filter(|item| !item.folded).map(|item| group(item, stop, is_copy)) }
            </g>
            <g class="wires" aria-hidden="true">
                { for groups().map(|item| html! { <GroupWires key={&*item.key} item={item.clone()} pace={scene.pace} /> }) }
                { for elements().map(|item| html! { <WiresView key={&*item.key} item={item.clone()} pace={scene.pace} /> }) }
            </g>
            <g class="elements">
                { for scene.elements.iter().map(|item| html! {
                    <ElementView key={&*item.key} item={item.clone()} is_stop={stop == Some(&item.key)} {is_copy} />
                }) }
            </g>
            <g class="folded-groups">
                { for scene.groups.iter().filter(|item| item.folded).map(|item| group(item, stop, is_copy)) }
            </g>
            <g class="shafts">
                { for scene.shafts.iter().map(|item| html! {
                    <ShaftView key={&*item.key} item={item.clone()} pace={scene.pace} is_stop={stop == Some(&item.key)} {is_copy}
                        is_drop={scene.overlay.drop_shaft.as_ref() == Some(&item.id)} />
                }) }
            </g>
            <g class="labels">
                { for shafts().map(|item| html! { <ShaftLabel key={&*item.key} item={item.clone()} {is_copy} /> }) }
                { for elements().map(|item| html! { <ElementLabels key={&*item.key} item={item.clone()} {is_copy} /> }) }
                { for groups().flat_map(|item| std::iter::once(&item.label).chain(&item.loop_tag).map(move |label| html! {
                    <LabelView key={&*label.key} label={label.clone()} emphasis={item.emphasis} />
                })) }
            </g>
            <OverlayView overlay={scene.overlay.clone()} />
        </>
    }
}

/// The one thing on the drawing that the Tab key reaches; arrow keys go on from there.
fn tab_stop(scene: &Scene) -> Option<&String> {
    let focused_shaft = scene
        .shafts
        .iter()
        .find(|item| item.emphasis == Emphasis::Focused)
        .map(|item| &item.key);
    let focused_element = scene
        .elements
        .iter()
        .find(|item| item.emphasis == Emphasis::Focused)
        .map(|item| &item.key);
    let focused_group = scene
        .groups
        .iter()
        .find(|item| item.emphasis == Emphasis::Focused)
        .map(|item| &item.key);
    focused_shaft
        .or(focused_element)
        .or(focused_group)
        .or(scene.shafts.first().map(|item| &item.key))
        .or(scene.groups.first().map(|item| &item.key))
}

fn group(item: &Rc<GroupItem>, stop: Option<&String>, is_copy: bool) -> Html {
    html! { <GroupView key={&*item.key} item={item.clone()} is_stop={stop == Some(&item.key)} {is_copy} /> }
}

/// The class of an emphasis.
pub fn emphasis_class(emphasis: Emphasis) -> Option<&'static str> {
    match emphasis {
        Emphasis::Plain => None,
        Emphasis::Lit => Some("is-lit"),
        Emphasis::Selected => Some("is-selected"),
        Emphasis::Focused => Some("is-selected is-focused"),
    }
}

fn definitions() -> Html {
    html! {
        <defs>
            <pattern id="grid" width="100" height="100" patternUnits="userSpaceOnUse">
                <path class="grid-fine" d="M20 0V100M40 0V100M60 0V100M80 0V100M0 20H100M0 40H100M0 60H100M0 80H100" />
                <path class="grid-main" d="M0 0V100M0 0H100" />
            </pattern>
            <pattern id="heat" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                <path class="heat-line" d="M0 0V5" />
            </pattern>
        </defs>
    }
}
