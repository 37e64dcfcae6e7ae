//! What a drawing has in common with the one before it: items that are the same are shared, so that a page need not look
//! into them, and during a gesture labels stay where they are beside what did not move.

use std::collections::BTreeMap;
use std::rc::Rc;

use layshaft_layout::Id;

use crate::geometry::{Point, Rect};
use crate::scene::items::{ElementItem, Label, Scene, ShaftItem};

/// A label's room and the line to its thing.
type Place = (Rect, Option<(Point, Point)>);

/// The drawing before, to be looked up in.
#[derive(Default)]
pub struct Kept<'a> {
    shafts: BTreeMap<&'a Id, &'a Rc<ShaftItem>>,
    elements: BTreeMap<&'a Id, &'a Rc<ElementItem>>,
    /// Places of labels that stay, by their key.
    held: BTreeMap<&'a str, Place>,
}

impl<'a> Kept<'a> {
    /// Everything on a drawing; no label is held yet.
    pub fn of(scene: &'a Scene) -> Self {
        Self {
            shafts: scene.shafts.iter().map(|item| (&item.id, item)).collect(),
            elements: scene.elements.iter().map(|item| (&item.id, item)).collect(),
            held: BTreeMap::new(),
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

    /// Holds the labels of all that still stands where it stood.
    pub fn hold<'b>(
        &mut self,
        shafts: impl Iterator<Item = (&'b Id, Point)>,
        elements: impl Iterator<Item = (&'b Id, Point)>,
    ) {
        let still = shafts
            .filter_map(|(id, at)| self.shaft(id).filter(|item| item.at == at))
            .map(|item| &item.label);
        let labels: Vec<&Label> = still
            .chain(
                elements
                    .filter_map(|(id, at)| self.element(id).filter(|item| item.at == at))
                    .flat_map(|item| item.label.iter().chain(&item.loop_tag)),
            )
            .collect();
        self.held = labels
            .into_iter()
            .map(|label| (label.key.as_str(), (label.bounds, label.leader)))
            .collect();
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
