//! Variants side by side: chosen, computed, shown.

use std::rc::Rc;

use crate::choosing::{Answer, CompareInput, CompareSheet};
use crate::session::{Effect, Session};

impl Session {
    pub(super) fn compare_input(&mut self, input: CompareInput, _effects: &mut Vec<Effect>) {
        match input {}
    }

    /// Takes what there is of an answer, whole or not.
    pub(super) fn take_compare(&mut self, _answer: &Rc<Answer>, _whole: bool, _effects: &mut Vec<Effect>) {}

    /// The layout shown, its position or what is selected has changed, or this part is shown anew.
    pub(super) fn follow_compare(&mut self, _effects: &mut Vec<Effect>) {}

    pub(super) fn compare_sheet(&self) -> CompareSheet {
        CompareSheet {}
    }
}
