//! What lies on the bench when the page opens: the kept layout, a link's, the first demo or nothing.

use layshaft_editor::opening::{self, Opening};
use layshaft_editor::{Input, Session};

use crate::browser::{address, recovery, store, theme};

/// The session that the page opens with.
pub async fn session() -> Session {
    let mut session = opening::session(&opening().await);
    session.handle(Input::SetTheme(theme::remembered()));
    session.handle(Input::SystemIsDark(theme::system_is_dark()));
    let fragment = address::fragment();
    if !fragment.is_empty() {
        session.handle(Input::OpenLink(fragment));
    }
    address::clear();
    recovery::keep(&session.file_text());
    session
}

async fn opening() -> Opening {
    if address::wants_empty_bench() {
        return Opening::EmptyBench;
    }
    // A browser that refuses its store is treated as one that never kept anything.
    store::bench()
        .await
        .ok()
        .flatten()
        .map_or(Opening::FirstVisit, Opening::Kept)
}
