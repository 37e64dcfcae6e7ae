//! Carrying out the commands on elements.

use std::mem::{replace, swap};

use super::apply::{first_then, room_in, unknown};
use super::command::Command;
use super::refusal::Refusal;
use super::sound;
use super::view::Placed;
use crate::document::{Element, Id, Layout};
use crate::file::tables::MOST_THINGS;

impl Layout {
    pub(super) fn add_element(&mut self, index: usize, element: &Element) -> Result<Command, Refusal> {
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

    pub(super) fn remove_element(&mut self, id: &Id) -> Result<Command, Refusal> {
        let index = self.element_index(id)?;
        let disengaged = self.disengage_everywhere(id);
        let again = Command::AddElement {
            index,
            element: self.elements.remove(index),
        };
        let regrouped = self.ungroup_lost(id);
        let layered = self.unlayer_lost(id);
        Ok(first_then(
            again,
            regrouped.into_iter().chain(layered).chain(disengaged).collect(),
        ))
    }

    pub(super) fn replace_element(&mut self, element: &Element) -> Result<Command, Refusal> {
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

    pub(super) fn move_elements(&mut self, moves: &[(Id, Option<[f64; 2]>)]) -> Result<Command, Refusal> {
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

    pub(super) fn rename_element(&mut self, from: &Id, to: &Id) -> Result<Command, Refusal> {
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
        let regrouped = self.rename_in_groups(from, to);
        self.rename_in_plan(from, to);
        let viewed = self.rename_in_view(Placed::Elements, from, to);
        let back = Command::RenameElement {
            from: to.clone(),
            to: from.clone(),
        };
        Ok(first_then(back, regrouped.into_iter().chain(viewed).collect()))
    }

    pub(super) fn set_port(&mut self, id: &Id, role: &str, shaft: &Id) -> Result<Command, Refusal> {
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

    /// Where an element stands in the list.
    pub(super) fn element_index(&self, id: &Id) -> Result<usize, Refusal> {
        let found = self.elements.iter().position(|element| element.id == *id);
        found.ok_or_else(|| {
            Refusal::UnknownElement(unknown(id, self.elements.iter().map(|element| &element.id)))
        })
    }
}
