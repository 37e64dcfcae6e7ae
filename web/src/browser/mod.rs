//! The browser behind plain functions: store, clipboard, files, address, theme, recovery. No components, no decisions.
//!
//! A browser may refuse any of these (private windows, old versions, no permission), so each of them answers with an
//! `Option` or a `Result` and nothing here panics.

pub mod address;
pub mod clipboard;
pub mod file;
pub mod focus;
pub mod motion;
pub mod picture;
pub mod pointer;
pub mod preferences;
pub mod recovery;
pub mod share;
pub mod store;
pub mod tabs;
pub mod theme;
pub mod update;

use web_sys::{Document, Window};

/// The window; the page's program runs in no other place.
pub fn window() -> Window {
    web_sys::window().expect("the page's program is only started in a window")
}

/// Time in ms since some moment, for measuring how long things take.
pub fn now_ms() -> f64 {
    js_sys::Date::now()
}

/// Whether the person has asked the system for less movement.
pub fn wants_stillness() -> bool {
    let query = window().match_media("(prefers-reduced-motion: reduce)");
    query.ok().flatten().is_some_and(|query| query.matches())
}

/// The document.
pub fn document() -> Document {
    window()
        .document()
        .expect("a window that runs the program has a document")
}
