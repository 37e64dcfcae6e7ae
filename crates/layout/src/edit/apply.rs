//! Carrying out commands: each gives the command that takes it back, or a refusal that leaves the layout as it was.

use std::mem::{replace, swap};

use super::command::{Command, Owner};
use super::refusal::{Refusal, Unknown};
use super::{field, sound};
use crate::document::{Element, ElementKind, Id, Layout, Shaft};
use crate::file::nearest::Nearest;
use crate::file::tables::{MOST_THINGS, carried_fields};

impl Layout {
    /// Carries out a command and gives the command that takes it back.
    ///
    /// Taking back restores everything, order included, but for [`Layout::last_number`], which never falls.
    ///
    /// # Errors
    /// A [`Refusal`] where the command names what is not there, or the layout would no longer be sound. Nothing has
    /// changed then.
    pub fn apply(&mut self, command: &Command) -> Result<Command, Refusal> {
        match command {
            Command::Batch(commands) => self.batch(commands),
            Command::SetTitle(title) => {
                sound::check_top(self, "title", &title.as_str().into())?;
                Ok(Command::SetTitle(replace(&mut self.title, title.clone())))
            }
            Command::SetNotes(notes) => {
                sound::check_top(self, "notes", &notes.as_str().into())?;
                Ok(Command::SetNotes(replace(&mut self.notes, notes.clone())))
            }
            Command::SetDrive(drive) => self.set_drive(drive.as_ref()),
            Command::SetCarried { name, value } => self.set_carried(name, value.clone()),
            Command::AddShaft { index, shaft } => self.add_shaft(*index, shaft),
            Command::RemoveShaft { id } => self.remove_shaft(id),
            Command::ReplaceShaft { shaft } => self.replace_shaft(shaft),
            Command::MoveShafts { moves } => self.move_shafts(moves),
            Command::RenameShaft { from, to } => self.rename_shaft(from, to),
            Command::AddElement { index, element } => self.add_element(*index, element),
            Command::RemoveElement { id } => self.remove_element(id),
            Command::ReplaceElement { element } => self.replace_element(element),
            Command::MoveElements { moves } => self.move_elements(moves),
            Command::RenameElement { from, to } => self.rename_element(from, to),
            Command::SetPort { element, role, shaft } => self.set_port(element, role, shaft),
            Command::SetField { owner, field, value } => match owner {
                Owner::Shaft(id) => self.replace_shaft(&field::set_in_shaft(self, id, field, value.clone())?),
                Owner::Element(id) => {
                    self.replace_element(&field::set_in_element(self, id, field, value.clone())?)
                }
            },
            Command::AddPosition { index, position } => self.add_position(*index, position),
            Command::RemovePosition { id } => self.remove_position(id),
            Command::ReplacePosition { position } => self.replace_position(position),
            Command::NamePosition { id, name } => self.name_position(id, name),
            Command::MovePosition { id, to } => self.move_position(id, *to),
            Command::SetEngaged {
                position,
                element,
                engaged,
            } => self.set_engaged(position, element, *engaged),
        }
    }

    /// Carries out all of the commands or none.
    pub(super) fn batch(&mut self, commands: &[Command]) -> Result<Command, Refusal> {
        let used = self.last_number;
        let mut inverses = Vec::with_capacity(commands.len());
        for command in commands {
            match self.apply(command) {
                Ok(inverse) => inverses.push(inverse),
                Err(refusal) => {
                    for inverse in inverses.iter().rev() {
                        let taken_back = self.apply(inverse);
                        debug_assert!(
                            taken_back.is_ok(),
                            "an inverse always fits the state it was made in"
                        );
                    }
                    self.last_number = used;
                    return Err(refusal);
                }
            }
        }
        inverses.reverse();
        Ok(Command::Batch(inverses))
    }

    fn set_drive(&mut self, drive: Option<&Id>) -> Result<Command, Refusal> {
        if let Some(id) = drive {
            self.shaft_index(id)?;
        }
        Ok(Command::SetDrive(replace(&mut self.drive, drive.cloned())))
    }

