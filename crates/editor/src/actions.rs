//! Everything that can be done, each with a name and a key; the menu, the searchable list and the keys read this.

use crate::catalogue::Kind;

/// A direction on the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// To the left.
    Left,
    /// To the right.
    Right,
    /// Upwards.
    Up,
    /// Downwards.
    Down,
}

/// A sheet or panel beside the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Panel {
    /// Fields of what is selected.
    Details,
    /// Table of all shafts and connections.
    Ledger,
    /// The arithmetic of a ratio.
    Working,
    /// Positions side by side.
    Positions,
    /// Demos and stored layouts.
    Layouts,
    /// The link and its field.
    Share,
    /// The searchable list of actions.
    Actions,
    /// What the signs mean.
    Legend,
}

/// Something that can be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Action {
    /// Take the last change back.
    Undo,
    /// Do it again.
    Redo,
    /// Delete what is selected.
    Delete,
    /// Copy what is selected beside itself.
    Duplicate,
    /// Select everything.
    SelectAll,
    /// Back out of what is going on.
    Cancel,
    /// Show the whole layout.
    Fit,
    /// Larger.
    ZoomIn,
    /// Smaller.
    ZoomOut,
    /// One bench unit to one pixel.
    ActualSize,
    /// Take a kind in hand; with a shaft selected and by key, attach it there.
    Place(Kind),
    /// Take the selecting tool in hand.
    SelectTool,
    /// Take the panning tool in hand.
    PanTool,
    /// Edit the first number of what is selected.
    EditFirst,
    /// Step the first number of what is selected.
    Step(i32),
    /// Go to the connected part in this direction.
    Go(Direction),
    /// Move what is selected by one grid step.
    Nudge(Direction),
    /// Go to the next part in document order.
    NextPart,
    /// Go to the previous part in document order.
    PreviousPart,
    /// Show position number n, from 0.
    Position(usize),
    /// Show the next position.
    NextPosition,
    /// Show the previous position.
    PreviousPosition,
    /// Add a position, as a copy of the current one.
    AddPosition,
    /// Remove the current position.
    RemovePosition,
    /// Engage or release the selected clutch or brake in the current position.
    ToggleEngaged,
    /// Let the selected shaft be the one that ratios refer to.
    MakeDrive,
    /// Hide or show answers.
    HideAnswers,
    /// Start over on an empty bench; undo brings the old layout back.
    EmptyBench,
    /// Open a demo, by its id.
    OpenDemo(&'static str),
    /// Make a link and copy it.
    Share,
    /// Save the layout as a file.
    Download,
    /// Change between paper, slate and what the system says.
    ChangeTheme,
    /// Open a panel, or close it where it is open.
    Toggle(Panel),
}

/// An action as menus and the searchable list show it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ActionInfo {
    /// What it does when chosen.
    pub action: Action,
    /// Its name.
    pub name: String,
    /// One sentence about it.
    pub help: &'static str,
    /// Its key as people write it: `Ctrl+Z`; empty where it has none.
    pub key: String,
}

/// All actions that can be chosen from a list, in the order of the list.
#[must_use]
pub fn all() -> Vec<ActionInfo> {
    Vec::new()
}
