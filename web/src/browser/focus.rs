//! Moving the keyboard's focus to what the editor says.

use wasm_bindgen::JsCast as _;
use web_sys::{HtmlElement, HtmlInputElement, SvgElement};

use super::document;

/// Focuses the element with this id, if it is on the page, without scrolling the page.
pub fn on(id: &str) {
    let Some(element) = document().get_element_by_id(id) else { return };
    // Focus is a help, not a promise: an element that refuses it is left alone.
    if let Some(element) = element.dyn_ref::<HtmlElement>() {
        let _ = element.focus();
    } else if let Some(element) = element.dyn_ref::<SvgElement>() {
        let _ = element.focus();
    }
}

/// Selects all text of a field, so that typing replaces it.
pub fn select_text(field: &HtmlInputElement) {
    field.select();
}
