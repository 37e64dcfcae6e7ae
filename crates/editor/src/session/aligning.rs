//! Aligning and spreading out what is selected: what counts as one thing, and the one change that comes of it.

use std::collections::BTreeMap;

use super::moves::{follows, move_command};
use super::{Effect, Session};
use crate::aligning::{Alignment, Axis, aligned, spread};
use crate::geometry::{Point, Rect};
use crate::groups;
use crate::scene::{SHAFT_RADIUS, SYMBOL, element_places};
use crate::target::Target;
use crate::wording;

/// Several shafts and elements that move as one, and the room that they take.
struct Thing {
    parts: Vec<Target>,
    room: Rect,
}

impl Session {
    pub(super) fn align(&mut self, by: Alignment, effects: &mut Vec<Effect>) {
        let things = self.things_to_align();
        let rooms: Vec<Rect> = things.iter().map(|thing| thing.room).collect();
        self.move_things(&things, &aligned(&rooms, by), wording::aligned(by), effects);
    }

    pub(super) fn spread_out(&mut self, along: Axis, effects: &mut Vec<Effect>) {
        let things = self.things_to_align();
        let rooms: Vec<Rect> = things.iter().map(|thing| thing.room).collect();
        self.move_things(
            &things,
            &spread(&rooms, along),
            wording::spread_out(along),
            effects,
        );
    }

    /// How many things there are to align: what follows other selected things does not count.
    pub(super) fn count_to_align(&self) -> usize {
        self.things_to_align().len()
    }

    fn things_to_align(&self) -> Vec<Thing> {
        let layout = self.document.layout();
        let all = self.selected_things();
        let places = element_places(layout);
        let mut things: Vec<Thing> = Vec::new();
        for target in self.selection.iter() {
            let thing = match target {
                Target::Shaft(id) => layout.shaft(id).map(|shaft| Thing {
                    parts: vec![target.clone()],
                    room: Rect::around(shaft.at.into(), 2.0 * SHAFT_RADIUS, 2.0 * SHAFT_RADIUS),
                }),
                Target::Element(id) => {
                    let found = layout
                        .elements
                        .iter()
                        .zip(&places)
                        .find(|(element, _)| element.id == *id);
                    let own = found.filter(|(element, _)| !follows(element, &all));
                    own.map(|(_, at)| Thing {
                        parts: vec![target.clone()],
                        room: Rect::around(*at, SYMBOL.0, SYMBOL.1),
                    })
                }
                Target::Group(id) => layout.group(id).and_then(|group| {
                    Some(Thing {
                        parts: groups::members(layout, group),
                        room: groups::room(layout, group, &places)?,
                    })
                }),
                Target::Position(_) | Target::Layout => None,
            };
            things.extend(thing);
        }
        things
    }

    fn move_things(&mut self, things: &[Thing], ways: &[Point], name: &str, effects: &mut Vec<Effect>) {
        let by: BTreeMap<&Target, Point> = things
            .iter()
            .zip(ways)
            .flat_map(|(thing, way)| thing.parts.iter().map(move |part| (part, *way)))
            .collect();
        if by.values().all(|way| way.length() < 0.5) {
            effects.push(Effect::Announce("They stand so already".to_owned()));
            return;
        }
        let parts: Vec<Target> = by.keys().map(|part| (*part).clone()).collect();
        let command = move_command(self.document.layout(), &parts, |part| {
            by.get(part).copied().unwrap_or_default()
        });
        if self.commit(command, name, effects) {
            effects.push(Effect::Announce(format!("{name}: done")));
        }
    }
}
