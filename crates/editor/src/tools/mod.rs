//! What a pointer does on the bench: one small state machine for each tool.

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
    pub at: crate::geometry::Point,
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
    /// Place a kind of element.
    Place(crate::catalogue::Kind),
    /// Join two shafts as one turning together: choose an element afterwards.
    Connect,
}
