//! Placing a kind: click the bare bench, click a shaft, or draw from one shaft to another.

use layshaft_layout::Id;

use super::{Button, Deed, Event, Hover, Phase};
use crate::geometry::Point;

/// What the placing tool is doing.
#[derive(Clone, Debug, PartialEq, Default)]
pub enum Placing {
    /// The kind follows the pointer.
    #[default]
    Hovering,
    /// The pointer is down.
    Pressed {
        /// Which pointer.
        pointer: i32,
        /// Where it went down, on the screen.
        screen: Point,
        /// The shaft it went down on.
        from: Option<Id>,
        /// Whether it has moved far enough to be a drag.
        drawn: bool,
    },
}

impl Placing {
    /// Takes an event; gives the next state and what is to be done.
    #[must_use]
    pub fn transition(self, event: &Event) -> (Self, Vec<Deed>) {
        let pointer = &event.pointer;
        match (self, pointer.phase) {
            (Self::Hovering, Phase::Down) if pointer.button == Button::Primary => {
                let from = event.shaft.clone();
                (
                    Self::Pressed {
                        pointer: pointer.id,
                        screen: pointer.at,
                        from,
                        drawn: false,
                    },
                    vec![Deed::Capture(pointer.id)],
                )
            }
            (Self::Hovering, Phase::Move) => (Self::Hovering, vec![hover(event, None)]),
            (Self::Hovering, _) => (Self::Hovering, vec![Deed::Hover(None)]),
            (state @ Self::Pressed { .. }, Phase::Cancel) => state.cancel(),
            (state @ Self::Pressed { pointer: id, .. }, _) if id != pointer.id => (state, Vec::new()),
            (
                Self::Pressed {
                    pointer: id,
                    screen,
                    from,
                    drawn,
                },
                Phase::Move,
            ) => {
                let drawn = drawn || screen.distance(pointer.at) >= pointer.kind.threshold();
                let deed = hover(event, from.clone().filter(|_| drawn));
                (
                    Self::Pressed {
                        pointer: id,
                        screen,
                        from,
                        drawn,
                    },
                    vec![deed],
                )
            }
            (Self::Pressed { from, drawn, .. }, Phase::Up) => (Self::Hovering, placed(event, from, drawn)),
            (state, _) => (state, Vec::new()),
        }
    }

    /// Gives up what is going on; the kind stays in hand.
    #[must_use]
    pub fn cancel(self) -> (Self, Vec<Deed>) {
        (Self::Hovering, vec![Deed::Hover(None)])
    }
}

fn hover(event: &Event, from: Option<Id>) -> Deed {
    let over = event.shaft.clone().filter(|over| Some(over) != from.as_ref());
    Deed::Hover(Some(Hover {
        at: event.bench,
        from,
        over,
    }))
}

/// On release: from one shaft to another, from a shaft to the bare bench, on a shaft, or on the bare bench.
fn placed(event: &Event, from: Option<Id>, drawn: bool) -> Vec<Deed> {
    let over = event.shaft.clone().filter(|over| Some(over) != from.as_ref());
    let second = over.filter(|_| drawn);
    let place = Deed::Place {
        at: event.bench,
        first: from,
        second,
        again: event.pointer.modifiers.shift,
    };
    vec![Deed::Hover(None), place]
}
