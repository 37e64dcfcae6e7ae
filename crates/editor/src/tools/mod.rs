//! What a pointer does on the bench: one small state machine for each tool.
//!
//! A machine takes an event and what it may look at, and gives its next state and what is to be done about it. It
//! changes nothing itself: the session carries out the [`Deed`]s. Waiting for the drag threshold is a state of its
//! own, and every state knows how to be cancelled.

mod pinch;
mod place;
mod select;
mod snap;

pub use pinch::Pinch;
pub use place::Placing;
pub use select::{Framing, Selecting};
pub use snap::{Snapped, snap};

use layshaft_layout::Id;

use crate::catalogue::Kind;
use crate::geometry::{Point, Rect};
use crate::hit::Hit;
use crate::target::{FieldRef, Target};

/// Which part of a gesture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// A button or finger went down.
    Down,
    /// It moved, down or not.
    Move,
    /// It was released.
    Up,
    /// The browser took it away.
    Cancel,
    /// The pointer left the drawing.
    Leave,
}

/// Which button.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Button {
    /// The main one; fingers and pens too.
    #[default]
    Primary,
    /// The wheel pressed: pans.
    Middle,
    /// The other one.
    Secondary,
}

/// What kind of pointer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum PointerKind {
    /// A mouse.
    #[default]
    Mouse,
    /// A finger: targets are larger.
    Touch,
    /// A pen.
    Pen,
}

impl PointerKind {
    /// How far beside a thing still means the thing, in screen pixels: targets of 44 pixels for fingers.
    #[must_use]
    pub const fn tolerance(self) -> f64 {
        match self {
            Self::Mouse => 4.0,
            Self::Pen => 8.0,
            Self::Touch => 14.0,
        }
    }

    /// How far it may move and still be a press, in screen pixels.
    #[must_use]
    pub const fn threshold(self) -> f64 {
        match self {
            Self::Mouse => 4.0,
            Self::Pen => 6.0,
            Self::Touch => 10.0,
        }
    }
}

/// Keys held while something else happens.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Modifiers {
    /// Shift.
    pub shift: bool,
    /// Control, or Command on a Mac.
    pub command: bool,
    /// Alt, or Option on a Mac.
    pub alt: bool,
    /// The space bar is down: a drag pans.
    pub space: bool,
}

/// A pointer event on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pointer {
    /// Which part of the gesture.
    pub phase: Phase,
    /// Which pointer (`pointerId`).
    pub id: i32,
    /// Where, on the screen.
    pub at: Point,
    /// Which button.
    pub button: Button,
    /// What kind.
    pub kind: PointerKind,
    /// Keys held.
    pub modifiers: Modifiers,
}

/// The tool in hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Tool {
    /// Select and drag.
    #[default]
    Select,
    /// Pan the view.
    Pan,
    /// Draw a rectangle that selects.
    Area,
    /// Place a kind of element.
    Place(Kind),
}

/// A pointer event as a machine sees it.
#[derive(Clone, Debug, PartialEq)]
pub struct Event {
    /// The event.
    pub pointer: Pointer,
    /// Where it is on the bench.
    pub bench: Point,
    /// What lies there.
    pub hit: Hit,
    /// The shaft that lies there, within a generous reach.
    pub shaft: Option<Id>,
    /// Whether the background is dragged to pan (a hand tool, the space bar, the wheel button).
    pub pans: bool,
    /// Whether a drag draws a selecting rectangle, wherever it begins.
    pub frames: bool,
}

/// What is to be done about a gesture.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// Keep this pointer until it is released.
    Capture(i32),
    /// Select this; `add`: beside what is selected, or no longer if it is.
    Select {
        /// The thing; none: nothing.
        target: Option<Target>,
        /// Keep the rest.
        add: bool,
    },
    /// Select what lies in a rectangle.
    SelectInside {
        /// The rectangle.
        rect: Rect,
        /// Keep the rest.
        add: bool,
    },
    /// Open the menu of the bare bench at a place on the screen.
    BenchMenu(Point),
    /// Show or hide a selecting rectangle.
    Marquee(Option<Rect>),
    /// Edit a number where it stands.
    Edit(FieldRef),
    /// Show how a shaft's ratio is worked out.
    Work {
        /// What was pressed.
        target: Target,
        /// The shaft.
        shaft: Id,
    },
    /// Show the selected things moved by this much.
    PreviewMove {
        /// The thing that was grabbed: it is what snaps.
        grabbed: Target,
        /// How far.
        by: Point,
        /// Snap to the grid and to others.
        snaps: bool,
        /// The shaft it would connect to on release.
        over: Option<Id>,
    },
    /// Let the things go where they were last shown.
    Drop {
        /// The thing that was grabbed.
        grabbed: Target,
        /// The shaft under the pointer.
        over: Option<Id>,
    },
    /// Show one end of an element led to the pointer.
    PreviewEnd {
        /// The element.
        element: Id,
        /// Its end.
        role: String,
        /// Where the pointer is.
        to: Point,
        /// The shaft it would connect to.
        over: Option<Id>,
    },
    /// Let the end go: on a shaft, or on the bare bench, where it gets a shaft of its own.
    DropEnd {
        /// The element.
        element: Id,
        /// Its end.
        role: String,
        /// Where.
        at: Point,
        /// The shaft there.
        over: Option<Id>,
    },
    /// Put everything back as it was before the gesture.
    Abandon,
    /// Move the view with the pointer, on the screen.
    PanBy(Point),
    /// Larger or smaller about a place on the screen.
    ZoomBy(Point, f64),
    /// Show the symbol in hand at the pointer.
    Hover(Option<Hover>),
    /// Place the kind in hand.
    Place {
        /// Where, on the bare bench.
        at: Point,
        /// The shaft that its first end goes on.
        first: Option<Id>,
        /// The shaft that its second end goes on.
        second: Option<Id>,
        /// Keep the kind in hand for more.
        again: bool,
    },
}

/// Where a kind in hand would go.
#[derive(Clone, Debug, PartialEq)]
pub struct Hover {
    /// The pointer, on the bench.
    pub at: Point,
    /// The shaft a line is being drawn from.
    pub from: Option<Id>,
    /// The shaft under the pointer.
    pub over: Option<Id>,
}
