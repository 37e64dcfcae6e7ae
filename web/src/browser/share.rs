//! Handing a link to other programs of the device, where the browser can.

use js_sys::Reflect;
use wasm_bindgen::JsValue;
use web_sys::ShareData;

use super::window;

/// Whether the browser can.
pub fn can_share() -> bool {
    Reflect::has(&window().navigator(), &JsValue::from_str("share")).unwrap_or(false)
}

/// Asks the person where to.
pub fn share(title: &str, link: &str) {
    let data = ShareData::new();
    data.set_title(title);
    data.set_url(link);
    // Backing out of the question is answered as a failure; there is nothing to say of it.
    let asked = wasm_bindgen_futures::JsFuture::from(window().navigator().share_with_data(&data));
    wasm_bindgen_futures::spawn_local(async move {
        let _ = asked.await;
    });
}