    fn set_carried(&mut self, name: &str, value: Option<serde_json::Value>) -> Result<Command, Refusal> {
        if !carried_fields().any(|known| known == name) {
            return Err(Refusal::NotCarried {
                name: name.to_owned(),
            });
        }
        if let Some(value) = &value {
            sound::check_top(self, name, value)?;
        }
        let before = match value {
            Some(value) => self.carried.insert(name.to_owned(), value),
            None => self.carried.shift_remove(name),
        };
        Ok(Command::SetCarried {
            name: name.to_owned(),
            value: before,
        })
    }

    fn add_shaft(&mut self, index: usize, shaft: &Shaft) -> Result<Command, Refusal> {
        if self.shaft(&shaft.id).is_some() {
            return Err(Refusal::IdTaken { id: shaft.id.clone() });
        }
        room_in(&self.shafts, MOST_THINGS)?;
        sound::check_shaft(self, shaft)?;
        self.count_in(&shaft.id);
        self.shafts.insert(index.min(self.shafts.len()), shaft.clone());
        Ok(Command::RemoveShaft { id: shaft.id.clone() })
    }

    fn remove_shaft(&mut self, id: &Id) -> Result<Command, Refusal> {
        let index = self.shaft_index(id)?;
        let mut first: Vec<Command> = self
            .elements_on(id)
            .map(|element| without_shaft(element, id))
            .collect();
        if self.drive.as_ref() == Some(id) {
            first.push(Command::SetDrive(None));
        }
        let inverse = self.batch(&first)?;
        let shaft = self.shafts.remove(index);
        let again = Command::AddShaft { index, shaft };
        Ok(match inverse {
            Command::Batch(inverses) if inverses.is_empty() => again,
            others => Command::Batch(vec![again, others]),
        })
    }

    fn replace_shaft(&mut self, shaft: &Shaft) -> Result<Command, Refusal> {
        let index = self.shaft_index(&shaft.id)?;
        sound::check_shaft(self, shaft)?;
        Ok(Command::ReplaceShaft {
            shaft: replace(&mut self.shafts[index], shaft.clone()),
        })
    }

    fn move_shafts(&mut self, moves: &[(Id, [f64; 2])]) -> Result<Command, Refusal> {
        let mut indexed = Vec::with_capacity(moves.len());
        for (id, at) in moves {
            let index = self.shaft_index(id)?;
            sound::check_shaft(
                self,
                &Shaft {
                    at: *at,
                    ..self.shafts[index].clone()
                },
            )?;
            indexed.push((index, *at));
        }
        for (index, at) in &mut indexed {
            swap(&mut self.shafts[*index].at, at);
        }
        // Backwards, so that a shaft moved twice ends where it was before the first move.
        let back = indexed
            .into_iter()
            .rev()
            .map(|(index, at)| (self.shafts[index].id.clone(), at));
        Ok(Command::MoveShafts {
            moves: back.collect(),
        })
    }

    fn rename_shaft(&mut self, from: &Id, to: &Id) -> Result<Command, Refusal> {
        let index = self.shaft_index(from)?;
        if from != to && self.shaft(to).is_some() {
            return Err(Refusal::IdTaken { id: to.clone() });
        }
        sound::check_shaft(
            self,
            &Shaft {
                id: to.clone(),
                ..self.shafts[index].clone()
            },
        )?;
        self.count_in(to);
        self.shafts[index].id = to.clone();
        for element in &mut self.elements {
            element.kind.rename_shaft(from, to);
        }
        if self.drive.as_ref() == Some(from) {
            self.drive = Some(to.clone());
        }
        Ok(Command::RenameShaft {
            from: to.clone(),
            to: from.clone(),
        })
    }

    fn add_element(&mut self, index: usize, element: &Element) -> Result<Command, Refusal> {
        if self.element(&element.id).is_some() {
            return Err(Refusal::IdTaken {
                id: element.id.clone(),
            });
        }
        room_in(&self.elements, MOST_THINGS)?;
        sound::check_element(self, element)?;
        self.count_in(&element.id);
        self.elements
            .insert(index.min(self.elements.len()), element.clone());
        Ok(Command::RemoveElement {
            id: element.id.clone(),
        })
    }

