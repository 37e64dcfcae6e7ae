//! What a screen reader hears of a change: what was done, and what comes of it.

use layshaft_layout::Id;
use layshaft_report::State;

use super::{Effect, Session};
use crate::numbers::RatioText;
use crate::summary;
use crate::wording;

impl Session {
    /// Says what was done and what the layout does now: `teeth on s1 24: ratio of drum 1 over 3, 38 revolutions a minute`.
    pub(super) fn say_with_result(&self, done: &str, effects: &mut Vec<Effect>) {
        let words = match self.result_words() {
            Some(result) => format!("{done}: {result}"),
            None => done.to_owned(),
        };
        effects.push(Effect::Announce(words));
    }

    /// Ratio and speed of the output in the position shown; why it stands still, where it does. None while answers are
    /// hidden and where there is nothing to say.
    fn result_words(&self) -> Option<String> {
        if self.hide_answers {
            return None;
        }
        let position = self
            .report()
            .positions
            .iter()
            .find(|report| report.id == self.position)?;
        let shaft = self.output()?;
        let ratio = summary::ratio_of(position, &shaft);
        let mut words = match ratio {
            Some(ratio) => format!("{shaft}, ratio {}", RatioText::new(ratio).spoken()),
            None => format!("{shaft} is free"),
        };
        match position.state {
            State::Runs => {
                if let Some(speed) = summary::speed_of(position, &shaft).filter(|_| ratio.is_some()) {
                    words.push_str(&format!(", {}", self.units.rotation(speed).spoken()));
                }
            }
            state => words.push_str(&format!(", {}", wording::state_words(state))),
        }
        Some(words)
    }

    /// The shaft that results are told of: the output, else the last shaft.
    pub(super) fn output(&self) -> Option<Id> {
        let made_to_turn = summary::output_shaft(&self.shown).filter(|id| !id.is_frame());
        made_to_turn
            .or_else(|| self.shown.shafts.last().map(|shaft| &shaft.id))
            .cloned()
    }
}
