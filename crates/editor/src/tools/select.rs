//! Selecting and dragging: things, ends of elements, the background, a selecting rectangle.

use layshaft_layout::Id;

use super::{Button, Deed, Event, Phase};
use crate::geometry::{Point, Rect};
use crate::hit::Hit;
use crate::target::Target;

/// What the selecting tool is doing.
#[derive(Clone, Debug, PartialEq, Default)]
pub enum Selecting {
    /// Nothing.
    #[default]
    Idle,
    /// The pointer is down and has not moved far enough to be a drag.
    Pressed {
        /// Which pointer.
        pointer: i32,
        /// Where it went down, on the screen.
        screen: Point,
        /// Where it went down, on the bench.
        bench: Point,
        /// What lies there.
        hit: Hit,
        /// Whether it adds to what is selected.
        adds: bool,
    },
    /// Things are being dragged.
    Dragging {
        /// Which pointer.
        pointer: i32,
        /// Where it went down, on the bench.
        from: Point,
        /// What was grabbed.
        grabbed: Target,
    },
    /// One end of an element is being led to another shaft.
    Leading {
        /// Which pointer.
        pointer: i32,
        /// The element.
        element: Id,
        /// Its end.
        role: String,
    },
    /// The view is being dragged.
    Panning {
        /// Which pointer.
        pointer: i32,
        /// Where it was last, on the screen.
        last: Point,
    },
    /// A rectangle is being drawn.
    Framing(Framing),
}

/// A rectangle that is being drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Framing {
    /// Which pointer.
    pub pointer: i32,
    /// Its first corner, on the bench.
    pub from: Point,
    /// Its first corner, on the screen.
    pub start: Point,
    /// Whether what is selected stays so.
    pub adds: bool,
    /// Whether a finger began it by resting; let go where it was, it opens the menu instead.
    pub is_held: bool,
}

impl Selecting {
    /// Takes an event; gives the next state and what is to be done.
    #[must_use]
    pub fn transition(self, event: &Event) -> (Self, Vec<Deed>) {
        let pointer = &event.pointer;
        match (self, pointer.phase) {
            (Self::Idle, Phase::Down) => Self::press(event),
            (Self::Idle, _) => (Self::Idle, Vec::new()),
            (state, Phase::Cancel) if state.pointer() == Some(pointer.id) => state.cancel(),
            // A second button or finger does not disturb what is going on.
            (state, _) if state.pointer() != Some(pointer.id) => (state, Vec::new()),
            (state, Phase::Move) => state.moved(event),
            (state, Phase::Up) => state.released(event),
            (state, _) => (state, Vec::new()),
        }
    }

    /// Gives up what is going on.
    #[must_use]
    pub fn cancel(self) -> (Self, Vec<Deed>) {
        let deeds = match self {
            Self::Idle | Self::Pressed { .. } | Self::Panning { .. } => Vec::new(),
            Self::Dragging { .. } | Self::Leading { .. } => vec![Deed::Abandon],
            Self::Framing(_) => vec![Deed::Marquee(None)],
        };
        (Self::Idle, deeds)
    }

    const fn pointer(&self) -> Option<i32> {
        match self {
            Self::Idle => None,
            Self::Pressed { pointer, .. }
            | Self::Dragging { pointer, .. }
            | Self::Leading { pointer, .. }
            | Self::Panning { pointer, .. }
            | Self::Framing(Framing { pointer, .. }) => Some(*pointer),
        }
    }

    fn press(event: &Event) -> (Self, Vec<Deed>) {
        let pointer = &event.pointer;
        let capture = vec![Deed::Capture(pointer.id)];
        if event.pans || pointer.button == Button::Middle {
            return (
                Self::Panning {
                    pointer: pointer.id,
                    last: pointer.at,
                },
                capture,
            );
        }
        if pointer.button != Button::Primary {
            return (Self::Idle, Vec::new());
        }
        let pressed = Self::Pressed {
            pointer: pointer.id,
            screen: pointer.at,
            bench: event.bench,
            hit: event.hit.clone(),
            adds: pointer.modifiers.shift || pointer.modifiers.command,
        };
        if event.frames {
            let framing = Framing {
                pointer: pointer.id,
                from: event.bench,
                start: pointer.at,
                adds: pointer.modifiers.shift || pointer.modifiers.command,
                is_held: false,
            };
            return (Self::Framing(framing), capture);
        }
        (pressed, capture)
    }

