//! A line of the working: why, the arithmetic, and a light on its place on the drawing.

use layshaft_editor::Input;
use layshaft_editor::working::Line;
use yew::prelude::*;

use super::pieces_view::PiecesView;
use crate::hooks::use_bench;

/// Properties of [`WorkingLine`].
#[derive(Properties, PartialEq)]
pub struct WorkingLineProps {
    /// Its number from 0.
    pub number: usize,
    /// The line.
    pub line: Line,
}

/// Pointing at it or focusing it lights its place; its hidden answer is revealed by a button.
#[component]
pub fn WorkingLine(props: &WorkingLineProps) -> Html {
    let bench = use_bench();
    let line = &props.line;
    let light = Input::Light(line.places.clone());
    let dark = Input::Light(Vec::new());
    html! {
        <li class="working-line" tabindex="0" onmouseenter={bench.on(light.clone())} onmouseleave={bench.on(dark.clone())}
            onfocusin={bench.on(light)} onfocusout={bench.on(dark)}>
            <p class="reason">{ &line.reason }</p>
            <p class="arithmetic">
                <span class="out-of-sight">{ &line.spoken }</span>
                <span aria-hidden="true"><PiecesView pieces={line.pieces.clone()} /></span>
                if line.hidden {
                    <button type="button" class="button reveal" onclick={bench.on(Input::Reveal(props.number))}
                        aria-label={format!("Show the answer of line {}", props.number + 1)}>{ "Show" }</button>
                }
            </p>
        </li>
    }
}
