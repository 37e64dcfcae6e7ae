//! What stands in one cell of a table or of the title block.

use layshaft_editor::{Cell, Measure};
use yew::prelude::*;

use super::ratio_view::RatioView;

/// Properties of [`CellView`].
#[derive(Properties, PartialEq)]
pub struct CellViewProps {
    /// The cell.
    pub cell: Cell,
}

/// Words, a number with its unit, or a fraction.
#[component]
pub fn CellView(props: &CellViewProps) -> Html {
    match &props.cell {
        Cell::Empty => {
            html! { <><span class="quiet" aria-hidden="true">{ "–" }</span><span class="out-of-sight">{ "none" }</span></> }
        }
        Cell::Blank => html! { <span class="blank-answer" role="img" aria-label="hidden answer" /> },
        Cell::Text(text) => html! { text },
        Cell::Number(measure) => number(measure),
        Cell::Ratio(ratio) => html! { <RatioView ratio={ratio.clone()} /> },
    }
}

/// A number with its unit set apart and set small.
pub fn number(measure: &Measure) -> Html {
    html! {
        <span class="measure">
            { &measure.number }
            if !measure.unit.is_empty() { <small>{ "\u{202f}" }{ measure.unit }</small> }
        </span>
    }
}
