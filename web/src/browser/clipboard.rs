//! Putting text on the clipboard and reading it, which a browser may refuse; and its own events, which it does not.

use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::JsFuture;
use web_sys::{ClipboardEvent, Element, Event};

use super::window;

/// What has a clipboard use of its own: fields, and text that is marked.
const FIELDS: &str = "input, textarea, select, [contenteditable]";

/// The page's clipboard; it is missing on pages that aren't served securely, though its binding is never null.
fn clipboard() -> Option<web_sys::Clipboard> {
    let clipboard = window().navigator().clipboard();
    (!clipboard.is_undefined()).then_some(clipboard)
}

/// Puts a text on the clipboard; whether it got there.
pub async fn copy(text: &str) -> bool {
    match clipboard() {
        Some(clipboard) => JsFuture::from(clipboard.write_text(text)).await.is_ok(),
        None => false,
    }
}

/// The text on the clipboard; none where the browser keeps it to itself.
pub async fn read() -> Option<String> {
    let clipboard = clipboard()?;
    // Some browsers let pages write only, and have no function for reading.
    let can_read = js_sys::Reflect::has(&clipboard, &"readText".into()).unwrap_or(false);
    if !can_read {
        return None;
    }
    JsFuture::from(clipboard.read_text()).await.ok()?.as_string()
}

/// Whether a clipboard event is the bench's: not that of a field, nor that of text marked on the page.
pub fn is_of_bench(event: &Event) -> bool {
    let in_field = is_in_field(event);
    let marked = window().get_selection().ok().flatten();
    let marks_text = marked.is_some_and(|marked| !marked.is_collapsed());
    !in_field && (!marks_text || event.type_() == "paste")
}

/// Whether an event is that of a field.
pub fn is_in_field(event: &Event) -> bool {
    let target = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok());
    target.is_some_and(|target| target.closest(FIELDS).is_ok_and(|found| found.is_some()))
}

/// A clipboard event of the bench.
pub fn of_bench(event: &Event) -> Option<&ClipboardEvent> {
    event.dyn_ref::<ClipboardEvent>().filter(|_| is_of_bench(event))
}

/// Puts a text into the event's clipboard; whether it got there.
pub fn put(event: &ClipboardEvent, text: &str) -> bool {
    let data = event.clipboard_data();
    data.is_some_and(|data| data.set_data("text/plain", text).is_ok())
}

/// The text in the event's clipboard.
pub fn text_in(event: &ClipboardEvent) -> Option<String> {
    event.clipboard_data()?.get_data("text/plain").ok()
}
