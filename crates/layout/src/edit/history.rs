//! Undo and redo, without limit. What a drag previews is the caller's; one finished edit is one command here.

use serde::{Deserialize, Serialize};

use super::command::Command;
use super::refusal::Refusal;
use crate::document::Layout;

/// What was done to a layout and can be taken back, and what was taken back and can be done again.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct History {
    done: Vec<Step>,
    undone: Vec<Command>,
}

/// One command with the command that takes it back.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Step {
    command: Command,
    inverse: Command,
}

impl History {
    /// Carries out a command and remembers it. What had been taken back can no longer be done again.
    ///
    /// # Errors
    /// The refusal; layout and history are as before.
    pub fn do_command(&mut self, layout: &mut Layout, command: Command) -> Result<(), Refusal> {
        let inverse = layout.apply(&command)?;
        self.done.push(Step { command, inverse });
        self.undone.clear();
        Ok(())
    }

    /// Takes back the last command; false where there is none.
    pub fn undo(&mut self, layout: &mut Layout) -> bool {
        let Some(step) = self.done.pop() else { return false };
        if layout.apply(&step.inverse).is_err() {
            // Only a layout that was changed behind the history's back gets here; keep the step and do nothing.
            self.done.push(step);
            return false;
        }
        self.undone.push(step.command);
        true
    }

    /// Does again what was last taken back; false where there is nothing.
    pub fn redo(&mut self, layout: &mut Layout) -> bool {
        let Some(command) = self.undone.pop() else {
            return false;
        };
        match layout.apply(&command) {
            Ok(inverse) => {
                self.done.push(Step { command, inverse });
                true
            }
            Err(_) => {
                self.undone.push(command);
                false
            }
        }
    }

    /// Whether there is something to take back.
    #[must_use]
    pub const fn can_undo(&self) -> bool {
        !self.done.is_empty()
    }

    /// Whether there is something to do again.
    #[must_use]
    pub const fn can_redo(&self) -> bool {
        !self.undone.is_empty()
    }

    /// The commands that lead to the layout as it is, oldest first.
    pub fn log(&self) -> impl Iterator<Item = &Command> {
        self.done.iter().map(|step| &step.command)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::arbitrary;
    use crate::file::{decode, encode};

    /// The layout with its counter put to that of another; undo leaves the counter where it rose to.
    fn counted_as(layout: &Layout, other: &Layout) -> Layout {
        Layout {
            last_number: other.last_number,
            ..layout.clone()
        }
    }

    proptest! {
        #[test]
        fn undo_takes_back_exactly_and_redo_does_again(
            start in arbitrary::layout(),
            seeds in arbitrary::seeds(),
        ) {
            let mut layout = start.clone();
            let mut history = History::default();
            let mut states = vec![start.clone()];
            for seed in &seeds {
                let before = layout.clone();
                match history.do_command(&mut layout, seed.command(&before)) {
                    Ok(()) => states.push(layout.clone()),
                    Err(_) => prop_assert_eq!(&layout, &before, "a refusal leaves the layout alone"),
                }
                prop_assert_eq!(decode(&encode(&layout)), Ok(layout.clone()), "what commands make is sound");
            }
            let end = layout.clone();
            for state in states.iter().rev().skip(1) {
                prop_assert!(history.undo(&mut layout));
                prop_assert_eq!(&counted_as(&layout, state), state);
                prop_assert_eq!(layout.last_number, end.last_number, "the counter never falls");
            }
            prop_assert!(!history.undo(&mut layout));
            while history.redo(&mut layout) {}
            prop_assert_eq!(&layout, &end);
            let mut again = start;
            for command in history.log() {
                prop_assert!(again.apply(command).is_ok());
            }
            prop_assert_eq!(again, end);
        }

        #[test]
        fn a_batch_is_all_or_nothing(start in arbitrary::layout(), seeds in arbitrary::seeds()) {
            let mut ahead = start.clone();
            let mut commands = Vec::new();
            for seed in &seeds {
                let command = seed.command(&ahead);
                let sound = ahead.apply(&command).is_ok();
                commands.push(command);
                if !sound {
                    break;
                }
            }
            let mut layout = start.clone();
            match layout.apply(&Command::Batch(commands)) {
                Ok(_) => prop_assert_eq!(layout, ahead),
                Err(_) => prop_assert_eq!(layout, start),
            }
        }

        #[test]
        fn commands_survive_storing(start in arbitrary::layout(), seeds in arbitrary::seeds()) {
            for seed in &seeds {
                let command = seed.command(&start);
                let text = serde_json::to_string(&command).expect("commands can be written");
                prop_assert_eq!(serde_json::from_str::<Command>(&text).expect("and read"), command);
            }
        }
    }
}
