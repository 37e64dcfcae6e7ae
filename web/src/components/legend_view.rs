//! What line types, widths and speeds on the drawing mean.

use std::rc::Rc;

use layshaft_editor::Point;
use layshaft_editor::legend::{Legend, PowerScale, Sign};
use yew::prelude::*;

use super::mark_view::MarkView;

/// Properties of [`LegendView`].
#[derive(Properties, PartialEq)]
pub struct LegendViewProps {
    /// The legend.
    pub legend: Rc<Legend>,
}

/// A sample of each sign beside its words.
#[component]
pub fn LegendView(props: &LegendViewProps) -> Html {
    let legend = &props.legend;
    html! {
        <ul class="legend-entries" aria-label="Legend">
            if let Some(scale) = &legend.scale { { scale_entry(scale) } }
            { for legend.signs.iter().map(|(sign, words)| html! { <li class="legend-entry">{ sample(*sign) }{ *words }</li> }) }
            if let Some(slow) = &legend.slow { <li class="legend-entry">{ slow }</li> }
        </ul>
    }
}

fn scale_entry(scale: &PowerScale) -> Html {
    let width = scale.width.to_string();
    html! {
        <li class="legend-entry">
            <svg viewBox="0 -12 34 24" aria-hidden="true"><path class="legend-scale" d="M0 0H34" stroke-width={width} /></svg>
            { format!("{}. {}", scale.text, scale.rule) }
        </li>
    }
}

fn sample(sign: Sign) -> Html {
    let shapes = match sign {
        Sign::Power => {
            html! { <><path class="ribbon-body" d="M0-5H34V5H0z" /><path class="chevrons" d="M6-4 10 0 6 4M16-4 20 0 16 4M26-4 30 0 26 4" /></> }
        }
        Sign::Loss => html! { <><path class="sliver" d="M2-3H20Q30-3 32 8H28Q25 3 20 3H2z" /></> },
        Sign::Loop => {
            html! { <><path class="ribbon-body" d="M0-4H34V4H0z" /><path class="ribbon-double" d="M0-7H34M0 7H34" /></> }
        }
        Sign::Shaft => {
            html! { <><circle class="rim" cx="17" r="8" /><path class="spoke" d="M17 0V-7" /><path class="arrow" d="M15.500-10 20-8 15.500-5.500z" /></> }
        }
        Sign::Drive => {
            html! { <><circle class="drive-ring" cx="17" r="10" /><circle class="rim" cx="17" r="7" /></> }
        }
        Sign::Held => {
            html! { <><circle class="rim" cx="17" cy="-3" r="6" /><path class="hatching" d="M8 5H26M8 5l-4 5M14 5l-4 5M20 5l-4 5M26 5l-4 5" /></> }
        }
        Sign::Free => html! { <circle class="rim is-broken" cx="17" r="8" /> },
        Sign::Folded => {
            html! { <><rect class="group-room" x="4" y="-9" width="26" height="18" rx="3" /><rect class="group-inner" x="7" y="-6" width="20" height="12" rx="1.500" /></> }
        }
        Sign::Group => {
            html! { <g class="group is-open-group"><rect class="group-room" x="1" y="-10" width="32" height="20" rx="5" /></g> }
        }
        Sign::Mark(mark) => html! { <MarkView {mark} at={Point::new(17.0, 0.0)} /> },
        Sign::Lines(lines) => {
            html! { <>{ for lines.iter().map(|(line, path)| html! { <path class={line.class()} d={*path} /> }) }</> }
        }
        Sign::Open => html! { <path class="wire is-broken" d="M0 0H34" /> },
    };
    html! { <svg viewBox="0 -12 34 24" aria-hidden="true" class="legend-sample">{ shapes }</svg> }
}
