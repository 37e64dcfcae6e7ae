//! Groups under commands: setting them, and keeping them in step when what belongs to them goes or is renamed.

use std::mem::replace;

use serde_json::Value;

use super::command::Command;
use super::refusal::Refusal;
use super::sound;
use crate::document::{Group, Id, Layout};
use crate::file::write;

impl Layout {
    pub(super) fn set_groups(&mut self, groups: &[Group]) -> Result<Command, Refusal> {
        sound::check_top(
            self,
            "groups",
            &groups.iter().map(write::group).map(Value::from).collect(),
        )?;
        for group in groups {
            self.count_in(&group.id);
        }
        Ok(Command::SetGroups(replace(&mut self.groups, groups.to_vec())))
    }

    /// Takes an id out of all groups, unless a shaft or element still bears it; a group that this leaves empty goes.
    /// Gives the command that takes this back, where something changed.
    pub(super) fn ungroup_lost(&mut self, id: &Id) -> Option<Command> {
        if self.group_of(id).is_none() || self.bears(id) {
            return None;
        }
        let before = self.groups.clone();
        for group in &mut self.groups {
            group.members.retain(|member| member != id);
        }
        self.groups.retain(|group| !group.members.is_empty());
        Some(Command::SetGroups(before))
    }

    /// Follows a renaming that has been done. Where something else still bears the old id, both ids belong to the group.
    /// Gives the command that takes this back, where something changed.
    pub(super) fn rename_in_groups(&mut self, from: &Id, to: &Id) -> Option<Command> {
        if from == to || self.group_of(from).is_none() && self.group_of(to).is_none() {
            return None;
        }
        let before = self.groups.clone();
        let keeps_old = self.bears(from);
        // The new id may be known already from a thing of the other sort; what is renamed stays in its own group.
        let was_grouped = self.group_of(from).is_some();
        for group in &mut self.groups {
            let Some(place) = group.members.iter().position(|member| member == from) else {
                if was_grouped {
                    group.members.retain(|member| member != to);
                }
                continue;
            };
            let knows_new = group.holds(to);
            match (knows_new, keeps_old) {
                (false, false) => group.members[place] = to.clone(),
                (false, true) => group.members.insert(place + 1, to.clone()),
                (true, false) => drop(group.members.remove(place)),
                (true, true) => {}
            }
        }
        self.groups.retain(|group| !group.members.is_empty());
        (self.groups != before).then_some(Command::SetGroups(before))
    }

    /// Whether a shaft or an element bears this id.
    fn bears(&self, id: &Id) -> bool {
        self.shaft(id).is_some() || self.element(id).is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decode;

    const TEXT: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}, {"id": "c"}, {"id": "k"}], "elements": [
        {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36]},
        {"id": "k", "kind": "clutch", "a": "b", "b": "c"}],
        "groups": [{"id": "box", "name": "Gearbox", "members": ["g", "b", "k"], "folded": true}]}"#;

    /// What the groups hold after a command; taking it back must give the layout from before.
    fn check(command: Command, expected: &[&str]) {
        let before = decode(TEXT).expect("sound");
        let mut layout = before.clone();
        let inverse = layout.apply(&command).expect("it fits");
        let members = layout.groups.iter().flat_map(|group| &group.members);
        assert_eq!(
            members.map(Id::as_str).collect::<Vec<_>>(),
            expected,
            "{command:?}"
        );
        layout.apply(&inverse).expect("an inverse fits");
        layout.last_number = before.last_number;
        assert_eq!(layout, before, "{command:?}");
    }

    fn id(text: &str) -> Id {
        Id::from(text)
    }

    #[test]
    fn what_goes_leaves_its_group() {
        check(Command::RemoveElement { id: id("g") }, &["b", "k"]);
        // With the shaft go both elements on it, but a shaft is called `k` as well.
        check(Command::RemoveShaft { id: id("b") }, &["k"]);
    }

    #[test]
    fn an_empty_group_goes() {
        let all = ["g", "k"].map(|name| Command::RemoveElement { id: id(name) });
        let shafts = ["b", "k"].map(|name| Command::RemoveShaft { id: id(name) });
        check(Command::Batch(all.into_iter().chain(shafts).collect()), &[]);
    }

    #[test]
    fn names_are_followed() {
        let (from, to) = (id("b"), id("mid"));
        check(Command::RenameShaft { from, to }, &["g", "mid", "k"]);
        let (from, to) = (id("k"), id("dog"));
        check(Command::RenameElement { from, to }, &["g", "b", "k", "dog"]);
    }

    #[test]
    fn a_thing_belongs_to_one_group() {
        let mut layout = decode(TEXT).expect("sound");
        let mut groups = layout.groups.clone();
        groups.push(Group {
            id: id("other"),
            name: "Other".to_owned(),
            members: vec![id("c"), id("g")],
            folded: false,
        });
        let refusal = layout
            .apply(&Command::SetGroups(groups))
            .expect_err("g is in two groups");
        let sentence = refusal.to_string();
        assert!(
            sentence.contains("groups[1].members[1]") && sentence.contains("groups[0]"),
            "{sentence}"
        );
    }
}
