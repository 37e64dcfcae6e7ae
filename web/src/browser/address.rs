//! The page's address: the layout in its fragment, and the wish for an empty bench in its query.

use gloo::events::EventListener;
use wasm_bindgen::JsValue;

use super::window;

/// The fragment without its `#`; empty where there is none.
pub fn fragment() -> String {
    let hash = window().location().hash().unwrap_or_default();
    hash.strip_prefix('#').unwrap_or(&hash).to_owned()
}

/// The address that opens the layout held by a fragment, which may bring its `#` along.
pub fn link(fragment: &str) -> String {
    format!("{}#{}", base(), fragment.trim_start_matches('#'))
}

/// The address without query and fragment.
pub fn base() -> String {
    let location = window().location();
    format!(
        "{}{}",
        location.origin().unwrap_or_default(),
        location.pathname().unwrap_or_default()
    )
}

/// Whether the address asks for an empty bench, as the recovery page does.
pub fn wants_empty_bench() -> bool {
    window()
        .location()
        .search()
        .is_ok_and(|query| query == "?bench=empty")
}

/// Whether the page stands inside another one, to be looked at only.
pub fn wants_embed() -> bool {
    let search = window().location().search().unwrap_or_default();
    search
        .trim_start_matches('?')
        .split('&')
        .any(|word| word == "embed")
}

/// Drops query and fragment from the address, so that a later reload shows what is kept and not what was opened.
pub fn clear() {
    if location_is_bare() {
        return;
    }
    if let Ok(history) = window().history() {
        // Refused only for addresses that aren't this page's own.
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&base()));
    }
}

fn location_is_bare() -> bool {
    window().location().href().is_ok_and(|address| address == base())
}

/// Calls back with the new fragment whenever it changes while the page is open.
pub fn on_fragment(callback: impl Fn(String) + 'static) -> EventListener {
    EventListener::new(&window(), "hashchange", move |_| callback(fragment()))
}
