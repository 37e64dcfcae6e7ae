//! Which actions apply now, and why the others don't: the list of actions, menus and buttons all ask here.

use super::Session;
use crate::actions::{Action, ActionInfo};
use crate::drawings::Drawing;
use crate::search;
use crate::target::Target;
use crate::wording;

/// An action of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// The action.
    pub info: ActionInfo,
    /// Why it does nothing now; none where it applies.
    pub why_not: Option<&'static str>,
}

/// What stands at several selected things: how many they are, and what can be done with them.
#[derive(Clone, Debug, PartialEq)]
pub struct SelectionBar {
    /// `3 selected`.
    pub text: String,
    /// Actions that apply.
    pub actions: Vec<ActionInfo>,
}

/// What is offered for several things, before the ways to set them in line.
const FOR_SEVERAL: [Action; 6] = [
    Action::Fold,
    Action::Group,
    Action::Ungroup,
    Action::Copy,
    Action::Duplicate,
    Action::Delete,
];

impl Session {
    /// The actions that a search finds, those that apply first.
    #[must_use]
    pub fn actions(&self, query: &str) -> Vec<Listed> {
        let listed = |info: ActionInfo| Listed {
            why_not: self.why_not(&info.action),
            info,
        };
        let mut found: Vec<Listed> = search::actions(query).into_iter().map(listed).collect();
        found.sort_by_key(|listed| listed.why_not.is_some());
        found
    }

    /// What stands at several selected things; none where there are not several.
    #[must_use]
    pub fn selection_bar(&self) -> Option<SelectionBar> {
        let count = self.selection.len();
        let is_group = matches!(self.selection[..], [Target::Group(_)]);
        // While a second shaft is chosen, the line says what the next key does.
        if count < 2 && !is_group || self.joining().is_some() {
            return None;
        }
        let text = match self.selection.last() {
            Some(Target::Group(id)) if count == 1 => {
                let group = self.shown.group(id);
                group.map_or_else(String::new, |group| group.name.clone())
            }
            _ => format!("{count} selected"),
        };
        let all = crate::actions::all();
        let has_group = self
            .selection
            .iter()
            .any(|target| matches!(target, Target::Group(_)));
        let applying = FOR_SEVERAL.iter().chain(crate::menu::ALIGNING).filter(|action| {
            let of_groups = matches!(action, Action::Fold | Action::Ungroup);
            (has_group || !of_groups) && self.why_not(action).is_none()
        });
        let actions = applying.filter_map(|action| all.iter().find(|info| info.action == *action));
        Some(SelectionBar {
            text,
            actions: actions.cloned().collect(),
        })
    }

    /// Why an action does nothing now; none where it applies.
    #[must_use]
    pub fn why_not(&self, action: &Action) -> Option<&'static str> {
        let unless = |applies: bool, why: &'static str| (!applies).then_some(why);
        let selected = !self.selection.is_empty();
        let last = self.selection.last();
        match action {
            Action::Undo => unless(self.undo_name().is_some(), wording::NOTHING_DONE),
            Action::Redo => unless(self.redo_name().is_some(), wording::NOTHING_UNDONE),
            Action::Delete | Action::Duplicate | Action::Copy | Action::Cut => {
                unless(!self.selected_things().is_empty(), wording::SELECT_FIRST)
            }
            Action::Step(_) | Action::Nudge(_) => unless(selected, wording::SELECT_FIRST),
            Action::EditFirst => unless(
                matches!(last, Some(Target::Shaft(_) | Target::Element(_))),
                wording::SELECT_FIRST,
            ),
            Action::MakeDrive => unless(self.selected_shaft().is_some(), wording::SELECT_SHAFT),
            Action::ToggleEngaged => unless(self.selects_engageable(), wording::SELECT_CLUTCH),
            Action::Paste | Action::SelectArea => None,
            Action::SelectAll | Action::Arrange | Action::Fit => {
                unless(!self.shown.shafts.is_empty(), wording::EMPTY_BENCH)
            }
            Action::Align(_) => self.why_not_on_flow(self.count_to_align() >= 2, wording::SELECT_TWO),
            Action::SpreadOut(_) => self.why_not_on_flow(self.count_to_align() >= 3, wording::SELECT_THREE),
            Action::Group => unless(self.can_group(), wording::SELECT_TWO),
            Action::Ungroup | Action::Fold | Action::Rename => {
                unless(self.selected_group().is_some(), wording::SELECT_GROUP)
            }
            Action::InsertIdler
            | Action::InsertStage
            | Action::Reverse
            | Action::ChangeInto(_)
            | Action::MergeShafts
            | Action::SplitShaft
            | Action::ArrangeSelected => unless(self.is_offered(action), wording::rework_needs(action)),
            Action::NextPosition | Action::PreviousPosition | Action::RemovePosition => {
                unless(self.shown.positions.len() > 1, wording::ONE_POSITION)
            }
            _ => None,
        }
    }

    fn why_not_on_flow(&self, applies: bool, why: &'static str) -> Option<&'static str> {
        if self.drawing != Drawing::Flow {
            return Some(wording::ON_FLOW);
        }
        (!applies).then_some(why)
    }

    /// Whether two or more things are selected that are not one group already.
    fn can_group(&self) -> bool {
        let is_one_group = matches!(self.selection[..], [Target::Group(_)]);
        !is_one_group && self.selected_things().len() >= 2
    }

    fn selects_engageable(&self) -> bool {
        let Some(Target::Element(id)) = self.selection.last() else {
            return false;
        };
        let element = self.shown.element(id);
        element.is_some_and(|element| element.kind.is_engageable())
    }
}
