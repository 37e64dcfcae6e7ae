//! What labels keep clear of: shafts, symbols, wires, and labels that stay where they are.

use super::super::crowd::Crowd;
use super::super::items::{ElementItem, Label, Mark};
use super::super::place::{SHAFT_RADIUS, SYMBOL};
use super::super::spread;
use super::Drawing;
use crate::geometry::{Point, Rect};

impl Drawing<'_> {
    /// Everything that a label must not cover.
    pub(super) fn crowd(&self) -> Crowd {
        let mut crowd = self.asked().map_or_else(Crowd::default, Crowd::within);
        for fold in &self.folds {
            let (room, price) = if fold.group.folded {
                (fold.room, spread::THING)
            } else {
                (fold.label_room, spread::TEXT)
            };
            crowd.take(room, price);
            if let Some(loss) = &fold.loss {
                crowd.take(loss.bounds, spread::THING);
            }
        }
        let shown = self.shaft_places.iter();
        for (_, at) in shown.filter(|(id, _)| !self.hidden.contains_key(*id)) {
            crowd.take(
                Rect::around(*at, 2.0 * SHAFT_RADIUS + 4.0, 2.0 * SHAFT_RADIUS + 4.0),
                spread::THING,
            );
        }
        for joint in &self.joints {
            crowd.take(Rect::around(joint.at, SYMBOL.0, SYMBOL.1), spread::THING);
            if let Some((_, from_centre)) = joint.mark {
                let size = 2.0 * Mark::RADIUS;
                crowd.take(Rect::around(joint.at + from_centre, size, size), spread::THING);
            }
            if let Some(loss) = &joint.loss {
                crowd.take(loss.bounds, spread::THING);
            }
            for run in &joint.wires {
                crowd.take_line(run.from, run.to, run.width().max(4.0), spread::WIRE);
            }
        }
        for item in self.settled.iter().flatten() {
            take_element(&mut crowd, item);
        }
        for room in self.kept.rooms() {
            crowd.take(room, spread::TEXT);
        }
        crowd
    }

    /// Where labels look for a place, while all else stays as it is; none: anywhere.
    fn asked(&self) -> Option<Rect> {
        if !self.kept.holds_all() || self.folds.iter().any(|fold| fold.group.folded) {
            return None;
        }
        let mut asked: Option<Rect> = None;
        let mut look_for = |label: &Label, at: Point, half: (f64, f64)| {
            if !self.kept.holds_label(label) {
                let room = spread::reach(at, half, (label.bounds.width, label.bounds.height));
                asked = Some(asked.map_or(room, |asked| asked.union(&room)));
            }
        };
        let shown = self.input.layout.shafts.iter();
        for shaft in shown.filter(|shaft| !self.hidden.contains_key(&shaft.id)) {
            let item = self.kept.shaft(&shaft.id)?;
            look_for(&item.label, shaft.at.into(), (SHAFT_RADIUS, SHAFT_RADIUS));
        }
        for joint in &self.joints {
            let item = self.kept.element(&joint.element.id)?;
            for label in item.label.iter().chain(&item.loop_tag) {
                look_for(label, joint.at, joint.half);
            }
        }
        Some(asked.unwrap_or_default())
    }
}

/// Takes the room of an element that is drawn already, but for its labels.
fn take_element(crowd: &mut Crowd, item: &ElementItem) {
    crowd.take(Rect::around(item.at, SYMBOL.0, SYMBOL.1), spread::THING);
    if let Some((_, from_centre)) = item.mark {
        let size = 2.0 * Mark::RADIUS;
        crowd.take(Rect::around(item.at + from_centre, size, size), spread::THING);
    }
    if let Some(loss) = &item.loss {
        crowd.take(loss.bounds, spread::THING);
    }
    for wire in &item.wires {
        let width = wire.ribbon.as_ref().map_or(0.0, |ribbon| ribbon.width);
        crowd.take_line(wire.from, wire.to, width.max(4.0), spread::WIRE);
    }
}
