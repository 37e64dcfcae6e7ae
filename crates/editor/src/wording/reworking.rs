//! What has to be selected for what can be made of it.

use crate::actions::Action;

/// What to select first, for an action that changes what is there.
#[must_use]
pub const fn rework_needs(action: &Action) -> &'static str {
    match action {
        Action::InsertIdler => "Select a mesh of two gears on parallel shafts",
        Action::InsertStage => "Select a mesh, chain, belt or clutch",
        Action::ChangeInto(_) => "Select a part that joins the same things",
        Action::MergeShafts => "Select two shafts",
        Action::SplitShaft => "Select a shaft and parts on it",
        Action::ArrangeSelected => "Select three shafts or more",
        _ => "Select a part whose ends can be exchanged",
    }
}
