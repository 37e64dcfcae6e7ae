//! What survives the program: the last good layout as text in the document, and word of a panic.
//!
//! After a trap nothing of this program runs any more. `static/start.js` shares no memory with it and writes the
//! recovery page, from the text that [`keep`] left in the document.

use std::panic::PanicHookInfo;

use wasm_bindgen::JsValue;
use web_sys::{CustomEvent, CustomEventInit};

use super::{document, window};

/// The element whose text is the last good layout.
const KEPT: &str = "kept-layout";
/// The event that `static/start.js` waits for.
const STOPPED: &str = "layshaft-stopped";

/// Lets a panic end on the recovery page. Through Yew, which would put a hook of its own in the place of any other.
pub fn install() {
    yew::set_custom_panic_hook(Box::new(tell_the_page));
}

fn tell_the_page(info: &PanicHookInfo<'_>) {
    let init = CustomEventInit::new();
    init.set_detail(&JsValue::from_str(&info.to_string()));
    if let Ok(event) = CustomEvent::new_with_event_init_dict(STOPPED, &init) {
        // A panic inside a panic would abort before the page is written, so a refusal is let go.
        let _ = window().dispatch_event(&event);
    }
}

/// Leaves the text of a layout where the recovery page finds it.
pub fn keep(text: &str) {
    if let Some(place) = document().get_element_by_id(KEPT) {
        place.set_text_content(Some(text));
    }
}
