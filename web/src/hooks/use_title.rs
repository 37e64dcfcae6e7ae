//! The layout's name in the browser's tab, history and bookmarks.

use yew::prelude::*;

use crate::browser::document;

/// Names the page after the layout on the bench.
#[hook]
pub fn use_title(title: &str) {
    use_effect_with(title.to_owned(), |title| {
        document().set_title(&format!("{title} – Layshaft"))
    });
}
