//! Opens what is dropped anywhere on the page: layout files, and text of layouts and links where no field takes it.

use gloo::events::{EventListener, EventListenerOptions};
use layshaft_editor::{Input, ShelfInput};
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DragEvent, Event, FileList};
use yew::prelude::*;

use super::Bench;
use crate::browser::{clipboard, file, window};

/// Most files that are read at once.
const MOST: u32 = 500;

/// Hands dropped files to the session.
#[hook]
pub fn use_files(bench: &Bench) {
    let bench = bench.clone();
    use_effect_with((), move |()| {
        let options = EventListenerOptions::enable_prevent_default();
        let over = EventListener::new_with_options(&window(), "dragover", options, |event| {
            if !is_text_for_field(event) {
                event.prevent_default();
            }
        });
        let drop_ = EventListener::new_with_options(&window(), "drop", options, move |event| {
            if is_text_for_field(event) {
                return;
            }
            event.prevent_default();
            let Some(carried) = event.dyn_ref::<DragEvent>().and_then(DragEvent::data_transfer) else {
                return;
            };
            match carried.files().filter(|files| files.length() > 0) {
                Some(files) => open(&files, &bench),
                None => {
                    if let Some(text) = file::brought(&carried) {
                        bench.send(Input::Dropped(text));
                    }
                }
            }
        });
        move || drop((over, drop_))
    });
}

/// Whether a field is to take what is dragged by itself, as text.
fn is_text_for_field(event: &Event) -> bool {
    let carried = event.dyn_ref::<DragEvent>().and_then(DragEvent::data_transfer);
    let has_file = carried.is_some_and(|carried| carried.types().includes(&"Files".into(), 0));
    !has_file && clipboard::is_in_field(event)
}

/// Reads files and hands them to the session. One that cannot be read is handed on empty, and the session says why.
pub fn open(files: &FileList, bench: &Bench) {
    let files: Vec<web_sys::File> = (0..files.length().min(MOST))
        .filter_map(|index| files.get(index))
        .collect();
    if files.is_empty() {
        return;
    }
    let bench = bench.clone();
    spawn_local(async move {
        let mut read = Vec::new();
        for file in files {
            read.push((file.name(), file::read(&file).await.unwrap_or_default()));
        }
        bench.send(Input::Shelf(ShelfInput::Import(read)));
    });
}
