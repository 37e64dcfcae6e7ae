//! A large drawing in two while something on it is dragged: what stands still, and what moves over it.
//!
//! A browser paints a picture whole wherever a part of it has changed. With what moves in a picture of its own, the large one
//! is left alone from the first movement to the last.

use std::rc::Rc;

use super::items::{ElementItem, GroupItem, Overlay, Scene, ShaftItem, same};

/// From so many elements on a browser takes longer to paint the drawing than a frame lasts.
const LARGE: usize = 80;

/// A drawing in two.
#[derive(Clone, Debug)]
pub struct Afloat {
    /// The drawing as it was when the gesture began; what moves is away from it.
    pub still: Rc<Scene>,
    /// What moves, and what only shows during a gesture; the rest is left out.
    pub moved: Rc<Scene>,
    /// The drawing that the gesture began with.
    base: Rc<Scene>,
}

impl PartialEq for Afloat {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.still, &other.still) && Rc::ptr_eq(&self.moved, &other.moved)
    }
}

impl Scene {
    /// Whether it is so large that a browser must be spared.
    #[must_use]
    pub const fn is_large(&self) -> bool {
        self.elements.len() >= LARGE
    }
}

/// What a drawing consists of, each told by a key.
trait Item: Clone + PartialEq {
    fn key(&self) -> &str;
    fn is_away(&self) -> bool;
    fn away(self) -> Self;
}

macro_rules! items {
    ($($item:ty)*) => {$(
        impl Item for $item {
            fn key(&self) -> &str {
                &self.key
            }
            fn is_away(&self) -> bool {
                self.is_away
            }
            fn away(self) -> Self {
                Self { is_away: true, ..self }
            }
        }
    )*};
}
items!(ShaftItem ElementItem GroupItem);

impl Afloat {
    /// Takes apart a drawing that came of another one by moving things; none where that is not all that happened.
    /// `last` is what came of the same gesture before: while the same things move, what stands still is the same.
    #[must_use]
    pub fn of(base: &Rc<Scene>, now: &Scene, last: Option<&Self>) -> Option<Self> {
        let last = last.filter(|last| Rc::ptr_eq(&last.base, base));
        let drop = now.overlay.drop_shaft.as_ref();
        let shafts = moved(&base.shafts, &now.shafts, |shaft| drop == Some(&shaft.id))?;
        let elements = moved(&base.elements, &now.elements, |_| false)?;
        let groups = moved(&base.groups, &now.groups, |_| false)?;
        let stays = last.filter(|last| {
            is_without(&last.still.shafts, &shafts)
                && is_without(&last.still.elements, &elements)
                && is_without(&last.still.groups, &groups)
        });
        let still = stays.map_or_else(
            || {
                Rc::new(Scene {
                    shafts: without(&base.shafts, &shafts),
                    elements: without(&base.elements, &elements),
                    groups: without(&base.groups, &groups),
                    overlay: Overlay::default(),
                    ..(**base).clone()
                })
            },
            |last| last.still.clone(),
        );
        let moved = Rc::new(Scene {
            shafts,
            elements,
            groups,
            bounds: now.bounds,
            overlay: now.overlay.clone(),
            pace: now.pace,
            legend: now.legend.clone(),
            empty: None,
        });
        Some(Self {
            still,
            moved,
            base: base.clone(),
        })
    }
}

/// The items that are others now, with those that are wanted besides; none where items came or went.
fn moved<T: Item>(base: &[Rc<T>], now: &[Rc<T>], wanted: impl Fn(&T) -> bool) -> Option<Vec<Rc<T>>> {
    if base.len() != now.len() {
        return None;
    }
    let mut found = Vec::new();
    for (before, item) in base.iter().zip(now) {
        if before.key() != item.key() {
            return None;
        }
        if wanted(item) || !same(before, item) {
            found.push(item.clone());
        }
    }
    Some(found)
}

/// The items, those that move marked as being away. Both lists are in one order.
fn without<T: Item>(base: &[Rc<T>], moved: &[Rc<T>]) -> Vec<Rc<T>> {
    let mut moved = moved.iter().peekable();
    let left = base.iter().map(|item| {
        if moved.next_if(|next| next.key() == item.key()).is_some() {
            Rc::new((**item).clone().away())
        } else {
            item.clone()
        }
    });
    left.collect()
}

/// Whether just these are away from a drawing.
fn is_without<T: Item>(still: &[Rc<T>], moved: &[Rc<T>]) -> bool {
    let away = still.iter().filter(|item| item.is_away());
    away.map(|item| item.key())
        .eq(moved.iter().map(|item| item.key()))
}
