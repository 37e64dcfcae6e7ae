//! What a drawing has in common with the one before it: items that are the same are shared, so that a page need not look
//! into them, and during a gesture labels stay where they are beside what did not move.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use layshaft_layout::{Id, Layout};

use super::Holds;
use crate::geometry::{Point, Rect};
use crate::parts::{is_frame, ports};
use crate::scene::items::{ElementItem, GroupItem, Label, Scene, ShaftItem};

/// A label's room and the line to its thing.
type Place = (Rect, Option<(Point, Point)>);

/// The drawing before, to be looked up in.
#[derive(Default)]
pub struct Kept<'a> {
    shafts: BTreeMap<&'a Id, &'a Rc<ShaftItem>>,
    elements: BTreeMap<&'a Id, &'a Rc<ElementItem>>,
    groups: BTreeMap<&'a Id, &'a Rc<GroupItem>>,
    /// Shafts that stand where they stood.
    still_shafts: BTreeSet<&'a Id>,
    /// Elements on such shafts alone that were not moved by themselves.
    still_elements: BTreeSet<&'a Id>,
    /// Places of labels that stay, by their key.
    held: BTreeMap<&'a str, Place>,
    holds_all: bool,
}

impl<'a> Kept<'a> {
    /// Everything on a drawing; no label is held yet.
    pub fn of(scene: &'a Scene) -> Self {
        Self {
            shafts: scene.shafts.iter().map(|item| (&item.id, item)).collect(),
            elements: scene.elements.iter().map(|item| (&item.id, item)).collect(),
            groups: scene.groups.iter().map(|item| (&item.id, item)).collect(),
            ..Self::default()
        }
    }

    /// The shaft as it was drawn.
    pub fn shaft(&self, id: &Id) -> Option<&'a Rc<ShaftItem>> {
        self.shafts.get(id).copied()
    }

    /// The element as it was drawn.
    pub fn element(&self, id: &Id) -> Option<&'a Rc<ElementItem>> {
        self.elements.get(id).copied()
    }

    /// The group as it was drawn.
    pub fn group(&self, id: &Id) -> Option<&'a Rc<GroupItem>> {
        self.groups.get(id).copied()
    }

    /// Whether all of what did not move stays as it is.
    pub const fn holds_all(&self) -> bool {
        self.holds_all
    }

    /// Whether a label stays where it was.
    pub fn holds_label(&self, label: &Label) -> bool {
        self.held.contains_key(label.key.as_str())
    }

    /// Holds on to what stands where it stood.
    pub fn hold(&mut self, layout: &Layout, holds: Holds) {
        if holds == Holds::Nothing {
            return;
        }
        self.holds_all = holds == Holds::All;
        for shaft in &layout.shafts {
            if let Some((id, item)) = self.shafts.get_key_value(&shaft.id)
                && item.at == Point::from(shaft.at)
            {
                self.still_shafts.insert(id);
                self.held.insert(&item.label.key, place_of(&item.label));
            }
        }
        for element in &layout.elements {
            let Some((id, item)) = self.elements.get_key_value(&element.id) else {
                continue;
            };
            let put = element.at.is_none_or(|at| item.at == Point::from(at));
            let on = ports(&element.kind);
            let mut shafts = on.iter().filter(|port| !is_frame(port.shaft));
            if put && shafts.all(|port| self.still_shafts.contains(port.shaft)) {
                self.still_elements.insert(id);
                let labels = item.label.iter().chain(&item.loop_tag);
                self.held
                    .extend(labels.map(|label| (label.key.as_str(), place_of(label))));
            }
        }
    }

    /// Where an element stays.
    pub fn stands(&self, id: &Id) -> Option<Point> {
        let item = self.elements.get(id)?;
        self.still_elements.contains(id).then_some(item.at)
    }

    /// The shaft as it was drawn, where it stays so.
    pub fn unmoved_shaft(&self, id: &Id) -> Option<&'a Rc<ShaftItem>> {
        let item = self.shaft(id)?;
        (self.holds_all && self.still_shafts.contains(id)).then_some(item)
    }

    /// The element as it was drawn, where it stays so.
    pub fn unmoved_element(&self, id: &Id) -> Option<&'a Rc<ElementItem>> {
        let item = self.element(id)?;
        (self.holds_all && self.still_elements.contains(id)).then_some(item)
    }

    /// The rooms of all labels that stay.
    pub fn rooms(&self) -> impl Iterator<Item = Rect> {
        self.held.values().map(|(room, _)| *room)
    }

    /// Where a label of some size stays. A text that became longer grows away from what it speaks of.
    pub fn place(&self, key: &str, at: Point, size: (f64, f64)) -> Option<Place> {
        let (room, leader) = self.held.get(key)?;
        let grown = Rect {
            x: stay((room.x, room.right()), at.x, size.0),
            y: stay((room.y, room.bottom()), at.y, size.1),
            width: size.0,
            height: size.1,
        };
        Some((grown, *leader))
    }
}

fn place_of(label: &Label) -> Place {
    (label.bounds, label.leader)
}

/// Where a stretch of another length begins that keeps the end towards a place, or its middle where the place is within.
fn stay((first, last): (f64, f64), at: f64, length: f64) -> f64 {
    if first >= at {
        first
    } else if last <= at {
        last - length
    } else {
        (first + last - length) / 2.0
    }
}

/// The one that there was, where it is the same.
pub fn share<T: PartialEq>(new: T, old: Option<&Rc<T>>) -> Rc<T> {
    match old {
        Some(old) if **old == new => old.clone(),
        _ => Rc::new(new),
    }
}
