//! Groups by action: made of what is selected, folded, opened, dissolved. Their fields are in `fields`.

use layshaft_layout::{Command, Group, Id};

use super::{Effect, Session};
use crate::actions::Panel;
use crate::drawings::Drawing;
use crate::groups;
use crate::target::{FieldRef, Target};

impl Session {
    /// What stands for a thing on the drawing on the sheet: only the flow drawing folds groups.
    pub(super) fn visible(&self, target: &Target) -> Target {
        if self.drawing == Drawing::Flow {
            groups::visible(&self.shown, target)
        } else {
            target.clone()
        }
    }

    /// All that can be selected on the drawing on the sheet.
    pub(super) fn all_parts(&self) -> Vec<Target> {
        let all = groups::all_visible(&self.shown);
        if self.drawing == Drawing::Flow {
            all
        } else {
            groups::expanded(&self.shown, &all)
        }
    }

    /// The group that is meant: the selected one, else that of the last selected thing.
    pub(super) fn selected_group(&self) -> Option<Id> {
        match self.selection.last()? {
            Target::Group(id) => Some(id.clone()),
            Target::Shaft(id) | Target::Element(id) => {
                self.document.layout().group_of(id).map(|group| group.id.clone())
            }
            Target::Position(_) | Target::Layout => None,
        }
    }

    /// Names what is selected as one; the field for its name is open at once.
    pub(super) fn group(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout();
        let members = groups::completed(layout, &self.selected_things());
        if members.len() < 2 {
            effects.push(Effect::Announce(
                "Select two or more things to group them".to_owned(),
            ));
            return;
        }
        let mut all = layout.groups.clone();
        for group in &mut all {
            group.members.retain(|id| !members.contains(id));
        }
        all.retain(|group| !group.members.is_empty());
        let id = layout.id_maker().group();
        let name = format!("Group {}", all.len() + 1);
        all.push(Group {
            id: id.clone(),
            name: name.clone(),
            members: members.into_iter().collect(),
            folded: false,
        });
        if self.commit(Command::SetGroups(all), &format!("group as {name}"), effects) {
            self.select(vec![Target::Group(id)]);
            self.rename_group(effects);
        }
    }

    /// Opens the field for the name of the selected group.
    pub(super) fn rename_group(&mut self, effects: &mut Vec<Effect>) {
        let Some(id) = self.selected_group() else { return };
        let target = Target::Group(id);
        self.select(vec![target.clone()]);
        self.panel = Some(Panel::Details);
        let field = FieldRef {
            target,
            path: "name".to_owned(),
        };
        self.begin_edit(field, false, effects);
    }

    /// Dissolves the selected groups; what was in them stays.
    pub(super) fn ungroup(&mut self, effects: &mut Vec<Effect>) {
        let Some(id) = self.selected_group() else { return };
        let mut gone = vec![id];
        gone.extend(self.selection.iter().filter_map(|target| match target {
            Target::Group(id) => Some(id.clone()),
            _ => None,
        }));
        let layout = self.document.layout().clone();
        let (dissolved, left): (Vec<Group>, Vec<Group>) = layout
            .groups
            .iter()
            .cloned()
            .partition(|group| gone.contains(&group.id));
        let name = dissolved
            .last()
            .map_or_else(String::new, |group| format!("ungroup {}", group.name));
        if self.commit(Command::SetGroups(left), &name, effects) {
            let members = dissolved
                .iter()
                .flat_map(|group| groups::members(&layout, group))
                .collect();
            self.select(members);
            effects.push(Effect::Announce(format!("{name}: done")));
        }
    }

    /// Folds the selected group into one thing, or opens it.
    pub(super) fn fold(&mut self, effects: &mut Vec<Effect>) {
        if let Some(id) = self.selected_group() {
            self.fold_group(&id, effects);
        }
    }

    pub(super) fn fold_group(&mut self, id: &Id, effects: &mut Vec<Effect>) {
        let mut all = self.document.layout().groups.clone();
        let Some(group) = all.iter_mut().find(|group| group.id == *id) else {
            return;
        };
        group.folded = !group.folded;
        let verb = if group.folded { "fold" } else { "open" };
        let name = format!("{verb} {}", group.name);
        if self.commit(Command::SetGroups(all), &name, effects) {
            let target = Target::Group(id.clone());
            self.select(vec![target.clone()]);
            effects.extend([Effect::Announce(format!("{name}: done")), Effect::Focus(target)]);
        }
    }
}
