//! Carrying out the commands on shift positions.

use std::mem::replace;

use super::apply::{room_in, unknown};
use super::command::Command;
use super::refusal::Refusal;
use super::sound;
use crate::document::{ElementKind, Id, Layout, Position};
use crate::file::tables::MOST_POSITIONS;

impl Layout {
    /// The command that adds a position behind those which are shown, writing down the implied one first.
    #[must_use]
    pub fn position_added(&self, position: Position) -> Command {
        if !self.positions.is_empty() {
            return Command::AddPosition {
                index: self.positions.len(),
                position,
            };
        }
        let only = Command::AddPosition {
            index: 0,
            position: Position::only(),
        };
        Command::Batch(vec![only, Command::AddPosition { index: 1, position }])
    }

    pub(super) fn add_position(&mut self, index: usize, position: &Position) -> Result<Command, Refusal> {
        if self.position(&position.id).is_some() {
            return Err(Refusal::IdTaken {
                id: position.id.clone(),
            });
        }
        room_in(&self.positions, MOST_POSITIONS)?;
        sound::check_position(self, position)?;
        self.count_in(&position.id);
        self.positions
            .insert(index.min(self.positions.len()), position.clone());
        Ok(Command::RemovePosition {
            id: position.id.clone(),
        })
    }

    pub(super) fn remove_position(&mut self, id: &Id) -> Result<Command, Refusal> {
        let index = self.position_index(id)?;
        let switches = self.elements.iter().filter(
            |element| matches!(&element.kind, ElementKind::TorqueSwitch(it) if it.from == *id || it.to == *id),
        );
        let removed: Vec<Command> = switches
            .map(|element| Command::RemoveElement {
                id: element.id.clone(),
            })
            .collect();
        let inverse = self.batch(&removed)?;
        let again = Command::AddPosition {
            index,
            position: self.positions.remove(index),
        };
        Ok(match inverse {
            Command::Batch(inverses) if inverses.is_empty() => again,
            others => Command::Batch(vec![again, others]),
        })
    }

    pub(super) fn rename_position(&mut self, from: &Id, to: &Id) -> Result<Command, Refusal> {
        let index = self.position_index(from)?;
        if from != to && self.position(to).is_some() {
            return Err(Refusal::IdTaken { id: to.clone() });
        }
        let mut renamed = self.positions[index].clone();
        renamed.id = to.clone();
        sound::check_position(self, &renamed)?;
        self.count_in(to);
        self.positions[index] = renamed;
        for element in &mut self.elements {
            if let ElementKind::TorqueSwitch(switch) = &mut element.kind {
                for named in [&mut switch.from, &mut switch.to] {
                    if named == from {
                        *named = to.clone();
                    }
                }
            }
        }
        Ok(Command::RenamePosition {
            from: to.clone(),
            to: from.clone(),
        })
    }

    pub(super) fn replace_position(&mut self, position: &Position) -> Result<Command, Refusal> {
        let index = self.position_index(&position.id)?;
        sound::check_position(self, position)?;
        Ok(Command::ReplacePosition {
            position: replace(&mut self.positions[index], position.clone()),
        })
    }

    pub(super) fn name_position(&mut self, id: &Id, name: &str) -> Result<Command, Refusal> {
        self.change_position(id, |position| name.clone_into(&mut position.name))
    }

    pub(super) fn set_engaged(&mut self, id: &Id, element: &Id, engaged: bool) -> Result<Command, Refusal> {
        self.element_index(element)?;
        self.change_position(id, |position| {
            if !engaged {
                position.engaged.retain(|other| other != element);
            } else if !position.engaged.contains(element) {
                position.engaged.push(element.clone());
            }
        })
    }

    /// Changes a position; the implied one is written down by that.
    fn change_position(&mut self, id: &Id, change: impl FnOnce(&mut Position)) -> Result<Command, Refusal> {
        let only = Position::only();
        if self.positions.is_empty() && *id == only.id {
            let mut changed = only;
            change(&mut changed);
            return self.add_position(0, &changed);
        }
        let mut changed = self.positions[self.position_index(id)?].clone();
        change(&mut changed);
        self.replace_position(&changed)
    }

    pub(super) fn move_position(&mut self, id: &Id, to: usize) -> Result<Command, Refusal> {
        let from = self.position_index(id)?;
        let position = self.positions.remove(from);
        self.positions.insert(to.min(self.positions.len()), position);
        Ok(Command::MovePosition {
            id: id.clone(),
            to: from,
        })
    }

    /// Takes an element out of every position and gives the commands that put it back.
    pub(super) fn disengage_everywhere(&mut self, element: &Id) -> Vec<Command> {
        let mut back = Vec::new();
        for position in self
            .positions
            .iter_mut()
            .filter(|position| position.engaged.contains(element))
        {
            back.push(Command::ReplacePosition {
                position: position.clone(),
            });
            position.engaged.retain(|other| other != element);
        }
        back
    }

    fn position_index(&self, id: &Id) -> Result<usize, Refusal> {
        let found = self.positions.iter().position(|position| position.id == *id);
        found.ok_or_else(|| {
            Refusal::UnknownPosition(unknown(id, self.positions.iter().map(|position| &position.id)))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decode;

    #[test]
    fn a_second_position_stands_beside_the_implied_one() {
        let mut layout = Layout::new();
        for name in ["Second", "Third"] {
            let position = Position {
                id: layout.next_position_id(),
                name: name.to_owned(),
                engaged: Vec::new(),
            };
            let command = layout.position_added(position);
            layout.apply(&command).expect("its id is new");
        }
        let names: Vec<&str> = layout
            .positions
            .iter()
            .map(|position| position.name.as_str())
            .collect();
        assert_eq!(names, ["Only", "Second", "Third"]);
    }

    const SWITCHED: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
        {"id": "t", "kind": "torque_switch", "a": "a", "b": "b", "up_nm": 2, "down_nm": 1, "from": "p", "to": "q"},
        {"id": "k", "kind": "clutch", "a": "a", "b": "b"}],
        "positions": [{"id": "p"}, {"id": "q", "name": "Fast"}, {"id": "r"}]}"#;

    #[test]
    fn a_position_takes_along_the_switches_that_shift_to_it() {
        let before = decode(SWITCHED).expect("sound");
        let mut layout = before.clone();
        let remove = Command::RemovePosition { id: Id::from("q") };
        let inverse = layout.apply(&remove).expect("it is there");
        assert_eq!((layout.positions.len(), layout.elements.len()), (2, 1));
        layout.apply(&inverse).expect("an inverse fits");
        assert_eq!(layout, before);
    }

    #[test]
    fn a_new_id_of_a_position_goes_to_its_switches() {
        let mut layout = decode(SWITCHED).expect("sound");
        let rename = |from: &str, to: &str| Command::RenamePosition {
            from: Id::from(from),
            to: Id::from(to),
        };
        let inverse = layout.apply(&rename("q", "high")).expect("it is free");
        let renamed = decode(&SWITCHED.replace("\"q\"", "\"high\"")).expect("sound");
        assert_eq!(layout, renamed);
        layout.apply(&inverse).expect("an inverse fits");
        assert_eq!(layout, decode(SWITCHED).expect("sound"));
        let taken = layout.apply(&rename("q", "p")).expect_err("p is there");
        assert_eq!(taken.to_string(), "the id `p` is already taken; choose another");
    }
}
