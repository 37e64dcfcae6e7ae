//! Influence and certainty: asked, computed by the page, shown.

use std::rc::Rc;

use crate::choosing::{Answer, InfluenceInput, InfluenceSheet};
use crate::session::{Effect, Session};

impl Session {
    pub(super) fn influence_input(&mut self, input: InfluenceInput, _effects: &mut Vec<Effect>) {
        match input {}
    }

    /// Takes what there is of an answer, whole or not.
    pub(super) fn take_influence(&mut self, _answer: &Rc<Answer>, _whole: bool, _effects: &mut Vec<Effect>) {}

    /// The layout shown, its position or what is selected has changed, or this part is shown anew.
    pub(super) fn follow_influence(&mut self, _effects: &mut Vec<Effect>) {}

    pub(super) fn influence_sheet(&self) -> InfluenceSheet {
        InfluenceSheet {}
    }
}
