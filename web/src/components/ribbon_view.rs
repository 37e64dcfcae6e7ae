//! Power along a connection: a ribbon as wide as the power, with chevrons that move the way it flows.

use layshaft_editor::scene::Ribbon;
use yew::prelude::*;

/// Properties of [`RibbonView`].
#[derive(Properties, PartialEq)]
pub struct RibbonViewProps {
    /// Unique on the page.
    pub id: String,
    /// The ribbon.
    pub ribbon: Ribbon,
}

/// The chevrons are moved by the style sheet, one pitch in one period, and clipped by the outline.
#[component]
pub fn RibbonView(props: &RibbonViewProps) -> Html {
    let ribbon = &props.ribbon;
    let clip = format!("clip-{}", props.id);
    let along = format!(
        "translate({} {}) rotate({})",
        ribbon.origin.x, ribbon.origin.y, ribbon.angle_deg
    );
    let motion = format!("--pitch:{}px;--period:{}s", ribbon.pitch, ribbon.period_s);
    html! {
        <g class="ribbon">
            <clipPath id={clip.clone()}><path d={ribbon.outline.clone()} /></clipPath>
            <path class="ribbon-body" d={ribbon.outline.clone()} />
            <g clip-path={format!("url(#{clip})")}>
                <g transform={along}><path class="chevrons" d={ribbon.chevrons.clone()} style={motion} /></g>
            </g>
            if let Some(edge) = &ribbon.double_edge { <path class="ribbon-double" d={edge.clone()} /> }
        </g>
    }
}
