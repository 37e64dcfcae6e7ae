//! A part in the tray: pressed, it is taken in hand; dragged, it is dropped where the pointer lets go.

use layshaft_editor::{Action, Entry, Input};
use yew::prelude::*;

use super::symbol_view::SymbolView;
use crate::hooks::{use_bench, use_tray_drag};

/// Properties of [`PartButton`].
#[derive(Properties, PartialEq)]
pub struct PartButtonProps {
    /// The line of the catalogue.
    pub entry: &'static Entry,
    /// Whether it is in hand.
    pub in_hand: bool,
}

/// The drawn symbol with its name.
#[component]
pub fn PartButton(props: &PartButtonProps) -> Html {
    let bench = use_bench();
    let Entry {
        kind,
        name,
        help,
        key,
        symbol,
        ..
    } = *props.entry;
    let drag = use_tray_drag(kind);
    let act = if props.in_hand {
        Action::SelectTool
    } else {
        Action::Place(kind)
    };
    let press = {
        let was_dragged = drag.was_dragged.clone();
        Callback::from(move |_| {
            if !was_dragged.emit(()) {
                bench.send(Input::Act(act.clone()));
            }
        })
    };
    html! {
        <button type="button" class="part" aria-pressed={props.in_hand.to_string()} title={format!("{help} ({})", key.to_uppercase())}
            onclick={press} onpointerdown={drag.on_down} onpointermove={drag.on_move} onpointerup={drag.on_up} onpointercancel={drag.on_cancel}>
            <svg viewBox="0 0 48 32" aria-hidden="true"><SymbolView {symbol} /></svg>
            <span class="part-name">{ name }</span>
        </button>
    }
}