    fn remove_element(&mut self, id: &Id) -> Result<Command, Refusal> {
        let index = self.element_index(id)?;
        let disengaged = self.disengage_everywhere(id);
        let again = Command::AddElement {
            index,
            element: self.elements.remove(index),
        };
        Ok(first_then(again, disengaged))
    }

    fn replace_element(&mut self, element: &Element) -> Result<Command, Refusal> {
        let index = self.element_index(&element.id)?;
        sound::check_element(self, element)?;
        let engageable = element.kind.is_engageable();
        let disengaged = if engageable {
            Vec::new()
        } else {
            self.disengage_everywhere(&element.id)
        };
        let before = replace(&mut self.elements[index], element.clone());
        Ok(first_then(
            Command::ReplaceElement { element: before },
            disengaged,
        ))
    }

    fn move_elements(&mut self, moves: &[(Id, Option<[f64; 2]>)]) -> Result<Command, Refusal> {
        let mut indexed = Vec::with_capacity(moves.len());
        for (id, at) in moves {
            let index = self.element_index(id)?;
            sound::check_element(
                self,
                &Element {
                    at: *at,
                    ..self.elements[index].clone()
                },
            )?;
            indexed.push((index, *at));
        }
        for (index, at) in &mut indexed {
            swap(&mut self.elements[*index].at, at);
        }
        let back = indexed
            .into_iter()
            .rev()
            .map(|(index, at)| (self.elements[index].id.clone(), at));
        Ok(Command::MoveElements {
            moves: back.collect(),
        })
    }

    fn rename_element(&mut self, from: &Id, to: &Id) -> Result<Command, Refusal> {
        let index = self.element_index(from)?;
        if from != to && self.element(to).is_some() {
            return Err(Refusal::IdTaken { id: to.clone() });
        }
        sound::check_element(
            self,
            &Element {
                id: to.clone(),
                ..self.elements[index].clone()
            },
        )?;
        self.count_in(to);
        self.elements[index].id = to.clone();
        let engaged = self
            .positions
            .iter_mut()
            .flat_map(|position| &mut position.engaged);
        for id in engaged.filter(|id| *id == from) {
            *id = to.clone();
        }
        Ok(Command::RenameElement {
            from: to.clone(),
            to: from.clone(),
        })
    }

    fn set_port(&mut self, id: &Id, role: &str, shaft: &Id) -> Result<Command, Refusal> {
        let mut element = self.elements[self.element_index(id)?].clone();
        if !element.set_port(role, shaft) {
            let known = element
                .ports()
                .into_iter()
                .map(|(role, _)| role.into_owned())
                .collect();
            return Err(Refusal::NoSuchPort {
                element: id.clone(),
                role: role.to_owned(),
                known,
            });
        }
        self.replace_element(&element)
    }

    /// Where a shaft stands in the list.
    pub(super) fn shaft_index(&self, id: &Id) -> Result<usize, Refusal> {
        let found = self.shafts.iter().position(|shaft| shaft.id == *id);
        found.ok_or_else(|| Refusal::UnknownShaft(unknown(id, self.shafts.iter().map(|shaft| &shaft.id))))
    }

    /// Where an element stands in the list.
    pub(super) fn element_index(&self, id: &Id) -> Result<usize, Refusal> {
        let found = self.elements.iter().position(|element| element.id == *id);
        found.ok_or_else(|| {
            Refusal::UnknownElement(unknown(id, self.elements.iter().map(|element| &element.id)))
        })
    }
}

impl ElementKind {
    /// Names a shaft anew wherever a port is on it.
    fn rename_shaft(&mut self, from: &Id, to: &Id) {
        let roles: Vec<_> = self
            .ports()
            .into_iter()
            .filter(|(_, on)| *on == from)
            .map(|(role, _)| role)
            .collect();
        for role in roles {
            if let Some(port) = self.port_mut(&role) {
                *port = to.clone();
            }
        }
    }
}

