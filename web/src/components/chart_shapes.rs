//! Parts of a drawing of the editor's as SVG.

use layshaft_editor::chart::Shape;
use yew::prelude::*;

/// Properties of [`ChartShapes`].
#[derive(Properties, PartialEq)]
pub struct ChartShapesProps {
    /// What is drawn, from back to front.
    pub shapes: Vec<Shape>,
}

/// All parts, in their order.
#[component]
pub fn ChartShapes(props: &ChartShapesProps) -> Html {
    html! { <>{ for props.shapes.iter().map(shape) }</> }
}

fn shape(shape: &Shape) -> Html {
    match shape {
        Shape::Path { class, path, dashes } => {
            let dashes = (!dashes.is_empty()).then_some(*dashes);
            html! { <path class={*class} d={path.clone()} stroke-dasharray={dashes} /> }
        }
        Shape::Fill {
            class,
            path,
            strength,
        } => {
            html! { <path class={*class} d={path.clone()} fill-opacity={format!("{strength:.3}")} /> }
        }
        Shape::Dot { class, at, radius } => {
            html! { <circle class={*class} cx={format!("{:.1}", at.x)} cy={format!("{:.1}", at.y)} r={radius.to_string()} /> }
        }
        Shape::Text {
            class,
            at,
            anchor,
            text,
        } => html! {
            <text class={*class} x={format!("{:.1}", at.x)} y={format!("{:.1}", at.y)} text-anchor={anchor.word()}>{ text }</text>
        },
    }
}
