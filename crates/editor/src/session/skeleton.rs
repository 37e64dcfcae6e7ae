//! The skeleton under the hand: axes dragged up and down, elements along their axis, and all of it set out anew.

use super::{Effect, Session};
use crate::geometry::Point;
use crate::groups;
use crate::scene::skeleton;
use crate::target::Target;

impl Session {
    /// Shows what is dragged where the pointer has taken it; what is selected with it comes along.
    pub(super) fn preview_move_on_skeleton(&mut self, grabbed: &Target, by: Point) {
        let layout = self.document.layout().clone();
        let drive = self.report().drive.clone();
        let drive = drive.and_then(|drive| layout.shafts.iter().position(|shaft| shaft.id == drive));
        let mut moving: Vec<Target> = vec![grabbed.clone()];
        if self.selection.contains(grabbed) {
            moving.extend(self.selection.iter().filter(|target| *target != grabbed).cloned());
        }
        let moving = groups::expanded(&layout, &moving);
        let command = skeleton::moved(&layout, drive, &moving, by);
        if let Some(command) = command
            && self.preview(&command).is_ok()
        {
            self.moving = Some(command);
        }
    }

    /// Leaves everything where the drawing puts it by itself.
    pub(super) fn set_skeleton_out_anew(&mut self, effects: &mut Vec<Effect>) {
        match skeleton::set_out_anew(self.document.layout()) {
            Some(command) => {
                if self.commit(command, "set the skeleton out anew", effects) {
                    self.fit();
                    effects.push(Effect::Announce("The skeleton is set out anew".to_owned()));
                }
            }
            None => effects.push(Effect::Announce(
                "Nothing on the skeleton was moved by hand".to_owned(),
            )),
        }
    }
}
