//! Moving the keyboard's focus to what the editor says.

use wasm_bindgen::JsCast as _;
use web_sys::{Element, FocusEvent, HtmlElement, HtmlInputElement, SvgElement};

use super::document;

/// Focuses the element with this id, if it is on the page.
pub fn on(id: &str) {
    let Some(element) = document().get_element_by_id(id) else {
        return;
    };
    // Focus is a help, not a promise: an element that refuses it is left alone.
    if let Some(element) = element.dyn_ref::<HtmlElement>() {
        let _ = element.focus();
    } else if let Some(element) = element.dyn_ref::<SvgElement>() {
        let _ = element.focus();
    }
}

/// Whether the focus is on the page as such: where it goes when what had it is gone.
pub fn is_nowhere() -> bool {
    let active = document().active_element();
    active.is_none_or(|element| element.tag_name().eq_ignore_ascii_case("body"))
}

/// Focuses a field and selects all of its text, so that typing replaces it.
pub fn field(key: &str) {
    // On the drawing it bears its own key; in the panel a longer one.
    let in_panel = format!("field-{key}");
    let is_on_drawing = document().get_element_by_id(key).is_some();
    let id = if is_on_drawing { key } else { &in_panel };
    on(id);
    let field = document().get_element_by_id(id);
    if let Some(field) = field
        .as_ref()
        .and_then(|element| element.dyn_ref::<HtmlInputElement>())
    {
        field.select();
    }
}

/// The number behind a prefix in the id of what has the focus.
pub fn number_in(prefix: &str) -> Option<usize> {
    let id = document().active_element()?.id();
    id.strip_prefix(prefix)?.parse().ok()
}

/// Scrolls the element with this id into what is seen of its list.
pub fn show(id: &str) {
    if let Some(element) = document().get_element_by_id(id) {
        let options = web_sys::ScrollIntoViewOptions::new();
        options.set_block(web_sys::ScrollLogicalPosition::Nearest);
        element.scroll_into_view_with_scroll_into_view_options(&options);
    }
}

/// Whether the focus goes to something within what this selector means.
pub fn goes_to(event: &FocusEvent, selector: &str) -> bool {
    let next = event
        .related_target()
        .and_then(|next| next.dyn_into::<Element>().ok());
    next.is_some_and(|next| next.closest(selector).is_ok_and(|found| found.is_some()))
}
