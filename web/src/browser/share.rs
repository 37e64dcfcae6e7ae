//! Handing a link or a file to other programs of the device, where the browser can.

use js_sys::{Array, Reflect};
use wasm_bindgen::JsValue;
use web_sys::{File, FilePropertyBag, ShareData};

use super::window;

/// Whether the browser can.
pub fn can_share() -> bool {
    Reflect::has(&window().navigator(), &JsValue::from_str("share")).unwrap_or(false)
}

/// A layout as a file that this browser hands on; none where it hands on no such files. Some hand on plain text only.
pub fn file(title: &str, name: &str, text: &str) -> Option<ShareData> {
    let navigator = window().navigator();
    if !can_share() || !Reflect::has(&navigator, &JsValue::from_str("canShare")).unwrap_or(false) {
        return None;
    }
    let plain = format!("{}.txt", name.trim_end_matches(".json"));
    let kinds = [(name, "application/json"), (plain.as_str(), "text/plain")];
    kinds.into_iter().find_map(|(name, kind)| {
        let properties = FilePropertyBag::new();
        properties.set_type(kind);
        let content = Array::of1(&JsValue::from_str(text));
        let file = File::new_with_str_sequence_and_options(&content, name, &properties).ok()?;
        let data = ShareData::new();
        data.set_title(title);
        data.set_files(&Array::of1(&file));
        navigator.can_share_with_data(&data).then_some(data)
    })
}

/// Asks the person where a link is to go.
pub fn share(title: &str, link: &str) {
    let data = ShareData::new();
    data.set_title(title);
    data.set_url(link);
    hand_on(&data);
}

/// Asks the person where to.
pub fn hand_on(data: &ShareData) {
    // Backing out of the question is answered as a failure; there is nothing to say of it.
    let asked = wasm_bindgen_futures::JsFuture::from(window().navigator().share_with_data(data));
    wasm_bindgen_futures::spawn_local(async move {
        let _ = asked.await;
    });
}