    fn moved(self, event: &Event) -> (Self, Vec<Deed>) {
        match self {
            Self::Pressed { screen, .. }
                if screen.distance(event.pointer.at) < event.pointer.kind.threshold() =>
            {
                (self, Vec::new())
            }
            Self::Pressed {
                pointer,
                screen,
                bench,
                hit,
                adds,
            } => {
                let (state, mut deeds) = Self::begin(pointer, screen, bench, hit, adds);
                let (state, more) = state.moved(event);
                deeds.extend(more);
                (state, deeds)
            }
            Self::Dragging {
                from, ref grabbed, ..
            } => {
                let deed = Deed::PreviewMove {
                    grabbed: grabbed.clone(),
                    by: event.bench - from,
                    snaps: !event.pointer.modifiers.alt,
                    over: event.shaft.clone(),
                };
                (self, vec![deed])
            }
            Self::Leading {
                ref element,
                ref role,
                ..
            } => {
                let deed = Deed::PreviewEnd {
                    element: element.clone(),
                    role: role.clone(),
                    to: event.bench,
                    over: event.shaft.clone(),
                };
                (self, vec![deed])
            }
            Self::Panning { pointer, last } => {
                let at = event.pointer.at;
                (Self::Panning { pointer, last: at }, vec![Deed::PanBy(at - last)])
            }
            Self::Framing(frame) => {
                let rect = Rect::between(frame.from, event.bench);
                (self, vec![Deed::Marquee(Some(rect))])
            }
            Self::Idle => (self, Vec::new()),
        }
    }

    /// The threshold was passed: what lay under the pointer decides what is dragged.
    fn begin(pointer: i32, screen: Point, from: Point, hit: Hit, adds: bool) -> (Self, Vec<Deed>) {
        match hit {
            Hit::End { element, role } => (
                Self::Leading {
                    pointer,
                    element,
                    role,
                },
                Vec::new(),
            ),
            Hit::Thing(grabbed) | Hit::Ratio { target: grabbed, .. } => (
                Self::Dragging {
                    pointer,
                    from,
                    grabbed: grabbed.clone(),
                },
                vec![Deed::Select {
                    target: Some(grabbed),
                    add: adds,
                }],
            ),
            Hit::Edit(field) => {
                let grabbed = field.target;
                (
                    Self::Dragging {
                        pointer,
                        from,
                        grabbed: grabbed.clone(),
                    },
                    vec![Deed::Select {
                        target: Some(grabbed),
                        add: adds,
                    }],
                )
            }
            Hit::Bench if adds => (
                Self::Framing(Framing {
                    pointer,
                    from,
                    start: screen,
                    adds,
                    is_held: false,
                }),
                Vec::new(),
            ),
            Hit::Bench => (
                Self::Panning {
                    pointer,
                    last: screen,
                },
                Vec::new(),
            ),
        }
    }

    fn released(self, event: &Event) -> (Self, Vec<Deed>) {
        let deeds = match self {
            Self::Pressed { hit, adds, .. } => vec![match hit {
                Hit::Edit(field) if !adds => Deed::Edit(field),
                Hit::Edit(field) => Deed::Select {
                    target: Some(field.target),
                    add: adds,
                },
                Hit::Ratio { target, shaft } if !adds => Deed::Work { target, shaft },
                Hit::Thing(target) | Hit::Ratio { target, .. } => Deed::Select {
                    target: Some(target),
                    add: adds,
                },
                Hit::End { element, .. } => Deed::Select {
                    target: Some(Target::Element(element)),
                    add: adds,
                },
                Hit::Bench => Deed::Select {
                    target: None,
                    add: adds,
                },
            }],
            Self::Dragging { grabbed, .. } => vec![Deed::Drop {
                grabbed,
                over: event.shaft.clone(),
            }],
            Self::Leading { element, role, .. } => {
                vec![Deed::DropEnd {
                    element,
                    role,
                    at: event.bench,
                    over: event.shaft.clone(),
                }]
            }
            Self::Framing(frame) => {
                let pointer = &event.pointer;
                let stayed = frame.start.distance(pointer.at) < pointer.kind.threshold();
                let then = if frame.is_held && stayed {
                    Deed::BenchMenu(pointer.at)
                } else {
                    Deed::SelectInside {
                        rect: Rect::between(frame.from, event.bench),
                        add: frame.adds,
                    }
                };
                vec![Deed::Marquee(None), then]
            }
            Self::Panning { .. } | Self::Idle => Vec::new(),
        };
        (Self::Idle, deeds)
    }
}
