//! The shift positions as a row of tabs over the drawing.

use std::rc::Rc;

use layshaft_editor::{Action, Input};
use layshaft_layout::Id;
use wasm_bindgen::JsCast as _;
use web_sys::{Element, HtmlElement};
use yew::prelude::*;

use super::icon::{Icon, Picture};
use crate::hooks::{use_bench, use_play};

/// Properties of [`PositionsRow`].
#[derive(Properties, PartialEq)]
pub struct PositionsRowProps {
    /// All positions with their names.
    pub positions: Rc<Vec<(Id, String)>>,
    /// The one shown.
    pub current: Id,
}

/// A tab for each position, and buttons to play them, to add one and to change them.
#[component]
pub fn PositionsRow(props: &PositionsRowProps) -> Html {
    let bench = use_bench();
    let (playing, toggle) = use_play();
    let several = props.positions.len() > 1;
    html! {
        <div class="positions">
            <div class="positions-tabs" role="tablist" aria-label="Shift positions" onkeydown={Callback::from(move_among_tabs)}>
                { for props.positions.iter().map(|(id, name)| {
                    let selected = *id == props.current;
                    html! {
                        <button type="button" key={id.as_str()} class="tab" role="tab" aria-selected={selected.to_string()}
                            aria-controls="drawing" tabindex={if selected { "0" } else { "-1" }} onclick={bench.on(Input::Position(id.clone()))}>{ name }</button>
                    }
                }) }
            </div>
            if several {
                <button type="button" class="button plain" aria-pressed={playing.to_string()} onclick={toggle} title="Play through the positions"
                    aria-label="Play through the positions"><Icon of={if playing { Picture::Pause } else { Picture::Play }} /></button>
            }
            <button type="button" class="button plain" onclick={bench.act(Action::AddPosition)} title="Add a position"
                aria-label="Add a position"><Icon of={Picture::Plus} /></button>
        </div>
    }
}

/// Arrow keys go from tab to tab, as screen readers expect of a row of tabs.
fn move_among_tabs(event: KeyboardEvent) {
    let tab = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok());
    let neighbour = match event.key().as_str() {
        "ArrowRight" => tab.and_then(|tab| tab.next_element_sibling()),
        "ArrowLeft" => tab.and_then(|tab| tab.previous_element_sibling()),
        _ => return,
    };
    event.prevent_default();
    if let Some(tab) = neighbour.and_then(|tab| tab.dyn_into::<HtmlElement>().ok()) {
        // A tab on the page takes the focus.
        let _ = tab.focus();
        tab.click();
    }
}
