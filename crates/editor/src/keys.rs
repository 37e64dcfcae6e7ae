//! The one table of keys: menus, hints and shortcuts all read it.

use crate::actions::{Action, Direction, Panel};
use crate::aligning::{Alignment, Axis};
use crate::catalogue;
use crate::choosing::Tab;
use crate::drawings::Drawing;

/// A key with what is held beside it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyPress {
    /// The key.
    pub key: Key,
    /// Shift.
    pub shift: bool,
    /// Control, or Command on a Mac.
    pub command: bool,
    /// Alt, or Option on a Mac.
    pub alt: bool,
}

/// A key by what it means (`KeyboardEvent.key`).
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Key {
    /// A character, lower case.
    Char(char),
    /// Any named key: `Enter`, `Escape`, `ArrowLeft`, `Delete`, `Tab`.
    Named(String),
}

impl KeyPress {
    /// From `KeyboardEvent.key` and its modifiers.
    #[must_use]
    pub fn new(key: &str, shift: bool, command: bool, alt: bool) -> Self {
        let mut characters = key.chars();
        let key = match (characters.next(), characters.next()) {
            (Some(one), None) => Key::Char(one.to_lowercase().next().unwrap_or(one)),
            _ => Key::Named(key.to_owned()),
        };
        Self {
            key,
            shift,
            command,
            alt,
        }
    }
}

/// What is held beside a key in a line of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Held {
    Nothing,
    Shift,
    Command,
    CommandShift,
    Alt,
    AltShift,
    /// Shift or not: for characters that need it on some keyboards.
    Either,
}

impl Held {
    fn fits(self, press: &KeyPress) -> bool {
        let held = (press.shift, press.command, press.alt);
        match self {
            Self::Nothing => held == (false, false, false),
            Self::Shift => held == (true, false, false),
            Self::Command => held == (false, true, false),
            Self::CommandShift => held == (true, true, false),
            Self::Alt => held == (false, false, true),
            Self::AltShift => held == (true, false, true),
            Self::Either => !press.command && !press.alt,
        }
    }

    const fn prefix(self) -> &'static str {
        match self {
            Self::Nothing | Self::Either => "",
            Self::Shift => "Shift+",
            Self::Command => "Ctrl+",
            Self::CommandShift => "Ctrl+Shift+",
            Self::Alt => "Alt+",
            Self::AltShift => "Alt+Shift+",
        }
    }
}

