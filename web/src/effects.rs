//! Carries out what the session asks of the browser.

use std::rc::Rc;

use gloo::timers::future::TimeoutFuture;
use layshaft_editor::actions::PictureFile;
use layshaft_editor::export::FACE_FILE;
use layshaft_editor::runs::{Outcome, RunInput, RunJob};
use layshaft_editor::{Effect, Input, Session};
use wasm_bindgen_futures::spawn_local;
use yew::Callback;

use crate::browser::{
    address, clipboard, document, file, focus, now_ms, picture, preferences, recovery, theme, window,
};
use crate::components::drawing::{DRAWING, PICTURE};
use crate::{shelf, work};

/// What the page itself shows of effects: words for screen readers, and what became of a copied link.
#[derive(Clone, PartialEq)]
pub struct Reports {
    /// Say this to screen readers.
    pub announce: Callback<String>,
    /// Whether the link got onto the clipboard.
    pub copied: Callback<bool>,
    /// Hand this back to the session.
    pub back: Callback<Input>,
}

/// Carries out one effect.
pub fn carry_out(effect: Effect, session: &Session, reports: &Reports) {
    match effect {
        Effect::Announce(words) => reports.announce.emit(words),
        Effect::Focus(target) => focus::on(&target.key()),
        Effect::FocusField(field) => focus::field(&field.key()),
        Effect::FocusBench => focus::on(DRAWING),
        Effect::Save => save(session, reports),
        Effect::Shelf(effect) => shelf::carry_out(effect, &reports.back),
        Effect::SavePreferences => {
            theme::show(session.theme());
            preferences::remember(&session.preferences());
        }
        Effect::CopyLink(fragment) => copy_link(&fragment, reports),
        Effect::CopyText(text) => copy_text(text, reports.back.clone()),
        Effect::ReadClipboard => read_clipboard(reports.back.clone()),
        Effect::ReadFace(file) => read_face(file, reports.back.clone()),
        Effect::DownloadPicture { name, sheet } => {
            picture::save(
                name,
                sheet.svg,
                [sheet.width, sheet.height],
                reports.announce.clone(),
            );
        }
        Effect::Print => {
            // A browser without printing does nothing, as it would by its own command.
            let _ = window().print();
        }
        Effect::Download { name, text } => download(&name, &text, reports),
        Effect::Run(job) => run(job, reports.back.clone()),
        Effect::Compute { number, job } => work::begin(number, &job, &reports.back),
        Effect::StopComputing(number) => work::stop(number),
        Effect::CapturePointer(pointer) => capture(pointer),
    }
}

/// The recovery page's copy first: it must be the newest that there is.
fn save(session: &Session, reports: &Reports) {
    recovery::keep(&session.file_text());
    shelf::note(session.bench_note().to_json(), &reports.back);
}

fn copy_link(fragment: &str, reports: &Reports) {
    let link = address::link(fragment);
    let copied = reports.copied.clone();
    spawn_local(async move { copied.emit(clipboard::copy(&link).await) });
}

fn copy_text(text: String, back: Callback<Input>) {
    spawn_local(async move {
        if !clipboard::copy(&text).await {
            back.emit(Input::CopyRefused);
        }
    });
}

fn read_clipboard(back: Callback<Input>) {
    spawn_local(async move {
        back.emit(match clipboard::read().await {
            Some(text) => Input::Paste(text),
            None => Input::PasteRefused,
        });
    });
}

fn read_face(file: PictureFile, back: Callback<Input>) {
    spawn_local(async move {
        let face = file::bytes(FACE_FILE).await.map(Into::into);
        back.emit(Input::Face { file, face });
    });
}

fn download(name: &str, text: &str, reports: &Reports) {
    if file::save(name, text).is_none() {
        reports
            .announce
            .emit("The browser refused to save the file. Share the layout by link instead.".to_owned());
    }
}

/// Carries a run out once the page has shown that it is on its way.
fn run(job: RunJob, back: Callback<Input>) {
    spawn_local(async move {
        TimeoutFuture::new(0).await;
        let start = now_ms();
        let outcome = job.carry_out();
        let took_ms = now_ms() - start;
        let outcome = Rc::new(Outcome { took_ms, ..outcome });
        back.emit(Input::Run(RunInput::Done(outcome)));
    });
}

fn capture(pointer: i32) {
    if let Some(picture) = document().get_element_by_id(PICTURE) {
        // Refused once the pointer is gone, and then there is nothing to capture.
        let _ = picture.set_pointer_capture(pointer);
    }
}
