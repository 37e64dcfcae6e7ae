//! The wheel over the drawing. Yew listens to wheels passively, and then the page would scroll as well.

use gloo::events::{EventListener, EventListenerOptions};
use layshaft_editor::{Point, Wheel};
use wasm_bindgen::JsCast as _;
use web_sys::{Element, WheelEvent};
use yew::prelude::*;

use super::Bench;
use crate::browser::{address, pointer};

/// Hands wheel events to the session.
#[hook]
pub fn use_wheel(node: &NodeRef, bench: &Bench) {
    let bench = bench.clone();
    use_effect_with(node.clone(), move |node| {
        let listener = node.cast::<Element>().map(|element| {
            let options = EventListenerOptions::enable_prevent_default();
            let is_inside = address::wants_embed();
            EventListener::new_with_options(&element, "wheel", options, move |event| {
                let Some(event) = event.dyn_ref::<WheelEvent>() else {
                    return;
                };
                // Inside another page the wheel scrolls that page, and with Ctrl it zooms here.
                if is_inside && !event.ctrl_key() && !event.meta_key() {
                    return;
                }
                event.prevent_default();
                bench.send(wheel(event).input());
            })
        });
        move || drop(listener)
    });
}

fn wheel(event: &WheelEvent) -> Wheel {
    Wheel {
        at: pointer::place_on_drawing(event),
        by: Point::new(event.delta_x(), event.delta_y()),
        in_lines: event.delta_mode() == WheelEvent::DOM_DELTA_LINE,
        control: event.ctrl_key() || event.meta_key(),
        shift: event.shift_key(),
    }
}
