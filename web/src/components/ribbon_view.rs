//! Power along a connection: a ribbon as wide as the power, with chevrons that move the way it flows.

use layshaft_editor::scene::{Pace, Ribbon};
use yew::prelude::*;

/// Properties of [`RibbonView`].
#[derive(Properties, PartialEq)]
pub struct RibbonViewProps {
    /// The ribbon.
    pub ribbon: Ribbon,
    /// How smoothly it moves.
    pub pace: Pace,
}

/// The chevrons are moved by the style sheet, one pitch in one period, and so come round to where they were.
#[component]
pub fn RibbonView(props: &RibbonViewProps) -> Html {
    let ribbon = &props.ribbon;
    let along = format!(
        "translate({} {}) rotate({})",
        ribbon.origin.x, ribbon.origin.y, ribbon.angle_deg
    );
    let motion = props.pace.moves().then(|| {
        let steps = props.pace.steps(ribbon.period_s);
        format!(
            "--pitch:{}px;--period:{}s;--steps:{steps}",
            ribbon.pitch, ribbon.period_s
        )
    });
    let class = classes!("chevrons", motion.is_some().then_some("is-moving"));
    html! {
        <g class="ribbon">
            <path class="ribbon-body" d={ribbon.outline.clone()} />
            <g transform={along}><path {class} d={ribbon.chevrons.clone()} style={motion} /></g>
            if let Some(edge) = &ribbon.double_edge { <path class="ribbon-double" d={edge.clone()} /> }
        </g>
    }
}
