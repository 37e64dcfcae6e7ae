//! Units and tables as a person wants them, remembered by this browser as the session's own text.

use super::window;

const MEMORY: &str = "layshaft-preferences";

/// What was remembered; empty where nothing was.
pub fn remembered() -> String {
    window()
        .local_storage()
        .ok()
        .flatten()
        .and_then(|storage| storage.get_item(MEMORY).ok().flatten())
        .unwrap_or_default()
}

/// Remembers a text.
pub fn remember(text: &str) {
    if let Ok(Some(storage)) = window().local_storage() {
        // A full or closed store only costs the memory of the choice.
        let _ = storage.set_item(MEMORY, text);
    }
}
