//! A drawing as pixels: the browser draws the SVG text on a canvas, and the canvas becomes a file.

use gloo::timers::callback::Timeout;
use js_sys::Array;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{
    Blob, BlobPropertyBag, CanvasRenderingContext2d, HtmlAnchorElement, HtmlCanvasElement, HtmlImageElement,
    Url,
};
use yew::Callback;

use super::document;

/// Pixels for one of the drawing.
const FINE: f64 = 2.0;
/// Some browsers say that a picture is there before the face that it holds is.
const FACE_MS: u32 = 150;
const REFUSED: &str = "The browser refused to draw the picture. Save it as SVG instead.";

/// Draws the text at twice its size and offers it as a file; says where the browser refuses.
pub fn save(name: String, svg: String, size: [f64; 2], announce: Callback<String>) {
    if begin(name, &svg, size, announce.clone()).is_none() {
        announce.emit(REFUSED.to_owned());
    }
}

fn begin(name: String, svg: &str, size: [f64; 2], announce: Callback<String>) -> Option<()> {
    let properties = BlobPropertyBag::new();
    properties.set_type("image/svg+xml");
    let blob =
        Blob::new_with_str_sequence_and_options(&Array::of1(&JsValue::from_str(svg)), &properties).ok()?;
    let address = Url::create_object_url_with_blob(&blob).ok()?;
    let image = HtmlImageElement::new().ok()?;
    let drawn = {
        let (image, address) = (image.clone(), address.clone());
        let finish = move || {
            if draw(&image, size, name).is_none() {
                announce.emit(REFUSED.to_owned());
            }
            let _ = Url::revoke_object_url(&address);
        };
        Closure::once_into_js(move || Timeout::new(FACE_MS, finish).forget())
    };
    image.set_onload(Some(drawn.unchecked_ref()));
    image.set_src(&address);
    Some(())
}

fn draw(image: &HtmlImageElement, [width, height]: [f64; 2], name: String) -> Option<()> {
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
    let (wide, tall) = (width * FINE, height * FINE);
    canvas.set_width(wide as u32);
    canvas.set_height(tall as u32);
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    context
        .draw_image_with_html_image_element_and_dw_and_dh(image, 0.0, 0.0, wide, tall)
        .ok()?;
    let offered = Closure::once_into_js(move |blob: Option<Blob>| {
        blob.and_then(|blob| offer(&blob, &name));
    });
    canvas.to_blob(offered.unchecked_ref()).ok()
}

fn offer(blob: &Blob, name: &str) -> Option<()> {
    let address = Url::create_object_url_with_blob(blob).ok()?;
    let link: HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address).ok()
}
