//! What only shows during a gesture: a ghost of what would be placed, a band, a selecting rectangle, guides.

use layshaft_editor::Point;
use layshaft_editor::scene::{Ghost, Overlay};
use yew::prelude::*;

use super::symbol_view::SymbolView;

/// Properties of [`OverlayView`].
#[derive(Properties, PartialEq)]
pub struct OverlayViewProps {
    /// What shows.
    pub overlay: Overlay,
}

/// Drawn over everything, heard by nobody: the session announces what a gesture did.
#[component]
pub fn OverlayView(props: &OverlayViewProps) -> Html {
    let overlay = &props.overlay;
    html! {
        <g class="overlay" aria-hidden="true">
            { for overlay.guides.iter().map(|guide| line("guide", *guide)) }
            { for overlay.gaps.iter().map(|gap| view_gap(*gap)) }
            if let Some(band) = overlay.band { { line("band", band) } }
            if let Some(area) = overlay.marquee {
                <rect class="marquee" x={area.x.to_string()} y={area.y.to_string()} width={area.width.to_string()} height={area.height.to_string()} />
            }
            if let Some(ghost) = &overlay.ghost { { view_ghost(ghost) } }
        </g>
    }
}

fn line(class: &'static str, (from, to): (Point, Point)) -> Html {
    html! { <path {class} d={format!("M{} {}L{} {}", from.x, from.y, to.x, to.y)} /> }
}

/// A gap between two strokes across its ends, as a dimension is drawn.
fn view_gap((from, to): (Point, Point)) -> Html {
    let across = (to - from).unit().across() * 7.0;
    let end = |at: Point| {
        let (one, other) = (at + across, at - across);
        format!("M{} {}L{} {}", one.x, one.y, other.x, other.y)
    };
    html! { <path class="gap" d={format!("M{} {}L{} {}{}{}", from.x, from.y, to.x, to.y, end(from), end(to))} /> }
}

fn view_ghost(ghost: &Ghost) -> Html {
    html! {
        <g class="ghost">
            { for ghost.shafts.iter().map(|at| html! { <circle class="rim" cx={at.x.to_string()} cy={at.y.to_string()} r="18" /> }) }
            <g transform={format!("translate({} {})", ghost.at.x - 24.0, ghost.at.y - 16.0)}><SymbolView symbol={ghost.symbol} /></g>
        </g>
    }
}
