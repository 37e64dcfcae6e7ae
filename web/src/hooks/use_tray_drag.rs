//! Dragging a part out of the tray. The pointer is kept by the part's button, so that it is heard all the way.

use layshaft_editor::{Input, Kind};
use wasm_bindgen::JsCast as _;
use web_sys::Element;
use yew::prelude::*;

use super::use_bench;
use crate::browser::pointer;

/// Pixels that a press may wander without being a drag.
const THRESHOLD: i32 = 6;

/// Handlers of a part's button.
pub struct TrayDrag {
    /// A pointer went down.
    pub on_down: Callback<PointerEvent>,
    /// It moved.
    pub on_move: Callback<PointerEvent>,
    /// It was released.
    pub on_up: Callback<PointerEvent>,
    /// The browser took it away.
    pub on_cancel: Callback<PointerEvent>,
    /// Whether the press that just ended was a drag, and so is no click.
    pub was_dragged: Callback<(), bool>,
}

/// Where a press stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Press {
    None,
    Down { x: i32, y: i32 },
    Dragged,
}

/// Tells the session while a part of this kind is dragged over the drawing and where it is dropped.
#[hook]
pub fn use_tray_drag(kind: Kind) -> TrayDrag {
    let bench = use_bench();
    let press = use_mut_ref(|| Press::None);
    let on_down = {
        let press = press.clone();
        Callback::from(move |event: PointerEvent| {
            *press.borrow_mut() = Press::Down {
                x: event.client_x(),
                y: event.client_y(),
            };
            keep_pointer(&event);
        })
    };
    let on_move = {
        let (press, bench) = (press.clone(), bench.clone());
        Callback::from(move |event: PointerEvent| {
            let now = moved(*press.borrow(), &event);
            *press.borrow_mut() = now;
            if now == Press::Dragged && event.buttons() != 0 {
                bench.send(over(kind, &event));
            }
        })
    };
    let on_up = {
        let (press, bench) = (press.clone(), bench.clone());
        Callback::from(move |event: PointerEvent| {
            if *press.borrow() == Press::Dragged {
                bench.send(dropped(kind, &event));
            }
        })
    };
    let on_cancel = bench.on(Input::TrayLeave);
    let was_dragged = Callback::from(move |()| press.replace(Press::None) == Press::Dragged);
    TrayDrag {
        on_down,
        on_move,
        on_up,
        on_cancel,
        was_dragged,
    }
}

/// The button is looked for from what was pressed: the event's own `current_target` is the root of the page, where all
/// events are listened for, and a pointer kept there would never be heard by the button.
/// The button that was pressed, found from the event's target: Yew listens at the page's root, which must not be the
/// one that keeps the pointer, or no click would reach the button.
fn keep_pointer(event: &PointerEvent) {
    let target = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok());
    let button = target.and_then(|target| target.closest("button").ok().flatten());
    if let Some(button) = button {
        // Refused only for a pointer that is gone already.
        let _ = button.set_pointer_capture(event.pointer_id());
    }
}

fn moved(press: Press, event: &PointerEvent) -> Press {
    match press {
        Press::Down { x, y } if (event.client_x() - x).abs() + (event.client_y() - y).abs() > THRESHOLD => {
            Press::Dragged
        }
        other => other,
    }
}

fn over(kind: Kind, event: &PointerEvent) -> Input {
    if pointer::is_over_drawing(event) {
        Input::TrayOver(kind, pointer::place_on_drawing(event))
    } else {
        Input::TrayLeave
    }
}

fn dropped(kind: Kind, event: &PointerEvent) -> Input {
    if pointer::is_over_drawing(event) {
        Input::TrayDrop(kind, pointer::place_on_drawing(event))
    } else {
        Input::TrayLeave
    }
}
