//! Carrying out the commands on shafts.

use std::mem::{replace, swap};

use super::apply::{first_then, room_in, unknown};
use super::command::Command;
use super::refusal::Refusal;
use super::sound;
use super::view::Placed;
use crate::document::{Element, ElementKind, Id, Layout, Shaft};
use crate::file::tables::MOST_THINGS;

impl Layout {
    pub(super) fn add_shaft(&mut self, index: usize, shaft: &Shaft) -> Result<Command, Refusal> {
        if self.shaft(&shaft.id).is_some() {
            return Err(Refusal::IdTaken { id: shaft.id.clone() });
        }
        room_in(&self.shafts, MOST_THINGS)?;
        sound::check_shaft(self, shaft)?;
        self.count_in(&shaft.id);
        self.shafts.insert(index.min(self.shafts.len()), shaft.clone());
        Ok(Command::RemoveShaft { id: shaft.id.clone() })
    }

    pub(super) fn remove_shaft(&mut self, id: &Id) -> Result<Command, Refusal> {
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
        let regrouped = self.ungroup_lost(id);
        let again = Command::AddShaft { index, shaft };
        let others = match inverse {
            Command::Batch(inverses) if inverses.is_empty() => None,
            others => Some(others),
        };
        Ok(first_then(again, regrouped.into_iter().chain(others).collect()))
    }

    pub(super) fn replace_shaft(&mut self, shaft: &Shaft) -> Result<Command, Refusal> {
        let index = self.shaft_index(&shaft.id)?;
        sound::check_shaft(self, shaft)?;
        Ok(Command::ReplaceShaft {
            shaft: replace(&mut self.shafts[index], shaft.clone()),
        })
    }

    pub(super) fn move_shafts(&mut self, moves: &[(Id, [f64; 2])]) -> Result<Command, Refusal> {
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

    pub(super) fn rename_shaft(&mut self, from: &Id, to: &Id) -> Result<Command, Refusal> {
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
        let regrouped = self.rename_in_groups(from, to);
        let viewed = self.rename_in_view(Placed::Shafts, from, to);
        let back = Command::RenameShaft {
            from: to.clone(),
            to: from.clone(),
        };
        Ok(first_then(back, regrouped.into_iter().chain(viewed).collect()))
    }

    /// Where a shaft stands in the list.
    pub(super) fn shaft_index(&self, id: &Id) -> Result<usize, Refusal> {
        let found = self.shafts.iter().position(|shaft| shaft.id == *id);
        found.ok_or_else(|| Refusal::UnknownShaft(unknown(id, self.shafts.iter().map(|shaft| &shaft.id))))
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
