//! Numbers of a part one after the other: they open by themselves behind a part that was placed, Tab goes on.

use layshaft_layout::Id;

use super::{Editing, Effect, Session};
use crate::scene::RunContent;
use crate::target::{FieldRef, Target};

impl Session {
    /// Opens the first number of a new part where it stands on the drawing; afterwards the keyboard goes to `then`.
    pub(super) fn open_numbers(&mut self, element: &Id, then: Target, effects: &mut Vec<Effect>) {
        if let Some(first) = self
            .numbers_of(&Target::Element(element.clone()))
            .into_iter()
            .next()
        {
            self.open_number(first, Some(then), effects);
        }
    }

    /// Tab in a field on the drawing.
    pub(super) fn next_field(&mut self, back: bool, effects: &mut Vec<Effect>) {
        let Some(editing) = &self.editing else { return };
        let (field, then) = (editing.field.clone(), editing.then.clone());
        let numbers = self.numbers_of(&field.target);
        let here = numbers.iter().position(|number| *number == field);
        let next = here.and_then(|here| {
            let next = if back { here.checked_sub(1) } else { Some(here + 1) };
            numbers.get(next?).cloned()
        });
        self.end_edit(effects);
        if self.editing.is_some() {
            // What is wrong stays open.
            return;
        }
        if let Some(next) = next {
            self.open_number(next, then, effects);
        }
    }

    fn open_number(&mut self, field: FieldRef, then: Option<Target>, effects: &mut Vec<Effect>) {
        self.begin_edit(field, true, effects);
        if let Some(editing) = &mut self.editing {
            // The field alone: it may have the focus of a tap already, and would close if that went elsewhere first.
            effects.retain(|effect| !matches!(effect, Effect::Focus(_)));
            editing.fresh = true;
            editing.then = then;
        }
    }

    /// The numbers of a thing that stand on the drawing, from left to right.
    fn numbers_of(&self, target: &Target) -> Vec<FieldRef> {
        let scene = self.scene();
        let label = scene
            .elements
            .iter()
            .filter_map(|element| element.label.as_ref())
            .find(|label| label.target == *target);
        let runs = label
            .iter()
            .flat_map(|label| &label.lines)
            .flat_map(|line| &line.runs);
        runs.filter_map(|run| match &run.content {
            RunContent::Edit { field, .. } => Some(field.clone()),
            _ => None,
        })
        .collect()
    }

    /// The pointer decides what is selected next, not the edit that it ends.
    pub(super) fn stay_after_edit(&mut self) {
        if let Some(editing) = &mut self.editing {
            editing.then = None;
        }
    }

    /// Where the keyboard goes when an edit on the drawing ends.
    pub(super) fn leave_edit(&mut self, editing: &Editing, effects: &mut Vec<Effect>) {
        if editing.place.is_none() {
            return;
        }
        let target = match &editing.then {
            Some(then) if super::handle::exists(&self.shown, then) => {
                self.select(vec![then.clone()]);
                self.show_target(then);
                then.clone()
            }
            _ => editing.field.target.clone(),
        };
        effects.push(Effect::Focus(target));
    }
}
