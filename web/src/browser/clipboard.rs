//! Putting text on the clipboard, which a browser may refuse.

use wasm_bindgen_futures::JsFuture;

use super::window;

/// Puts a text on the clipboard; whether it got there.
pub async fn copy(text: &str) -> bool {
    // `navigator.clipboard` is missing on pages that aren't served securely, though its binding is never null.
    let clipboard = window().navigator().clipboard();
    if clipboard.is_undefined() {
        return false;
    }
    JsFuture::from(clipboard.write_text(text)).await.is_ok()
}