/// What becomes of an element when a shaft goes: it goes too, unless it is a vehicle with other driven wheels.
fn without_shaft(element: &Element, shaft: &Id) -> Command {
    let mut element = element.clone();
    if let ElementKind::Vehicle(vehicle) = &mut element.kind {
        vehicle.shafts.retain(|wheel| wheel != shaft);
        if !vehicle.shafts.is_empty() {
            return Command::ReplaceElement { element };
        }
    }
    Command::RemoveElement { id: element.id }
}

/// One command, or a batch where others belong to it.
pub(super) fn first_then(first: Command, others: Vec<Command>) -> Command {
    if others.is_empty() {
        return first;
    }
    Command::Batch([vec![first], others].concat())
}

/// Refuses where a list is full.
pub(super) const fn room_in<T>(list: &[T], most: usize) -> Result<(), Refusal> {
    if list.len() < most {
        Ok(())
    } else {
        Err(Refusal::TooMany { most })
    }
}

/// An id that nothing bears, with the nearest of those that there are.
pub(super) fn unknown<'i>(id: &Id, known: impl Iterator<Item = &'i Id>) -> Unknown {
    let nearest = Nearest::new()
        .of(id.as_str(), known.map(Id::as_str))
        .map(Id::from);
    Unknown {
        id: id.clone(),
        nearest,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::{decode, encode_compact};

    const TEXT: &str = r#"{"layshaft": 1, "drive": "a", "shafts": [{"id": "a"}, {"id": "b"}, {"id": "c"}], "elements": [
        {"id": "k", "kind": "clutch", "a": "a", "b": "b"},
        {"id": "v", "kind": "vehicle", "shafts": ["a", "c"], "wheel_mm": 60, "mass_kg": 1.4},
        {"id": "h", "kind": "brake", "shaft": "c"}],
        "positions": [{"id": "p", "engaged": ["h", "k"]}]}"#;

    #[test]
    fn a_shaft_takes_along_what_cannot_be_without_it() {
        let before = decode(TEXT).expect("sound");
        let mut layout = before.clone();
        let inverse = layout
            .apply(&Command::RemoveShaft { id: Id::from("a") })
            .expect("it is there");
        assert_eq!(
            layout
                .elements
                .iter()
                .map(|element| element.id.as_str())
                .collect::<Vec<_>>(),
            ["v", "h"]
        );
        assert_eq!(layout.elements[0].ports().len(), 1);
        assert_eq!(layout.positions[0].engaged, [Id::from("h")]);
        assert_eq!(layout.drive, None);
        layout.apply(&inverse).expect("an inverse fits");
        assert_eq!(layout, before);
    }

    #[test]
    fn a_new_name_goes_everywhere() {
        let mut layout = decode(TEXT).expect("sound");
        layout
            .apply(&Command::RenameShaft {
                from: Id::from("a"),
                to: Id::from("in"),
            })
            .expect("free");
        layout
            .apply(&Command::RenameElement {
                from: Id::from("k"),
                to: Id::from("dog"),
            })
            .expect("free");
        let expected = TEXT
            .replace("\"a\", \"c\"", "\"in\", \"c\"")
            .replace("\"a\": \"a\"", "\"a\": \"in\"");
        let expected = expected
            .replace("\"id\": \"a\"", "\"id\": \"in\"")
            .replace("\"drive\": \"a\"", "\"drive\": \"in\"");
        let expected = expected.replace("\"k\"", "\"dog\"");
        assert_eq!(
            encode_compact(&layout),
            encode_compact(&decode(&expected).expect("sound"))
        );
    }

    #[test]
    fn engaging_in_the_implied_position_writes_it_down() {
        let mut layout = decode(TEXT).expect("sound");
        layout.positions.clear();
        let only = Id::from("only");
        let engage = Command::SetEngaged {
            position: only,
            element: Id::from("h"),
            engaged: true,
        };
        let inverse = layout.apply(&engage).expect("the implied position is there");
        assert_eq!(layout.positions[0].engaged, [Id::from("h")]);
        layout.apply(&inverse).expect("an inverse fits");
        assert!(layout.positions.is_empty());
    }
}
