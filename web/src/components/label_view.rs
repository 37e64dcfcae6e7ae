//! A label of the drawing: a few short lines, each a row of pieces at the places that the editor gave them.

use std::rc::Rc;

use layshaft_editor::scene::{ElementItem, Emphasis, Label, LabelLine, Run, RunContent, ShaftItem, same};
use yew::prelude::*;

use super::element_view::tab_index;
use super::scene_view::emphasis_class;

/// Rim round a number that can be edited, in bench units; labels leave room for it.
const EDIT_RIM: f64 = 3.0;

/// Properties of [`LabelView`].
#[derive(Properties, PartialEq)]
pub struct LabelViewProps {
    /// The label.
    pub label: Label,
    /// How much what it belongs to stands out.
    pub emphasis: Emphasis,
}

/// Text with a thin leader to its thing where it had to move away.
#[component]
pub fn LabelView(props: &LabelViewProps) -> Html {
    view_label(&props.label, props.emphasis, false)
}

/// Properties of [`ShaftLabel`].
#[derive(Properties)]
pub struct ShaftLabelProps {
    /// The shaft that it belongs to.
    pub item: Rc<ShaftItem>,
    /// Whether it only shows what moves.
    pub is_copy: bool,
}

impl PartialEq for ShaftLabelProps {
    fn eq(&self, other: &Self) -> bool {
        self.is_copy == other.is_copy && same(&self.item, &other.item)
    }
}

/// The label of a shaft.
#[component]
pub fn ShaftLabel(props: &ShaftLabelProps) -> Html {
    view_label(&props.item.label, props.item.emphasis, props.is_copy)
}

/// Properties of [`ElementLabels`].
#[derive(Properties)]
pub struct ElementLabelsProps {
    /// The element that they belong to.
    pub item: Rc<ElementItem>,
    /// Whether it only shows what moves.
    pub is_copy: bool,
}

impl PartialEq for ElementLabelsProps {
    fn eq(&self, other: &Self) -> bool {
        self.is_copy == other.is_copy && same(&self.item, &other.item)
    }
}

/// The label of an element and its tag of circulating power.
#[component]
pub fn ElementLabels(props: &ElementLabelsProps) -> Html {
    let item = &props.item;
    html! { <>{ for item.label.iter().chain(&item.loop_tag).map(|label| view_label(label, item.emphasis, props.is_copy)) }</> }
}

fn view_label(label: &Label, emphasis: Emphasis, is_copy: bool) -> Html {
    html! {
        <g class={classes!("label", emphasis_class(emphasis))} font-size={label.letter_size.to_string()}>
            if let Some((from, to)) = label.leader {
                <path class="leader" d={format!("M{} {}L{} {}", from.x, from.y, to.x, to.y)} />
            }
            { for label.lines.iter().map(|line| view_line(line, is_copy)) }
        </g>
    }
}

fn view_line(line: &LabelLine, is_copy: bool) -> Html {
    html! { <>{ for line.runs.iter().map(|run| view_run(run, line, is_copy)) }</> }
}

fn view_run(run: &Run, line: &LabelLine, is_copy: bool) -> Html {
    let (x, y) = (run.x.to_string(), line.baseline.to_string());
    let (top, height) = (line.top.to_string(), line.height.to_string());
    match &run.content {
        RunContent::Text(text) => html! { <text {x} {y}>{ text }</text> },
        RunContent::Name(text) => html! { <text {x} {y} class="name">{ text }</text> },
        RunContent::Quiet(text) => html! { <text {x} {y} class="quiet">{ text }</text> },
        RunContent::Ratio(ratio) => html! { <text {x} {y} class="ratio">{ ratio.text() }</text> },
        RunContent::Edit { field, text, spoken } => html! {
            <g class="edit" id={(!is_copy).then(|| format!("on-drawing-{}", field.key()))} role={(!is_copy).then_some("button")}
                tabindex={tab_index(false, is_copy)} aria-label={(!is_copy).then(|| format!("{spoken}: {text}"))}>
                <rect x={(run.x - EDIT_RIM).to_string()} y={top} width={(run.width + 2.0 * EDIT_RIM).to_string()} {height} rx="2" />
                <text x={run.middle().to_string()} {y} text-anchor="middle">{ text }</text>
            </g>
        },
        RunContent::Blank => html! {
            <path class="blank" d={format!("M{x} {y}h{}", run.width)}><title>{ "Hidden answer" }</title></path>
        },
    }
}
