//! Carrying out commands: each gives the command that takes it back, or a refusal that leaves the layout as it was.
//!
//! Those on shafts, elements and positions are in the files of these names.

use std::mem::replace;

use super::command::{Command, Owner};
use super::refusal::{Refusal, Unknown};
use super::{field, sound};
use layshaft_powerflow::materials::pair_named;

use crate::document::{Id, Layout, Stretch};
use crate::file::nearest::Nearest;
use crate::file::tables::carried_fields;
use crate::file::write;

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
            Command::SetMaterialPair(pair) => self.set_material_pair(pair.as_deref()),
            Command::SetCourse(course) => self.set_course(course),
            Command::SetGroups(groups) => self.set_groups(groups),
            Command::SetPlan(plan) => self.set_plan(plan),
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
            Command::RenamePosition { from, to } => self.rename_position(from, to),
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

    fn set_material_pair(&mut self, pair: Option<&str>) -> Result<Command, Refusal> {
        if let Some(word) = pair {
            sound::check_top(self, "material_pair", &word.into())?;
        }
        let before = replace(&mut self.material_pair, pair.and_then(pair_named));
        Ok(Command::SetMaterialPair(
            before.map(|before| before.name.to_owned()),
        ))
    }

    fn set_course(&mut self, course: &[Stretch]) -> Result<Command, Refusal> {
        let stretches = course.iter().map(write::stretch).map(serde_json::Value::from);
        sound::check_top(self, "course", &stretches.collect())?;
        Ok(Command::SetCourse(replace(&mut self.course, course.to_vec())))
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
