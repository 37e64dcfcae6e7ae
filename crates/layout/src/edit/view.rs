//! View settings under commands: what is set for a shaft or element on the skeleton follows when that is renamed.
//!
//! What is set for something that has gone is left: it means nothing until an undo brings that back.

use serde_json::{Map, Value};

use super::command::Command;
use crate::document::{Id, Layout};

/// The part of the file that drawings keep their things in, and the skeleton's in it.
const VIEW: &str = "view";
const SKELETON: &str = "skeleton";

/// The sorts of things that the skeleton keeps places of, by their field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Placed {
    /// Shafts.
    Shafts,
    /// Elements.
    Elements,
}

impl Placed {
    const fn field(self) -> &'static str {
        match self {
            Self::Shafts => "shafts",
            Self::Elements => "elements",
        }
    }
}

impl Layout {
    /// Follows a renaming that has been done. What stood under the new name spoke of nothing and goes; gives the command that
    /// brings that back.
    pub(super) fn rename_in_view(&mut self, placed: Placed, from: &Id, to: &Id) -> Option<Command> {
        let before = self.carried.get(VIEW)?.clone();
        let skeleton = self.carried.get_mut(VIEW)?.get_mut(SKELETON)?;
        let places = skeleton.get_mut(placed.field())?.as_object_mut()?;
        if from == to || !places.contains_key(from.as_str()) {
            return None;
        }
        let had_new = places.contains_key(to.as_str());
        let renamed: Map<String, Value> = std::mem::take(places)
            .into_iter()
            .filter(|(id, _)| *id != to.as_str())
            .map(|(id, place)| {
                if id == from.as_str() {
                    (to.to_string(), place)
                } else {
                    (id, place)
                }
            })
            .collect();
        *places = renamed;
        had_new.then(|| Command::SetCarried {
            name: VIEW.to_owned(),
            value: Some(before),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decode;

    const TEXT: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
        {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36]}],
        "view": {"skeleton": {"shafts": {"a": {"row": 40}, "old": {"row": 7}}, "elements": {"g": {"at": 12}}}}}"#;

    /// The skeleton's settings after a command; taking it back must give the layout from before.
    fn check(command: &Command, expected: &str) {
        let before = decode(TEXT).expect("sound");
        let mut layout = before.clone();
        let inverse = layout.apply(command).expect("it fits");
        assert_eq!(layout.carried["view"]["skeleton"].to_string(), expected);
        layout.apply(&inverse).expect("an inverse fits");
        layout.last_number = before.last_number;
        assert_eq!(layout, before, "{command:?}");
        assert_eq!(
            layout.carried["view"].to_string(),
            before.carried["view"].to_string()
        );
    }

    #[test]
    fn places_follow_what_is_renamed() {
        let shaft = |from: &str, to: &str| Command::RenameShaft {
            from: Id::from(from),
            to: Id::from(to),
        };
        check(
            &shaft("a", "motor"),
            r#"{"shafts":{"motor":{"row":40},"old":{"row":7}},"elements":{"g":{"at":12}}}"#,
        );
        check(
            &shaft("b", "drum"),
            r#"{"shafts":{"a":{"row":40},"old":{"row":7}},"elements":{"g":{"at":12}}}"#,
        );
        // What was left of a shaft that has gone makes way.
        check(
            &shaft("a", "old"),
            r#"{"shafts":{"old":{"row":40}},"elements":{"g":{"at":12}}}"#,
        );
        let element = Command::RenameElement {
            from: Id::from("g"),
            to: Id::from("a"),
        };
        check(
            &element,
            r#"{"shafts":{"a":{"row":40},"old":{"row":7}},"elements":{"a":{"at":12}}}"#,
        );
    }

    #[test]
    fn a_view_of_another_shape_is_left_alone() {
        for view in [
            r#"{"skeleton": 5}"#,
            r#"{"skeleton": {"shafts": [1]}}"#,
            "3",
            "{}",
        ] {
            let text = format!(r#"{{"layshaft": 1, "shafts": [{{"id": "a"}}], "view": {view}}}"#);
            let Ok(mut layout) = decode(&text) else { continue };
            let before = layout.carried.clone();
            let command = Command::RenameShaft {
                from: Id::from("a"),
                to: Id::from("b"),
            };
            layout.apply(&command).expect("it fits");
            assert_eq!(layout.carried, before);
        }
    }
}
