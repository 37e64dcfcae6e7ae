//! Opens layout files that are dropped anywhere on the page.

use gloo::events::{EventListener, EventListenerOptions};
use layshaft_editor::{Input, ShelfInput};
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DragEvent, FileList};
use yew::prelude::*;

use super::Bench;
use crate::browser::{file, window};

/// Most files that are read at once.
const MOST: u32 = 500;

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
            if let Some(files) = event.dyn_ref::<DragEvent>().and_then(dropped) {
                open(&files, &bench);
            }
        });
        move || drop((over, drop_))
    });
}

fn dropped(event: &DragEvent) -> Option<FileList> {
    event.data_transfer()?.files()
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
