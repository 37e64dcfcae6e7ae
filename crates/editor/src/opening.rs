//! What lies on the bench when the page opens.

use crate::demos::DEMOS;
use crate::session::{Input, Session};

/// What the page knows about its own beginning.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Opening {
    /// Nothing was kept: a first visit, or a browser that keeps nothing.
    FirstVisit,
    /// An empty bench was asked for.
    EmptyBench,
    /// The text of the layout that lay on the bench the last time.
    Kept(String),
}

/// The session to begin with. What cannot be read any more leaves the first demo on the bench and says why.
#[must_use]
pub fn session(opening: &Opening) -> Session {
    match opening {
        Opening::FirstVisit => first_demo(),
        Opening::EmptyBench => Session::empty(),
        Opening::Kept(text) => layshaft_layout::decode(text).map_or_else(|_| damaged(text), Session::new),
    }
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
