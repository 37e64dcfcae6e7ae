//! The theme on the document's root, and the memory of which one was chosen.

use layshaft_editor::Theme;
use web_sys::MediaQueryList;

use super::{document, window};

const MEMORY: &str = "layshaft-theme";

/// The theme that was chosen on this browser; what the system says where none was.
pub fn remembered() -> Theme {
    let kept = window()
        .local_storage()
        .ok()
        .flatten()
        .and_then(|storage| storage.get_item(MEMORY).ok().flatten());
    match kept.as_deref() {
        Some("paper") => Theme::Paper,
        Some("slate") => Theme::Slate,
        _ => Theme::System,
    }
}

/// What asks whether the system's colours are dark.
pub fn system_query() -> Option<MediaQueryList> {
    window()
        .match_media("(prefers-color-scheme: dark)")
        .ok()
        .flatten()
}

/// Whether the system asks for dark colours.
pub fn system_is_dark() -> bool {
    system_query().is_some_and(|query| query.matches())
}

/// Shows a theme and remembers it.
pub fn show(theme: Theme) {
    let name = match theme {
        Theme::System => None,
        Theme::Paper => Some("paper"),
        Theme::Slate => Some("slate"),
    };
    set_on_root(name);
    remember(name);
}

fn set_on_root(name: Option<&str>) {
    let Some(root) = document().document_element() else {
        return;
    };
    // Neither can fail: the attribute's name is valid.
    let _ = match name {
        Some(name) => root.set_attribute("data-theme", name),
        None => root.remove_attribute("data-theme"),
    };
}

fn remember(name: Option<&str>) {
    let Ok(Some(storage)) = window().local_storage() else {
        return;
    };
    // A full or closed store only costs the memory of the choice.
    let _ = match name {
        Some(name) => storage.set_item(MEMORY, name),
        None => storage.remove_item(MEMORY),
    };
}