/// The table; where an action has several keys, the first is the one that is shown.
const TABLE: &[(Held, &str, Action)] = &[
    (Held::Command, "z", Action::Undo),
    (Held::CommandShift, "z", Action::Redo),
    (Held::Command, "y", Action::Redo),
    (Held::Nothing, "Delete", Action::Delete),
    (Held::Nothing, "Backspace", Action::Delete),
    (Held::Command, "d", Action::Duplicate),
    (Held::AltShift, "ArrowLeft", Action::Align(Alignment::Left)),
    (Held::AltShift, "ArrowRight", Action::Align(Alignment::Right)),
    (Held::AltShift, "ArrowUp", Action::Align(Alignment::Top)),
    (Held::AltShift, "ArrowDown", Action::Align(Alignment::Bottom)),
    (Held::Shift, "e", Action::Align(Alignment::Centre)),
    (Held::Shift, "h", Action::Align(Alignment::Middle)),
    (Held::Shift, "q", Action::SpreadOut(Axis::Across)),
    (Held::Shift, "y", Action::SpreadOut(Axis::Down)),
    (Held::Command, "g", Action::Group),
    (Held::CommandShift, "g", Action::Ungroup),
    (Held::Shift, "f", Action::Fold),
    (Held::Nothing, "F2", Action::Rename),
    (Held::Shift, "F10", Action::Menu),
    (Held::Nothing, "ContextMenu", Action::Menu),
    (Held::Shift, "b", Action::SelectArea),
    (Held::Command, "a", Action::SelectAll),
    (Held::Nothing, "Escape", Action::Cancel),
    (Held::Nothing, "Enter", Action::EditFirst),
    (Held::Either, "+", Action::Step(1)),
    (Held::Nothing, "=", Action::Step(1)),
    (Held::Either, "-", Action::Step(-1)),
    (Held::Nothing, "PageUp", Action::Step(5)),
    (Held::Nothing, "PageDown", Action::Step(-5)),
    (Held::Nothing, "ArrowLeft", Action::Go(Direction::Left)),
    (Held::Nothing, "ArrowRight", Action::Go(Direction::Right)),
    (Held::Nothing, "ArrowUp", Action::Go(Direction::Up)),
    (Held::Nothing, "ArrowDown", Action::Go(Direction::Down)),
    (Held::Shift, "ArrowLeft", Action::Extend(Direction::Left)),
    (Held::Shift, "ArrowRight", Action::Extend(Direction::Right)),
    (Held::Shift, "ArrowUp", Action::Extend(Direction::Up)),
    (Held::Shift, "ArrowDown", Action::Extend(Direction::Down)),
    (Held::Alt, "ArrowLeft", Action::Nudge(Direction::Left)),
    (Held::Alt, "ArrowRight", Action::Nudge(Direction::Right)),
    (Held::Alt, "ArrowUp", Action::Nudge(Direction::Up)),
    (Held::Alt, "ArrowDown", Action::Nudge(Direction::Down)),
    (Held::Nothing, ".", Action::NextPart),
    (Held::Nothing, ",", Action::PreviousPart),
    (Held::Nothing, "Home", Action::GoToDrive),
    (Held::Nothing, "End", Action::GoToOutput),
    (Held::Shift, "j", Action::Join),
    (Held::Shift, "a", Action::PlaceAgain),
    (Held::Shift, "i", Action::InsertIdler),
    (Held::Shift, "n", Action::InsertStage),
    (Held::Shift, "x", Action::Reverse),
    (Held::Shift, "m", Action::MergeShafts),
    (Held::Shift, "u", Action::SplitShaft),
    (Held::Shift, "z", Action::ArrangeSelected),
    (Held::Nothing, "f", Action::Fit),
    // Ctrl with plus and minus stays the browser's: it makes the whole page larger.
    (Held::Shift, "PageUp", Action::ZoomIn),
    (Held::Shift, "PageDown", Action::ZoomOut),
    (Held::Shift, "Home", Action::ActualSize),
    (Held::Nothing, "g", Action::PanTool),
    (Held::Nothing, "]", Action::NextPosition),
    (Held::Nothing, "[", Action::PreviousPosition),
    (Held::Nothing, "x", Action::ToggleEngaged),
    (Held::Nothing, "r", Action::MakeDrive),
    (Held::Nothing, "u", Action::HideAnswers),
    (Held::Nothing, "z", Action::Arrange),
    (Held::Shift, "d", Action::Toggle(Panel::Details)),
    (Held::Shift, "l", Action::Toggle(Panel::Ledger)),
    (Held::Shift, "w", Action::Toggle(Panel::Working)),
    (Held::Shift, "p", Action::Toggle(Panel::Positions)),
    (Held::Shift, "r", Action::Toggle(Panel::Run)),
    (Held::Shift, "c", Action::Toggle(Panel::Choose)),
    (Held::Shift, "v", Action::Choose(Tab::Sweep)),
    (Held::Shift, "g", Action::Choose(Tab::Gears)),
    (Held::Command, "Enter", Action::Run),
    (Held::Nothing, " ", Action::PlayRun),
    (Held::Shift, "o", Action::Toggle(Panel::Layouts)),
    (Held::Shift, "k", Action::Toggle(Panel::Legend)),
    (Held::Either, "?", Action::Toggle(Panel::Actions)),
    (Held::Command, "k", Action::Toggle(Panel::Actions)),
    (Held::Shift, "s", Action::Share),
    (Held::Command, "s", Action::Download),
    (Held::Shift, "t", Action::ChangeTheme),
    (Held::Command, ",", Action::Toggle(Panel::Settings)),
    (Held::Alt, "b", Action::Toggle(Panel::Build)),
    (Held::Alt, "1", Action::Show(Drawing::Flow)),
    (Held::Alt, "2", Action::Show(Drawing::Skeleton)),
    (Held::Alt, "3", Action::Show(Drawing::Plan)),
];

/// Keys that the browser turns into events of its own, which carry the clipboard without asking for permission.
const BY_THE_BROWSER: [(Action, &str); 3] = [
    (Action::Copy, "Ctrl+C"),
    (Action::Cut, "Ctrl+X"),
    (Action::Paste, "Ctrl+V"),
];

/// The action that a key starts on the bench (not while text is typed); none where it means nothing.
#[must_use]
pub fn action_for(press: &KeyPress) -> Option<Action> {
    let key = match &press.key {
        Key::Char(character) => character.to_string(),
        Key::Named(name) => name.clone(),
    };
    let in_table = TABLE
        .iter()
        .find(|(held, name, _)| *name == key && held.fits(press));
    in_table
        .map(|(.., action)| action.clone())
        .or_else(|| plain_character(press))
}

