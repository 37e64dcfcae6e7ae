//! Going from part to part: by arrow keys along what is connected, by list, by the browser's own focus.

use std::rc::Rc;

use layshaft_layout::{Id, Layout};

use super::{Effect, Session};
use crate::actions::{Direction, Panel};
use crate::fields;
use crate::geometry::Point;
use crate::groups;
use crate::parts;
use crate::target::Target;

impl Session {
    pub(super) fn select_all(&mut self, effects: &mut Vec<Effect>) {
        let all = self.all_parts();
        effects.push(Effect::Announce(format!("{} things selected", all.len())));
        self.select(all);
    }

    pub(super) fn next_part(&mut self, by: isize, effects: &mut Vec<Effect>) {
        if self.joining().is_some() {
            self.join_next(by, effects);
            return;
        }
        let mut parts = self.all_parts();
        // On the skeleton and the plan a folded group has a frame beside its parts.
        let folded = self.shown.groups.iter().filter(|group| group.folded);
        for target in folded.map(|group| Target::Group(group.id.clone())) {
            if !parts.contains(&target) {
                parts.push(target);
            }
        }
        if parts.is_empty() {
            return;
        }
        let current = self
            .selection
            .last()
            .and_then(|target| parts.iter().position(|part| part == target));
        let count = parts.len() as isize;
        let next = current.map_or(if by > 0 { 0 } else { count - 1 }, |number| {
            (number as isize + by).rem_euclid(count)
        });
        self.go_to(parts[next.unsigned_abs()].clone(), false, effects);
    }

    /// Goes to the connected part that lies most nearly in a direction.
    pub(super) fn go(&mut self, direction: Direction, keeps: bool, effects: &mut Vec<Effect>) {
        if self.joining().is_some() {
            self.join_towards(direction, effects);
            return;
        }
        let Some(here) = self.selection.last().cloned() else {
            let start = self.computed.report().drive.clone().map(Target::Shaft);
            let start = start.map(|start| self.visible(&start));
            if let Some(target) = start.or_else(|| self.all_parts().first().cloned()) {
                self.go_to(target, false, effects);
            }
            return;
        };
        let place = |target: &Target| self.place_of(target);
        let Some(from) = place(&here) else { return };
        let along = direction.vector();
        let next = connected(&self.shown, &here)
            .into_iter()
            .map(|target| self.visible(&target))
            .filter(|target| *target != here)
            .filter_map(|target| Some((steepness(place(&target)? - from, along)?, target)))
            .min_by(|one, other| one.0.total_cmp(&other.0));
        match next {
            Some((_, target)) => self.go_to(target, keeps, effects),
            None => effects.push(Effect::Announce("Nothing is connected that way".to_owned())),
        }
    }

    pub(super) fn go_to(&mut self, target: Target, keeps: bool, effects: &mut Vec<Effect>) {
        let mut selection = if keeps {
            (*self.selection).clone()
        } else {
            Vec::new()
        };
        selection.retain(|other| *other != target);
        selection.push(target.clone());
        self.select(selection);
        self.show_target(&target);
        effects.push(Effect::Focus(target));
    }

    /// The browser's focus came to a thing by itself.
    pub(super) fn focus(&mut self, target: Target) {
        if !self.selection.contains(&target) && super::handle::exists(&self.shown, &target) {
            self.select(vec![target]);
        }
    }

    pub(super) fn select_listed(
        &mut self,
        targets: Vec<Target>,
        add: bool,
        position: Option<Id>,
        effects: &mut Vec<Effect>,
    ) {
        if let Some(position) = position {
            self.show_position(position, effects);
        }
        let mut selection = if add {
            (*self.selection).clone()
        } else {
            Vec::new()
        };
        selection.extend(
            targets
                .into_iter()
                .filter(|target| super::handle::exists(&self.shown, target)),
        );
        selection.dedup();
        if let Some(last) = selection.last().cloned() {
            self.show_target(&last);
        }
        self.select(selection);
    }

    pub(super) fn light(&mut self, targets: Vec<Target>) {
        if *self.lit != targets {
            self.lit = Rc::new(targets);
            self.redraw();
        }
    }

    pub(super) fn edit_first(&mut self, effects: &mut Vec<Effect>) {
        if let Some(Target::Group(id)) = self.selection.last().cloned() {
            return self.fold_group(&id, effects);
        }
        let Some(target) = self.selection.last() else {
            return;
        };
        if let Some(field) = fields::first_number(&self.shown, target) {
            self.begin_edit(field, true, effects);
            // What has no number on the drawing is edited in the panel.
            if self
                .editing
                .as_ref()
                .is_some_and(|editing| editing.place.is_none())
            {
                self.panel = Some(Panel::Details);
            }
        }
    }
}

fn connected(layout: &Layout, target: &Target) -> Vec<Target> {
    match target {
        Target::Shaft(id) => layout
            .elements_on(id)
            .map(|element| Target::Element(element.id.clone()))
            .collect(),
        Target::Element(id) => {
            let ports = layout
                .element(id)
                .map(|element| parts::ports(&element.kind))
                .unwrap_or_default();
            let shafts = ports.into_iter().filter(|port| !port.shaft.is_frame());
            shafts.map(|port| Target::Shaft(port.shaft.clone())).collect()
        }
        Target::Group(id) => {
            let group = layout.group(id);
            let members = group
                .map(|group| groups::members(layout, group))
                .unwrap_or_default();
            members
                .iter()
                .flat_map(|member| connected(layout, member))
                .collect()
        }
        Target::Position(_) | Target::Layout => Vec::new(),
    }
}

/// How far off a direction something lies: 0 straight on; none behind or square to it. Far things count for a little.
pub(super) fn steepness(offset: Point, along: Point) -> Option<f64> {
    let ahead = offset.x * along.x + offset.y * along.y;
    let aside = (offset.x * along.y - offset.y * along.x).abs();
    (ahead > 1.0).then(|| aside / ahead + offset.length() * 1e-4)
}
