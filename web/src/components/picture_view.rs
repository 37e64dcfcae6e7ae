//! The skeleton or the plan: strokes of a few line types, one memoised component for each item.

use std::rc::Rc;

use layshaft_editor::Target;
use layshaft_editor::scene::{Backdrop, Emphasis, Picture, PictureItem, Stroke, same};
use yew::prelude::*;

use super::element_view::is_pressed;
use super::label_view::LabelView;
use super::overlay_view::OverlayView;
use super::scene_view::emphasis_class;
use crate::browser::motion;

/// Properties of [`PictureView`].
#[derive(Properties, PartialEq)]
pub struct PictureViewProps {
    /// What is drawn.
    pub picture: Rc<Picture>,
}

/// From the ground up.
#[component]
pub fn PictureView(props: &PictureViewProps) -> Html {
    let picture = &props.picture;
    // Parts that appear later than others turn with them as if they had been there from the start: teeth stay in mesh.
    use_effect_with(props.picture.clone(), |_| motion::turn_in_step());
    let focused = picture
        .items
        .iter()
        .find(|item| item.emphasis == Emphasis::Focused);
    let mut things = picture.items.iter();
    let first = things.find(|item| !matches!(item.target, Target::Group(_)));
    let stop = focused.or(first).or(picture.items.first()).map(|item| &item.key);
    html! {
        <>
            <g class="picture-ground" aria-hidden="true">
                { for picture.ground.iter().map(|item| html! { <BackdropView key={&*item.key} item={item.clone()} /> }) }
            </g>
            <g class="picture-items">
                { for picture.items.iter().map(|item| html! {
                    <PictureItemView key={&*item.key} item={item.clone()} is_stop={stop == Some(&item.key)} />
                }) }
            </g>
            <g class="labels">
                { for picture.items.iter().filter_map(|item| item.label.as_ref().map(|label| html! {
                    <LabelView key={&*label.key} label={label.clone()} emphasis={item.emphasis} />
                })) }
            </g>
            <OverlayView overlay={picture.overlay.clone()} />
        </>
    }
}

/// Properties of [`BackdropView`].
#[derive(Properties, PartialEq)]
pub struct BackdropViewProps {
    /// What is drawn.
    pub item: Rc<Backdrop>,
}

/// Something behind the things of the layout.
#[component]
pub fn BackdropView(props: &BackdropViewProps) -> Html {
    html! {
        <g>
            { for props.item.strokes.iter().map(view_stroke) }
            if let Some(label) = &props.item.label { <LabelView label={label.clone()} emphasis={Emphasis::Plain} /> }
        </g>
    }
}

/// Properties of [`PictureItemView`].
#[derive(Properties)]
pub struct PictureItemViewProps {
    /// What is drawn.
    pub item: Rc<PictureItem>,
    /// Whether the Tab key stops here.
    pub is_stop: bool,
}

impl PartialEq for PictureItemViewProps {
    fn eq(&self, other: &Self) -> bool {
        self.is_stop == other.is_stop && same(&self.item, &other.item)
    }
}

/// A thing of the layout: pressed, focused and spoken of.
#[component]
pub fn PictureItemView(props: &PictureItemViewProps) -> Html {
    let item = &props.item;
    let emphasis = emphasis_class(item.emphasis);
    let is_group = matches!(item.target, Target::Group(_));
    html! {
        <g id={item.key.clone()} class={classes!("drawn", is_group.then_some("is-group"), emphasis)} role="button" aria-label={item.spoken.clone()}
            tabindex={if props.is_stop { "0" } else { "-1" }} aria-pressed={is_pressed(emphasis)}>
            // Lines are thin: what the pointer is over is found by a wider one that is not seen.
            <path class="line-reach" d={reach(item)}><title>{ &item.spoken }</title></path>
            { for item.strokes.iter().map(view_stroke) }
        </g>
    }
}

fn reach(item: &PictureItem) -> String {
    item.strokes
        .iter()
        .filter(|stroke| stroke.turn.is_none())
        .map(|stroke| stroke.path.as_str())
        .collect()
}

fn view_stroke(stroke: &Stroke) -> Html {
    let path = html! { <path class={stroke.line.class()} d={stroke.path.clone()} /> };
    let Some(turn) = stroke.turn else { return path };
    let class = classes!(
        "turned",
        turn.period_s.is_some().then_some("is-turning"),
        (!turn.clockwise).then_some("is-counter")
    );
    let (x, y) = (turn.about.x, turn.about.y);
    // The turning part keeps its own origin: styles turn it about (0, 0), where its axis is put.
    let style = turn.period_s.map(|period| format!("--period:{period}s"));
    let turned = html! {
        <g transform={format!("translate({x} {y}) rotate({})", turn.from_deg)}>
            <g {class} {style}><g transform={format!("translate({} {})", -x, -y)}>{ path }</g></g>
        </g>
    };
    let Some(carrier) = turn.carrier else {
        return turned;
    };
    let class = classes!(
        "turned",
        "is-turning",
        (!carrier.clockwise).then_some("is-counter")
    );
    let (x, y) = (carrier.about.x, carrier.about.y);
    html! {
        <g transform={format!("translate({x} {y})")}>
            <g {class} style={format!("--period:{}s", carrier.period_s)}><g transform={format!("translate({} {})", -x, -y)}>{ turned }</g></g>
        </g>
    }
}
