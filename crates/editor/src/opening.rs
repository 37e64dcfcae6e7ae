//! What lies on the bench when the page opens.

use crate::demos::DEMOS;
use crate::session::{Effect, Input, Session};
use crate::shelf::{BenchNote, Record, read_note};

/// What the page knows about its own beginning.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Opening {
    /// A name for this tab that no other has had.
    pub tab: String,
    /// The layouts kept in this browser.
    pub records: Vec<Record>,
    /// What was noted of the bench the last time; none on a first visit, and where the browser keeps nothing.
    pub note: Option<String>,
    /// An empty bench is asked for. Then nothing kept is opened: it may be what the program stopped at.
    pub wants_empty: bool,
}

/// The session to begin with, and what the page is to do at once. What cannot be read any more leaves the first demo on the
/// bench and says why.
#[must_use]
pub fn session(opening: Opening) -> (Session, Vec<Effect>) {
    let note = opening.note.as_deref().map(read_note);
    let mut effects = Vec::new();
    let mut session = match &note {
        _ if opening.wants_empty => Session::empty(),
        Some(BenchNote::Text(text) | BenchNote::Old(text)) => {
            layshaft_layout::decode(text).map_or_else(|_| damaged(text), Session::new)
        }
        Some(BenchNote::Record(id)) if opening.records.iter().any(|record| record.id == *id) => {
            Session::empty()
        }
        Some(BenchNote::Record(_)) | None => first_demo(),
    };
    session.stock(&opening.tab, opening.records);
    match note {
        Some(BenchNote::Text(text) | BenchNote::Old(text)) if opening.wants_empty => {
            session.keep_text(&text, &mut effects);
        }
        Some(BenchNote::Record(id)) if !opening.wants_empty => {
            let open = Input::Shelf(crate::ShelfInput::Open(id));
            effects.extend(session.handle(open));
        }
        // The first version of the store had one layout: whatever it was, it becomes a record.
        Some(BenchNote::Old(_)) => session.adopt(&mut effects),
        _ => {}
    }
    (session, effects)
}

/// The session of a sheet inside another page, which shows what its address holds.
#[must_use]
pub fn embedded(fragment: &str) -> Session {
    let mut session = if fragment.is_empty() {
        first_demo()
    } else {
        Session::empty()
    };
    session.embed();
    session.handle(Input::OpenLink(fragment.to_owned()));
    session
}

fn first_demo() -> Session {
    let demo = layshaft_layout::decode(DEMOS[0].text);
    demo.map_or_else(|_| Session::empty(), Session::new)
}

/// Opening the text once more, as if it came from a file, gives the message with all that is wrong.
fn damaged(text: &str) -> Session {
    let mut session = first_demo();
    session.handle(Input::OpenText {
        text: text.to_owned(),
        name: "The layout kept by this browser".to_owned(),
    });
    session
}
