//! Changes of the document by action: undo, delete, move, arrange.

use std::rc::Rc;

use layshaft_layout::Command;

use super::edits::named;
use super::{Effect, Session};
use crate::actions::Direction;
use crate::arranging::arrange;
use crate::groups;
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

    /// Deletes things; a shaft takes with it what sits on it, a group what is in it.
    pub(super) fn remove(&mut self, targets: &[Target], effects: &mut Vec<Effect>) {
        let name = match targets {
            [] => return,
            [Target::Group(id)] => {
                let group = self.document.layout().group(id);
                group.map_or_else(String::new, |group| format!("delete {}", group.name))
            }
            [one] => format!("delete {}", named(one)),
            several => format!("delete {} things", several.len()),
        };
        self.remove_as(targets, &name, effects);
    }

    /// Deletes things as a change of this name.
    pub(super) fn remove_as(&mut self, targets: &[Target], name: &str, effects: &mut Vec<Effect>) {
        let targets = groups::expanded(self.document.layout(), targets);
        let elements = targets.iter().filter_map(|target| match target {
            Target::Element(id) => Some(Command::RemoveElement { id: id.clone() }),
            _ => None,
        });
        let shafts = targets.iter().filter_map(|target| match target {
            Target::Shaft(id) => Some(Command::RemoveShaft { id: id.clone() }),
            _ => None,
        });
        let commands: Vec<Command> = elements.chain(shafts).collect();
        if !commands.is_empty() && self.commit(Command::Batch(commands), name, effects) {
            effects.extend([Effect::Announce(format!("{name}: done")), Effect::FocusBench]);
        }
    }

    pub(super) fn nudge(&mut self, direction: Direction, effects: &mut Vec<Effect>) {
        if self.drawing() == crate::drawings::Drawing::Plan {
            self.nudge_on_plan(direction, effects);
            return;
        }
        let Some(grabbed) = self.selection.last().cloned() else {
            return;
        };
        let by = direction.vector() * GRID;
        self.preview_move(&grabbed, by, false, None);
        self.drop_moved(&grabbed, None, effects);
    }

    pub(super) fn arrange(&mut self, effects: &mut Vec<Effect>) {
        if self.drawing() == crate::drawings::Drawing::Skeleton {
            self.set_skeleton_out_anew(effects);
            return;
        }
        if self.drawing() == crate::drawings::Drawing::Plan {
            self.place_plan_anew(effects);
            return;
        }
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
