//! The browser's own copy, cut and paste on the bench: they carry text without asking anybody for permission.

use gloo::events::{EventListener, EventListenerOptions};
use layshaft_editor::Input;
use web_sys::Event;
use yew::prelude::*;

use super::Bench;
use crate::browser::{clipboard, window};
use crate::store::Store;

/// Hands copies, cuts and pastes to the session, and what is copied to the browser.
#[hook]
pub fn use_clipboard(store: &UseReducerHandle<Store>, bench: &Bench) {
    // Always the newest state: a listener lives longer than one drawing of the page.
    let newest = use_mut_ref(|| store.clone());
    newest.replace(store.clone());
    let bench = bench.clone();
    use_effect_with((), move |()| {
        let options = EventListenerOptions::enable_prevent_default();
        let listen = |name: &'static str, act: Box<dyn Fn(&Event)>| {
            EventListener::new_with_options(&window(), name, options, move |event| act(event))
        };
        let taking = |cut: bool| {
            let (newest, bench) = (newest.clone(), bench.clone());
            move |event: &Event| {
                let text = newest.borrow().session().copied_text();
                if let (Some(event), Some(text)) = (clipboard::of_bench(event), text)
                    && clipboard::put(event, &text)
                {
                    event.prevent_default();
                    bench.send(Input::Copied { cut });
                }
            }
        };
        let pasting = {
            let bench = bench.clone();
            move |event: &Event| {
                if let Some(event) = clipboard::of_bench(event)
                    && let Some(text) = clipboard::text_in(event)
                {
                    event.prevent_default();
                    bench.send(Input::Paste(text));
                }
            }
        };
        // WebKit asks first whether there is anything to copy where no text is marked.
        let asked = |event: &Event| {
            if clipboard::is_of_bench(event) {
                event.prevent_default();
            }
        };
        let listeners = [
            listen("beforecopy", Box::new(asked)),
            listen("beforecut", Box::new(asked)),
            listen("copy", Box::new(taking(false))),
            listen("cut", Box::new(taking(true))),
            listen("paste", Box::new(pasting)),
        ];
        move || drop(listeners)
    });
}
