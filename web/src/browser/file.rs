//! Files: saving a text as one, and reading one that was dropped or chosen.

use js_sys::Array;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, Url};

use super::document;

/// Files larger than this are not layouts.
const LARGEST: f64 = 4_000_000.0;

/// Offers a text to the person as a file to save; none if the browser refuses.
pub fn save(name: &str, text: &str) -> Option<()> {
    let properties = BlobPropertyBag::new();
    properties.set_type("application/json");
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&JsValue::from_str(text)), &properties).ok()?;
    let address = Url::create_object_url_with_blob(&blob).ok()?;
    let link: HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address).ok()
}

/// The text of a file.
///
/// # Errors
/// The sentence for the person who chose it.
pub async fn read(file: &File) -> Result<String, String> {
    if file.size() > LARGEST {
        return Err(format!("“{}” is too large to be a layout file.", file.name()));
    }
    let text = JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string());
    text.ok_or_else(|| format!("“{}” could not be read. Choose it again.", file.name()))
}
