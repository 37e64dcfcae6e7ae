//! What hands hold between two gestures: what was copied, where the pointer was last, the menu that is open.

use layshaft_layout::Layout;

use super::Session;
use crate::geometry::Point;
use crate::menu::Menu;

/// Small states of selecting, copying and pointing; nothing of them is in the document.
#[derive(Clone, Debug, Default)]
pub(super) struct Hands {
    /// The text that was copied last here.
    pub copied: Option<String>,
    /// Whether it was copied from the layout on the bench.
    pub copied_here: bool,
    /// Where the pointer is over the drawing, on the screen.
    pub pointer: Option<Point>,
    /// Where a menu said "here", on the bench.
    pub here: Option<Point>,
    /// The menu that is open.
    pub menu: Option<Menu>,
    /// A whole layout that was put beside what was there, and may be opened by itself instead.
    pub offered: Option<Layout>,
    /// The space bar is down; whether something was dragged with it.
    pub space: Option<bool>,
    /// What the list of actions begins to search for.
    pub query: String,
}

impl Session {
    /// Whether a drag moves the view: with the hand in hand or while the space bar is down.
    #[must_use]
    pub fn pans(&self) -> bool {
        self.tool == crate::tools::Tool::Pan || self.hands.space.is_some()
    }

    /// What the list of actions begins to search for.
    #[must_use]
    pub fn action_query(&self) -> &str {
        &self.hands.query
    }

    /// The space bar went down or up. Where nothing was dragged with it, it plays the run.
    pub(super) fn space(&mut self, down: bool, effects: &mut Vec<super::Effect>) {
        match (down, self.hands.space) {
            (true, None) => self.hands.space = Some(false),
            (true, Some(_)) => {}
            (false, held) => {
                self.hands.space = None;
                if held == Some(false) {
                    self.act(crate::actions::Action::PlayRun, effects);
                }
            }
        }
    }

    /// The page lost the keyboard: keys that are held are let go without meaning anything.
    pub(super) fn let_go(&mut self) {
        self.hands.space = None;
    }
}
