//! The menu of what is under the pointer or selected, as plain data; the session decides what stands in it.

use crate::actions::{Action, ActionInfo};
use crate::aligning::{Alignment, Axis};
use crate::catalogue::Kind;
use crate::geometry::Point;
use crate::session::Input;
use crate::target::Target;

/// A menu that stands over the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Menu {
    /// Its corner, on the screen.
    pub at: Point,
    /// What it is about: `gear mesh g1`, `3 selected`, `Bench`.
    pub title: String,
    /// What can be done.
    pub entries: Vec<MenuEntry>,
    /// What gets the focus back.
    pub about: Option<Target>,
}

/// A line of a menu.
#[derive(Clone, Debug, PartialEq)]
pub struct MenuEntry {
    /// What it does.
    pub name: String,
    /// Its key outside the menu; empty where it has none.
    pub key: String,
    /// What the session is told.
    pub input: Input,
    /// Whether a line is drawn above it.
    pub begins: bool,
}

impl MenuEntry {
    /// A line that does an action.
    #[must_use]
    pub fn of(info: &ActionInfo) -> Self {
        Self {
            name: info.name.clone(),
            key: info.key.clone(),
            input: Input::Act(info.action.clone()),
            begins: false,
        }
    }

    /// A line that places a kind where the menu was opened.
    #[must_use]
    pub fn placing(kind: Kind, at: Point) -> Self {
        Self {
            name: format!("Place {} here", kind.entry().name.to_lowercase()),
            key: String::new(),
            input: Input::TrayDrop(kind, at),
            begins: false,
        }
    }
}

/// Ways to set several things in line.
pub(crate) const ALIGNING: &[Action] = &[
    Action::Align(Alignment::Left),
    Action::Align(Alignment::Centre),
    Action::Align(Alignment::Right),
    Action::Align(Alignment::Top),
    Action::Align(Alignment::Middle),
    Action::Align(Alignment::Bottom),
    Action::SpreadOut(Axis::Across),
    Action::SpreadOut(Axis::Down),
];

/// What may be done with one thing or with several, section by section; what does not apply is left out.
pub const OF_THINGS: &[&[Action]] = &[
    &[
        Action::EditFirst,
        Action::ToggleEngaged,
        Action::MakeDrive,
        Action::Fold,
        Action::Rename,
    ],
    &[Action::Copy, Action::Cut, Action::Duplicate, Action::Delete],
    &[Action::Group, Action::Ungroup],
    &[
        Action::InsertIdler,
        Action::InsertStage,
        Action::Reverse,
        Action::MergeShafts,
        Action::SplitShaft,
        Action::ArrangeSelected,
    ],
    ALIGNING,
    &[
        Action::Toggle(crate::actions::Panel::Details),
        Action::Toggle(crate::actions::Panel::Working),
    ],
];

/// What may be done on the bare bench, below the lines that place and paste.
pub const OF_BENCH: &[&[Action]] = &[
    &[Action::SelectAll, Action::SelectArea],
    &[Action::Fit, Action::Arrange],
    &[Action::Undo, Action::Redo],
];

/// Kinds that can be placed from the menu; the others are found by searching.
pub const PLACED: [Kind; 4] = [Kind::Shaft, Kind::Mesh, Kind::Motor, Kind::Winch];
