//! Arrangements with two speeds: asked, shown, opened as layouts of their own.

use std::rc::Rc;

use crate::choosing::{Answer, TwoSpeedsInput, TwoSpeedsSheet};
use crate::session::{Effect, Session};

impl Session {
    pub(super) fn two_speeds_input(&mut self, input: TwoSpeedsInput, _effects: &mut Vec<Effect>) {
        match input {}
    }

    /// Takes what there is of an answer, whole or not.
    pub(super) fn take_two_speeds(&mut self, _answer: &Rc<Answer>, _whole: bool, _effects: &mut Vec<Effect>) {
    }

    /// The layout shown, its position or what is selected has changed, or this part is shown anew.
    pub(super) fn follow_two_speeds(&mut self, _effects: &mut Vec<Effect>) {}

    pub(super) fn two_speeds_sheet(&self) -> TwoSpeedsSheet {
        TwoSpeedsSheet {}
    }
}