/// Whether a key leaves a number that nothing was typed into yet, and means what it means on the bench: a letter, an arrow
/// to the side, undo. As in tables, where typing replaces a cell and arrows go on.
#[must_use]
pub fn leaves_number(press: &KeyPress) -> bool {
    let leaves = match &press.key {
        Key::Char(character) if press.command => matches!(character, 'z' | 'y'),
        Key::Char(character) => character.is_alphabetic() || matches!(character, '?' | '[' | ']'),
        Key::Named(name) => matches!(name.as_str(), "ArrowLeft" | "ArrowRight") && !press.shift,
    };
    leaves && action_for(press).is_some()
}

/// Digits show positions, letters place parts.
fn plain_character(press: &KeyPress) -> Option<Action> {
    let Key::Char(character) = press.key else {
        return None;
    };
    if !Held::Nothing.fits(press) {
        return None;
    }
    if let Some(digit @ 1..=9) = character.to_digit(10) {
        return Some(Action::Position(digit as usize - 1));
    }
    catalogue::entries()
        .iter()
        .find(|entry| entry.key == character)
        .map(|entry| Action::Place(entry.kind))
}

/// The key of an action as people write it; empty where it has none.
#[must_use]
pub fn key_of(action: &Action) -> String {
    if let Action::Place(kind) = action {
        return kind.entry().key.to_uppercase().to_string();
    }
    if let Some((_, key)) = BY_THE_BROWSER.iter().find(|(other, _)| other == action) {
        return (*key).to_owned();
    }
    if let Action::Position(number @ 0..=8) = action {
        return (number + 1).to_string();
    }
    let line = TABLE.iter().find(|(.., other)| other == action);
    line.map_or_else(String::new, |(held, key, _)| {
        format!("{}{}", held.prefix(), written(key))
    })
}

fn written(key: &str) -> String {
    match key {
        "ArrowLeft" => "←".to_owned(),
        "ArrowRight" => "→".to_owned(),
        "ArrowUp" => "↑".to_owned(),
        "ArrowDown" => "↓".to_owned(),
        "Escape" => "Esc".to_owned(),
        "-" => "−".to_owned(),
        " " => "Space".to_owned(),
        "ContextMenu" => "Menu".to_owned(),
        "PageUp" => "Page up".to_owned(),
        "PageDown" => "Page down".to_owned(),
        other => {
            let mut letters = other.chars();
            letters
                .next()
                .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_key_means_two_things() {
        let lines = TABLE.iter().map(|(held, key, _)| (*held, *key));
        let parts = catalogue::entries()
            .iter()
            .map(|entry| (Held::Nothing, entry.key.to_string()));
        let mut all: Vec<String> = lines
            .map(|(held, key)| format!("{held:?}{key}"))
            .chain(parts.map(|(held, key)| format!("{held:?}{key}")))
            .collect();
        let count = all.len();
        all.sort();
        all.dedup();
        assert_eq!(all.len(), count);
    }

    #[test]
    fn a_question_mark_needs_shift_on_most_keyboards() {
        assert_eq!(
            action_for(&KeyPress::new("?", true, false, false)),
            Some(Action::Toggle(Panel::Actions))
        );
        assert_eq!(
            action_for(&KeyPress::new("Z", true, true, false)),
            Some(Action::Redo)
        );
        assert_eq!(
            action_for(&KeyPress::new("m", false, false, false)),
            Some(Action::Place(crate::Kind::Mesh))
        );
        assert_eq!(action_for(&KeyPress::new("m", false, true, false)), None);
    }

    #[test]
    fn a_number_not_typed_into_yet_lets_go_of_what_begins_no_number() {
        let check = |key: &str, command: bool, expected: bool| {
            let press = KeyPress::new(key, false, command, false);
            assert_eq!(leaves_number(&press), expected, "{key}");
        };
        check("m", false, true);
        check("ArrowLeft", false, true);
        check("z", true, true);
        for key in [
            "1",
            "0",
            "-",
            ".",
            ",",
            "Backspace",
            "Delete",
            "ArrowUp",
            "Home",
            " ",
        ] {
            check(key, false, false);
        }
        for key in ["a", "c", "v", "x"] {
            check(key, true, false);
        }
    }
}
