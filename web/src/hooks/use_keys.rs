//! Keys of the whole page, wherever the focus is, unless a control of its own wants them.

use gloo::events::{EventListener, EventListenerOptions};
use layshaft_editor::{Input, Key, KeyPress, keys};
use wasm_bindgen::JsCast as _;
use web_sys::{Element, KeyboardEvent};
use yew::prelude::*;

use super::Bench;
use crate::browser::window;

/// Fields take every key but Esc.
const FIELDS: &str = "input, textarea, select";
/// Buttons and their like take the keys that press them and move among them.
const CONTROLS: &str = "button, a, summary, [role=tab], [role=option], tr[tabindex]";
/// Keys with which a control is worked.
const CONTROL_KEYS: [&str; 9] = [
    "Enter",
    " ",
    "Tab",
    "ArrowLeft",
    "ArrowRight",
    "ArrowUp",
    "ArrowDown",
    "Home",
    "End",
];

/// Hands keys to the session.
#[hook]
pub fn use_keys(bench: &Bench) {
    let bench = bench.clone();
    use_effect_with((), move |()| {
        let options = EventListenerOptions::enable_prevent_default();
        let released = {
            let bench = bench.clone();
            EventListener::new(&window(), "keyup", move |event| {
                let event = event.dyn_ref::<KeyboardEvent>();
                if event.is_some_and(|event| event.key() == " ") {
                    bench.send(Input::Space(false));
                }
            })
        };
        let left = {
            let bench = bench.clone();
            EventListener::new(&window(), "blur", move |_| bench.send(Input::LetGo))
        };
        let listener = EventListener::new_with_options(&window(), "keydown", options, move |event| {
            let Some(event) = event.dyn_ref::<KeyboardEvent>() else {
                return;
            };
            if belongs_to_control(event) || event.is_composing() || event.default_prevented() {
                return;
            }
            let press = key_press(event);
            if is_space(&press) {
                event.prevent_default();
                bench.send(Input::Space(true));
                return;
            }
            if keys::action_for(&press).is_some() {
                event.prevent_default();
                bench.send(Input::Key(press));
            }
        });
        move || drop((listener, released, left))
    });
}

/// The space bar by itself: held it lets a drag move the view, pressed it plays the run. It means something when it
/// comes up again.
fn is_space(press: &KeyPress) -> bool {
    press.key == Key::Char(' ') && !(press.shift || press.command || press.alt)
}

/// A key as the editor knows it.
pub fn key_press(event: &KeyboardEvent) -> KeyPress {
    KeyPress::new(
        &event.key(),
        event.shift_key(),
        event.ctrl_key() || event.meta_key(),
        event.alt_key(),
    )
}

fn belongs_to_control(event: &KeyboardEvent) -> bool {
    let Some(target) = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok())
    else {
        return false;
    };
    let is_within = |selector: &str| target.closest(selector).is_ok_and(|found| found.is_some());
    let key = event.key();
    is_within(FIELDS) && key != "Escape" || is_within(CONTROLS) && CONTROL_KEYS.contains(&key.as_str())
}
