//! Files: saving a text as one, and reading one that was dropped or chosen.

use js_sys::{Array, Uint8Array};
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, DataTransfer, File, HtmlAnchorElement, Response, Url};

use super::{document, window};

/// Bytes of a file that are read at most.
const LARGEST: f64 = 8_000_000.0;

/// Offers a text to the person as a file to save; none if the browser refuses.
pub fn save(name: &str, text: &str) -> Option<()> {
    let properties = BlobPropertyBag::new();
    properties.set_type(match name.rsplit_once('.') {
        Some((_, "svg")) => "image/svg+xml",
        Some((_, "csv")) => "text/csv",
        _ => "application/json",
    });
    let blob =
        Blob::new_with_str_sequence_and_options(&Array::of1(&JsValue::from_str(text)), &properties).ok()?;
    let address = Url::create_object_url_with_blob(&blob).ok()?;
    let link: HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address).ok()
}

/// Lets a drag out of the page carry a text as a file. Browsers that don't know how carry the text itself.
pub fn carry(carried: &DataTransfer, name: &str, text: &str) {
    let address = format!("data:application/json,{}", js_sys::encode_uri_component(text));
    let file = format!("application/json:{name}:{address}");
    // Refused once the drag is over, and then there is nothing to carry.
    let _ = carried.set_data("DownloadURL", &file);
    let _ = carried.set_data("application/json", text);
    let _ = carried.set_data("text/plain", text);
    carried.set_effect_allowed("copy");
}

/// The text that a drag brings, where it brings no file: of a layout file, a link or a part; none where there is nothing.
pub fn brought(carried: &DataTransfer) -> Option<String> {
    let mut kinds = ["application/json", "text/uri-list", "text/plain"].into_iter();
    kinds.find_map(|kind| {
        let text = carried.get_data(kind).ok()?;
        (!text.trim().is_empty()).then_some(text)
    })
}

/// The text of a file, of a very large one only its beginning: more than any layout has, so that it is refused as too
/// large without being read whole. None if the browser can't read it.
pub async fn read(file: &File) -> Option<String> {
    let beginning = file.slice_with_f64_and_f64(0.0, LARGEST).ok()?;
    JsFuture::from(beginning.text()).await.ok()?.as_string()
}

/// The bytes of a file of the page itself; none if it can't be had.
pub async fn bytes(address: &str) -> Option<Vec<u8>> {
    let answer = JsFuture::from(window().fetch_with_str(address)).await.ok()?;
    let answer: Response = answer.dyn_into().ok()?;
    if !answer.ok() {
        return None;
    }
    let buffer = JsFuture::from(answer.array_buffer().ok()?).await.ok()?;
    Some(Uint8Array::new(&buffer).to_vec())
}
