//! Buttons over the drawing's corner, and one line that says what to do next.

use layshaft_editor::{Action, Panel};
use yew::prelude::*;

use super::icon::{Icon, Picture};
use crate::hooks::use_bench;

/// Properties of [`DrawingTools`].
#[derive(Properties, PartialEq)]
pub struct DrawingToolsProps {
    /// What to do next.
    pub hint: AttrValue,
    /// Whether a part is in hand, which a finger has no Esc to put away.
    pub placing: bool,
}

/// Larger, smaller, the whole layout, what the signs mean.
#[component]
pub fn DrawingTools(props: &DrawingToolsProps) -> Html {
    let bench = use_bench();
    let tool = |name: &'static str, of, action| {
        html! {
            <button type="button" class="button plain" title={name} aria-label={name} onclick={bench.act(action)}><Icon {of} /></button>
        }
    };
    html! {
        <>
            if !props.hint.is_empty() {
                <div class="hint-line">
                    <p role="status">{ &props.hint }</p>
                    if props.placing {
                        <button type="button" class="button" onclick={bench.act(Action::Cancel)}>{ "Put away" }</button>
                    }
                </div>
            }
            <div class="drawing-tools" role="toolbar" aria-label="View">
                { tool("Zoom in", Picture::Plus, Action::ZoomIn) }
                { tool("Zoom out", Picture::Minus, Action::ZoomOut) }
                { tool("Show the whole layout", Picture::Fit, Action::Fit) }
                <button type="button" class="button plain legend-button" title="What the signs mean" aria-label="Legend"
                    onclick={bench.act(Action::Toggle(Panel::Legend))}><span aria-hidden="true">{ "?" }</span></button>
            </div>
        </>
    }
}
