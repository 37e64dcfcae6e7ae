//! Opens a layout file that is dropped anywhere on the page.

use gloo::events::{EventListener, EventListenerOptions};
use layshaft_editor::Input;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DragEvent, File};
use yew::prelude::*;

use super::Bench;
use crate::browser::{file, window};

/// Hands dropped files to the session.
#[hook]
pub fn use_files(bench: &Bench) {
    let bench = bench.clone();
    use_effect_with((), move |()| {
        let options = EventListenerOptions::enable_prevent_default();
        let over =
            EventListener::new_with_options(&window(), "dragover", options, |event| event.prevent_default());
        let drop_ = EventListener::new_with_options(&window(), "drop", options, move |event| {
            event.prevent_default();
            if let Some(file) = event.dyn_ref::<DragEvent>().and_then(dropped) {
                open(file, &bench);
            }
        });
        move || drop((over, drop_))
    });
}

fn dropped(event: &DragEvent) -> Option<File> {
    event.data_transfer()?.files()?.get(0)
}

/// Reads a file and puts it on the bench. One that cannot be read is handed on empty, and the session says why.
pub fn open(file: File, bench: &Bench) {
    let bench = bench.clone();
    spawn_local(async move {
        let text = file::read(&file).await.unwrap_or_default();
        bench.send(Input::OpenText {
            text,
            name: file.name(),
        });
    });
}
