//! The gear search: the bin, what is wanted, and putting a train into the layout.

use std::rc::Rc;

use crate::choosing::{Answer, GearsInput, GearsSheet};
use crate::session::{Effect, Session};

impl Session {
    pub(super) fn gears_input(&mut self, input: GearsInput, effects: &mut Vec<Effect>) {
        match input {
            GearsInput::Want { .. } => self.show_choosing(crate::choosing::Tab::Gears, effects),
        }
    }

    /// Takes what there is of an answer, whole or not.
    pub(super) fn take_gears(&mut self, _answer: &Rc<Answer>, _whole: bool, _effects: &mut Vec<Effect>) {}

    /// The layout shown, its position or what is selected has changed, or this part is shown anew.
    pub(super) fn follow_gears(&mut self, _effects: &mut Vec<Effect>) {}

    pub(super) fn gears_sheet(&self) -> GearsSheet {
        GearsSheet {}
    }
}
