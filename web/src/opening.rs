//! What lies on the bench when the page opens: the kept layout, a link's, the first demo or nothing.

use layshaft_editor::opening::{self, Opening};
use layshaft_editor::{Effect, Input, Session};

use crate::browser::{address, preferences, recovery, store, theme};

/// The session that the page opens with, and what it asks for at once.
pub async fn session() -> (Session, Vec<Effect>) {
    if address::wants_embed() {
        // The address stays as it is: the frame is loaded from it again.
        let mut session = opening::embedded(&address::fragment());
        set_colours(&mut session);
        return (session, Vec::new());
    }
    let wants_empty = address::wants_empty_bench();
    // A browser that refuses its store is treated as one that never kept anything.
    let kept = store::read().await.unwrap_or_default();
    let (mut session, mut effects) = opening::session(Opening {
        tab: store::new_tab_name().to_string(),
        records: kept.records,
        note: store::note_of_tab().or(kept.note),
        wants_empty,
    });
    set_colours(&mut session);
    let fragment = address::fragment();
    if !fragment.is_empty() {
        effects.extend(session.handle(Input::OpenLink(fragment)));
    }
    address::clear();
    recovery::keep(&session.file_text());
    (session, effects)
}

fn set_colours(session: &mut Session) {
    session.handle(Input::SetTheme(theme::remembered()));
    session.handle(Input::SetPreferences(preferences::remembered()));
    session.handle(Input::SystemIsDark(theme::system_is_dark()));
}
