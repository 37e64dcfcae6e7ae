//! Putting a train into the layout, or opening it as one of its own, and saying what became of it.

use std::rc::Rc;

use layshaft_choose::gears::{GearAnswer, GearTrain};
use layshaft_layout::Id;
use layshaft_report::{Report, State};

use crate::choosing::gears::place::alone;
use crate::session::{Effect, Session};
use crate::target::Target;
use crate::wording;
use crate::wording::choosing_gears as words;

impl Session {
    /// Puts in a train of the answer.
    pub(super) fn put_found(
        &mut self,
        effects: &mut Vec<Effect>,
        which: impl FnOnce(&GearAnswer) -> Option<&GearTrain>,
    ) {
        let answer = self.choosing.gears.answer.clone();
        if let Some(train) = answer.as_deref().and_then(which) {
            self.put_train(train, effects);
        }
    }

    fn put_train(&mut self, train: &GearTrain, effects: &mut Vec<Effect>) {
        let layout = self.document.layout().clone();
        let Some(place) = self.gears_place() else {
            let title = format!("{} by {}", train.ratio, words::stages(train));
            let loss = self.gears_loss().0;
            let opened = alone(train, title, loss, &self.bin());
            return self.open(
                opened,
                "Opened the train as a layout of its own. Undo brings the old layout back.",
                effects,
            );
        };
        let Some((command, made)) = place.replace(&layout, train, self.gears_loss().0) else {
            return;
        };
        let before = self.report().clone();
        if self.commit(command, "put a train in", effects) {
            self.select(made.into_iter().map(Target::Element).collect());
            let said = [words::put_in(train, &place), self.worse_than(&before)].concat();
            self.choosing.gears.became = Some((Rc::clone(self.document.layout()), said.clone()));
            effects.push(Effect::Announce(said));
        }
    }

    /// What is worse now than it was: a sentence for each position with its leading finding; nothing where answers are hidden.
    fn worse_than(&self, before: &Report) -> String {
        if self.hide_answers {
            return String::new();
        }
        let is_worse = |id: &Id, state: State| {
            let old = before.positions.iter().find(|position| position.id == *id);
            old.is_some_and(|old| badness(state) > badness(old.state))
        };
        let now = self.report().positions.iter();
        let worse = now.filter(|position| is_worse(&position.id, position.state));
        let said = worse.map(|position| {
            let lead = wording::headline(
                self.layout(),
                self.report(),
                &position.id,
                &self.words(),
                self.units,
            );
            words::worse(&position.name, &lead.headline)
        });
        said.collect()
    }

    /// What is said of the train that was put in last, as long as the layout is as it was made then.
    pub(super) fn became(&self) -> Option<String> {
        let (layout, said) = self.choosing.gears.became.as_ref()?;
        Rc::ptr_eq(layout, self.document.layout()).then(|| said.clone())
    }
}

/// How far a state is from running.
const fn badness(state: State) -> u8 {
    match state {
        State::Runs | State::Held => 0,
        State::Stalled => 1,
        State::SelfLocking => 2,
        State::Ambiguous => 3,
        State::Undetermined => 4,
        State::Jammed => 5,
    }
}
