//! Shift positions: shown, added, removed, and what is engaged in them.

use std::rc::Rc;

use layshaft_layout::{Command, Id, Position};

use super::{Effect, Session};
use crate::target::Target;

/// Names that positions get.
const ORDINALS: [&str; 8] = [
    "First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth",
];

impl Session {
    pub(super) fn show_position(&mut self, id: Id, effects: &mut Vec<Effect>) {
        let positions = self.shown.effective_positions();
        let Some(position) = positions.iter().find(|position| position.id == id) else {
            return;
        };
        self.leave_run();
        if self.position != id {
            self.position = id;
            self.revealed = Rc::default();
            self.redraw();
            effects.push(Effect::Announce(format!(
                "Position {}: {}",
                position.name,
                self.headline().headline
            )));
        }
    }

    pub(super) fn show_numbered(&mut self, number: usize, effects: &mut Vec<Effect>) {
        if let Some(position) = self.shown.effective_positions().get(number) {
            self.show_position(position.id.clone(), effects);
        }
    }

    pub(super) fn turn_position(&mut self, by: isize, effects: &mut Vec<Effect>) {
        let positions = self.shown.effective_positions();
        let current = positions
            .iter()
            .position(|position| position.id == self.position)
            .unwrap_or(0) as isize;
        let next = (current + by).rem_euclid(positions.len().max(1) as isize);
        self.show_numbered(next.unsigned_abs(), effects);
    }

    pub(super) fn add_position(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout();
        let mut commands = Vec::new();
        let written = layout.effective_positions();
        let first = || ORDINALS[0].to_owned();
        match &layout.positions[..] {
            [] => commands.push(Command::AddPosition {
                index: usize::MAX,
                position: Position {
                    name: first(),
                    ..Position::only()
                },
            }),
            // The name of a single position says nothing beside a second one.
            [only] if only.name == Position::only().name => {
                commands.push(Command::NamePosition {
                    id: only.id.clone(),
                    name: first(),
                });
            }
            _ => {}
        }
        let engaged = written
            .iter()
            .find(|position| position.id == self.position)
            .map(|position| position.engaged.clone());
        let id = layout.next_position_id();
        let name = ORDINALS.get(written.len()).map_or_else(
            || format!("Position {}", written.len() + 1),
            |name| (*name).to_owned(),
        );
        let position = Position {
            id: id.clone(),
            name: name.clone(),
            engaged: engaged.unwrap_or_default(),
        };
        commands.push(Command::AddPosition {
            index: usize::MAX,
            position,
        });
        if self.commit(Command::Batch(commands), &format!("add position {name}"), effects) {
            self.show_position(id, effects);
        }
    }

    pub(super) fn remove_position(&mut self, effects: &mut Vec<Effect>) {
        if self.document.layout().positions.len() < 2 {
            effects.push(Effect::Announce("A layout has at least one position".to_owned()));
            return;
        }
        let id = self.position.clone();
        let name = self.position_name();
        self.commit(
            Command::RemovePosition { id },
            &format!("remove position {name}"),
            effects,
        );
    }

    pub(super) fn position_name(&self) -> String {
        let positions = self.shown.effective_positions();
        let position = positions
            .into_iter()
            .find(|position| position.id == self.position);
        position.map_or_else(|| self.position.to_string(), |position| position.name)
    }

    pub(super) fn toggle_engaged(&mut self, effects: &mut Vec<Effect>) {
        let Some(Target::Element(id)) = self.selection.last().cloned() else {
            return;
        };
        let positions = self.document.layout().effective_positions();
        let Some(position) = positions.iter().find(|position| position.id == self.position) else {
            return;
        };
        let on = !position.engaged.contains(&id);
        self.set_engaged(self.position.clone(), id, on, effects);
    }

    pub(super) fn set_engaged(&mut self, position: Id, element: Id, on: bool, effects: &mut Vec<Effect>) {
        self.close_edit(effects);
        let name = format!("{} {element}", if on { "engage" } else { "release" });
        let done = format!("{element} is {}", if on { "on" } else { "off" });
        if self.commit(
            Command::SetEngaged {
                position,
                element,
                engaged: on,
            },
            &name,
            effects,
        ) {
            effects.push(Effect::Announce(done));
        }
    }
}
