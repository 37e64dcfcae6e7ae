//! Changes of the document by action: undo, delete, duplicate, move, arrange.

use std::collections::BTreeMap;
use std::rc::Rc;

use layshaft_layout::{Command, Element, Id};

use super::edits::named;
use super::{Effect, Session};
use crate::actions::Direction;
use crate::arranging::arrange;
use crate::parts;
use crate::placement::GRID;
use crate::target::Target;

impl Session {
    pub(super) fn undo(&mut self, effects: &mut Vec<Effect>) {
        if let Some(name) = self.document.undo() {
            self.settle(effects);
            effects.push(Effect::Announce(format!("Undone: {name}")));
        } else if let Some(before) = Rc::make_mut(&mut self.before).pop() {
            let replaced = std::mem::replace(&mut self.document, before);
            Rc::make_mut(&mut self.after).push(replaced);
            self.settle(effects);
            self.fit();
            effects.push(Effect::Announce("The layout from before is back".to_owned()));
        } else {
            effects.push(Effect::Announce("There is nothing to undo".to_owned()));
        }
    }

    pub(super) fn redo(&mut self, effects: &mut Vec<Effect>) {
        if let Some(name) = self.document.redo() {
            self.settle(effects);
            effects.push(Effect::Announce(format!("Done again: {name}")));
        } else if let Some(after) = Rc::make_mut(&mut self.after).pop() {
            let replaced = std::mem::replace(&mut self.document, after);
            Rc::make_mut(&mut self.before).push(replaced);
            self.settle(effects);
            self.fit();
            effects.push(Effect::Announce("The layout opened last is back".to_owned()));
        } else {
            effects.push(Effect::Announce("There is nothing to do again".to_owned()));
        }
    }

    /// Deletes things; a shaft takes with it what sits on it.
    pub(super) fn remove(&mut self, targets: &[Target], effects: &mut Vec<Effect>) {
        let elements = targets.iter().filter_map(|target| match target {
            Target::Element(id) => Some(Command::RemoveElement { id: id.clone() }),
            _ => None,
        });
        let shafts = targets.iter().filter_map(|target| match target {
            Target::Shaft(id) => Some(Command::RemoveShaft { id: id.clone() }),
            _ => None,
        });
        let commands: Vec<Command> = elements.chain(shafts).collect();
        let name = match targets {
            [] => return,
            [one] => format!("delete {}", named(one)),
            several => format!("delete {} things", several.len()),
        };
        if !commands.is_empty() && self.commit(Command::Batch(commands), &name, effects) {
            effects.extend([Effect::Announce(format!("{name}: done")), Effect::FocusBench]);
        }
    }

    /// Copies the selected shafts and elements a little below; ends on shafts that were not copied stay there.
    pub(super) fn duplicate(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout().clone();
        let mut ids = layout.id_maker();
        let mut renamed = BTreeMap::new();
        let (mut commands, mut made) = (Vec::new(), Vec::new());
        for shaft in layout
            .shafts
            .iter()
            .filter(|shaft| self.selection.contains(&Target::Shaft(shaft.id.clone())))
        {
            let id = ids.shaft();
            let at = [shaft.at[0] + GRID * 2.0, shaft.at[1] + GRID * 6.0];
            commands.push(Command::AddShaft {
                index: usize::MAX,
                shaft: layshaft_layout::Shaft {
                    id: id.clone(),
                    at,
                    ..shaft.clone()
                },
            });
            made.push(Target::Shaft(id.clone()));
            renamed.insert(shaft.id.clone(), id);
        }
        for element in layout
            .elements
            .iter()
            .filter(|element| self.selection.contains(&Target::Element(element.id.clone())))
        {
            let id = ids.element(crate::Kind::of(&element.kind).id_stem());
            let copy = copied(element, &id, &renamed);
            commands.push(Command::AddElement {
                index: usize::MAX,
                element: copy,
            });
            made.push(Target::Element(id));
        }
        if !commands.is_empty() && self.commit(Command::Batch(commands), "duplicate", effects) {
            effects.extend(made.last().cloned().map(Effect::Focus));
            self.select(made);
        }
    }

    pub(super) fn nudge(&mut self, direction: Direction, effects: &mut Vec<Effect>) {
        let Some(grabbed) = self.selection.last().cloned() else {
            return;
        };
        let by = direction.vector() * GRID;
        self.preview_move(&grabbed, by, false, None);
        self.drop_moved(&grabbed, None, effects);
    }

    pub(super) fn arrange(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout();
        let command = arrange(layout, self.computed.report().drive.as_ref(), None).command();
        if self.commit(command, "arrange", effects) {
            self.fit();
        }
    }

    pub(super) fn make_drive(&mut self, effects: &mut Vec<Effect>) {
        if let Some(shaft) = self.selected_shaft() {
            let name = format!("refer ratios to {shaft}");
            self.commit(Command::SetDrive(Some(shaft)), &name, effects);
        }
    }
}

/// A copy of an element under a new name, its ends on the copies of its shafts.
fn copied(element: &Element, id: &Id, renamed: &BTreeMap<Id, Id>) -> Element {
    let mut copy = Element {
        id: id.clone(),
        at: None,
        kind: element.kind.clone(),
    };
    for port in parts::ports(&element.kind) {
        if let Some(shaft) = renamed.get(port.shaft) {
            copy.set_port(&port.path, shaft);
        }
    }
    copy
}
