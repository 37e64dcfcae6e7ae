//! Joining two shafts that are there, by keys: one is held, the arrow keys choose the other among all shafts, a part's key
//! joins them. What will happen is drawn as a line and said.

use layshaft_layout::Id;

use super::walk::steepness;
use super::{Effect, Session};
use crate::actions::Direction;
use crate::geometry::Point;
use crate::target::Target;

impl Session {
    /// The two shafts in hand, while a second one is being chosen.
    pub(super) fn joining(&self) -> Option<(&Id, &Id)> {
        let from = self.joined_from.as_ref()?;
        match &self.selection[..] {
            [Target::Shaft(first), Target::Shaft(second)] if first == from => Some((first, second)),
            _ => None,
        }
    }

    /// What the next key does, while a number waits for typing or a second shaft is being chosen.
    pub(super) fn building_hint(&self) -> Option<String> {
        if self.editing.as_ref().is_some_and(|editing| editing.fresh) {
            let next = "Type the number. Tab goes to the next one, Enter on; a part's key places that part.";
            return Some(next.to_owned());
        }
        let (from, to) = self.joining()?;
        Some(format!(
            "From {from} to {to}: a part's key joins them, arrow keys choose another shaft. Esc puts it back."
        ))
    }

    /// Holds the selected shaft and offers the nearest open end that nothing joins to it yet.
    pub(super) fn begin_joining(&mut self, effects: &mut Vec<Effect>) {
        self.close_edit(effects);
        let Some(from) = self.shafts_in_hand().first().cloned() else {
            effects.push(Effect::Announce("Select the shaft to begin from".to_owned()));
            return;
        };
        let joined: Vec<&Id> = self
            .shown
            .elements_on(&from)
            .flat_map(|element| element.ports().into_iter().map(|(_, on)| on))
            .collect();
        let Some(place) = self.shown.shaft(&from).map(|shaft| Point::from(shaft.at)) else {
            return;
        };
        let distance = |at: [f64; 2]| Point::from(at).distance(place);
        let others = self.shown.shafts.iter().filter(|shaft| shaft.id != from);
        // What is led somewhere else by nobody yet is likelier meant than the middle of a train.
        let is_open = |id: &Id| self.shown.elements_on(id).count() < 2;
        let nearest = others.min_by(|one, other| {
            let rank = |id: &Id| (joined.contains(&id), !is_open(id));
            rank(&one.id)
                .cmp(&rank(&other.id))
                .then(distance(one.at).total_cmp(&distance(other.at)))
        });
        match nearest.map(|shaft| shaft.id.clone()) {
            Some(to) => {
                self.joined_from = Some(from);
                self.join_to(to, effects);
            }
            None => effects.push(Effect::Announce("There is no other shaft to join to".to_owned())),
        }
    }

    /// Chooses the shaft that lies most nearly in a direction.
    pub(super) fn join_towards(&mut self, direction: Direction, effects: &mut Vec<Effect>) {
        let Some((from, to)) = self.joining() else { return };
        let Some(here) = self.shown.shaft(to).map(|shaft| Point::from(shaft.at)) else {
            return;
        };
        let along = direction.vector();
        // Near ones first: how far aside counts as much as how far ahead.
        let price = |at: Point| {
            let offset = at - here;
            steepness(offset, along).map(|steep| offset.length() * (1.0 + 2.0 * steep))
        };
        let others = self.shown.shafts.iter().filter(|shaft| shaft.id != *from);
        let next = others
            .filter_map(|shaft| Some((price(shaft.at.into())?, shaft.id.clone())))
            .min_by(|one, other| one.0.total_cmp(&other.0));
        match next {
            Some((_, to)) => self.join_to(to, effects),
            None => effects.push(Effect::Announce("No shaft lies that way".to_owned())),
        }
    }

    /// Chooses the next shaft in document order.
    pub(super) fn join_next(&mut self, by: isize, effects: &mut Vec<Effect>) {
        let Some((from, to)) = self.joining() else { return };
        let others: Vec<&Id> = self
            .shown
            .shafts
            .iter()
            .map(|shaft| &shaft.id)
            .filter(|id| *id != from)
            .collect();
        let here = others.iter().position(|id| *id == to).unwrap_or(0) as isize;
        let next = (here + by).rem_euclid(others.len().max(1) as isize);
        if let Some(id) = others.get(next.unsigned_abs()).map(|id| (*id).clone()) {
            self.join_to(id, effects);
        }
    }

    fn join_to(&mut self, to: Id, effects: &mut Vec<Effect>) {
        let Some(from) = self.joined_from.clone() else {
            return;
        };
        let target = Target::Shaft(to.clone());
        self.select(vec![Target::Shaft(from.clone()), target.clone()]);
        self.show_target(&target);
        let place = |id: &Id| self.shown.shaft(id).map(|shaft| Point::from(shaft.at));
        let band = place(&from).zip(place(&to));
        let drop = Some(to.clone());
        self.set_overlay(|overlay| {
            overlay.band = band;
            overlay.drop_shaft = drop;
        });
        effects.extend([
            Effect::Announce(format!(
                "From {from} to {to}: a part's key joins them, arrow keys choose another shaft"
            )),
            Effect::Focus(target),
        ]);
    }

    /// Esc: back to the shaft that it began from.
    pub(super) fn stop_joining(&mut self, effects: &mut Vec<Effect>) {
        self.clear_overlay();
        if let Some(from) = self.joined_from.take() {
            self.go_to(Target::Shaft(from), false, effects);
        }
    }

    pub(super) fn go_to_drive(&mut self, effects: &mut Vec<Effect>) {
        if let Some(drive) = self.computed.report().drive.clone() {
            self.go_to(Target::Shaft(drive), false, effects);
        }
    }

    pub(super) fn go_to_output(&mut self, effects: &mut Vec<Effect>) {
        if let Some(output) = self.output() {
            self.go_to(Target::Shaft(output), false, effects);
        }
    }
}
