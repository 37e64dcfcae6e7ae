//! Varying inputs: what is asked, computed by the page, shown and taken over into the layout.

use std::rc::Rc;

use crate::choosing::{Answer, SweepInput, SweepSheet};
use crate::session::{Effect, Session};

impl Session {
    pub(super) fn sweep_input(&mut self, input: SweepInput, _effects: &mut Vec<Effect>) {
        match input {}
    }

    /// Takes what there is of an answer, whole or not.
    pub(super) fn take_sweep(&mut self, _answer: &Rc<Answer>, _whole: bool, _effects: &mut Vec<Effect>) {}

    /// The layout shown, its position or what is selected has changed, or this part is shown anew.
    pub(super) fn follow_sweep(&mut self, _effects: &mut Vec<Effect>) {}

    pub(super) fn sweep_sheet(&self) -> SweepSheet {
        SweepSheet {}
    }
}
