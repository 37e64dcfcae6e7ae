//! A newer program: `static/offline.js` says that one is ready, and loads it when told to.

use gloo::events::EventListener;
use web_sys::CustomEvent;

use super::{document, window};

/// The event that says it.
const READY: &str = "layshaft-newer";
/// The event that asks for it.
const LOAD: &str = "layshaft-load-newer";
/// What stands at the document's root once it was said, for a program that was not listening yet.
const MARK: &str = "data-newer";

/// Calls back when a newer program is ready, at once if it is already.
pub fn on_ready(callback: impl Fn() + 'static) -> EventListener {
    if document()
        .document_element()
        .is_some_and(|root| root.has_attribute(MARK))
    {
        callback();
    }
    EventListener::new(&window(), READY, move |_| callback())
}

/// Has the newer program loaded, with the page.
pub fn load() {
    if let Ok(event) = CustomEvent::new(LOAD) {
        // Nobody cancels it.
        let _ = window().dispatch_event(&event);
    }
}
