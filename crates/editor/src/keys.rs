//! The one table of keys: menus, hints and shortcuts all read it.

use crate::actions::Action;

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

/// The action that a key starts on the bench (not while text is typed); none where it means nothing.
#[must_use]
pub fn action_for(press: &KeyPress) -> Option<Action> {
    let _ = press;
    None
}
