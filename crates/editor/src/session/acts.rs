//! Actions: each leads to one method; those that change the document first finish what is being typed.

use std::rc::Rc;

use layshaft_layout::Id;

use super::reworking::Inserted;
use super::{Effect, Session, Theme};
use crate::actions::{Action, Panel};
use crate::catalogue::Kind;
use crate::demos;
use crate::drawings::Drawing;
use crate::target::Target;
use crate::tools::{PointerKind, Tool};
use crate::wording;

impl Session {
    pub(super) fn act(&mut self, action: Action, effects: &mut Vec<Effect>) {
        if let (true, Some(why)) = (says_why_not(&action), self.why_not(&action)) {
            effects.push(Effect::Announce(why.to_owned()));
            return;
        }
        match action {
            Action::Cancel => self.cancel(effects),
            Action::Fit => self.fit(),
            Action::ZoomIn => self.zoom(self.view.middle(), 1.25),
            Action::ZoomOut => self.zoom(self.view.middle(), 0.8),
            Action::ActualSize => self.zoom(self.view.middle(), 1.0 / self.view.zoom),
            Action::Toggle(panel) => self.toggle(panel),
            Action::ChangeTheme => self.change_theme(effects),
            Action::SaveDrawing(file) => effects.push(Effect::ReadFace(file)),
            Action::Print => effects.push(Effect::Print),
            Action::SaveTable(table) => self.save_table(table, effects),
            Action::CopyTable(table) => self.copy_table(table, effects),
            Action::NextUnit(what) => self.next_unit(what, effects),
            Action::HideAnswers => self.change_answers(effects),
            Action::ToggleLabel(what) => self.toggle_label(what),
            Action::SelectArea => self.take_tool(Tool::Area, effects),
            Action::Menu => self.open_menu(None, PointerKind::Mouse, effects),
            Action::SelectTool => self.take_tool(Tool::Select, effects),
            Action::PanTool => self.take_tool(Tool::Pan, effects),
            Action::Place(kind) => self.take_tool(Tool::Place(kind), effects),
            Action::Go(direction) => self.go(direction, false, effects),
            Action::Extend(direction) => self.go(direction, true, effects),
            Action::NextPart => self.next_part(1, effects),
            Action::PreviousPart => self.next_part(-1, effects),
            Action::SelectAll => self.select_all(effects),
            Action::Join => self.begin_joining(effects),
            Action::GoToDrive => self.go_to_drive(effects),
            Action::GoToOutput => self.go_to_output(effects),
            Action::EditFirst => self.edit_first(effects),
            Action::Position(number) => self.show_numbered(number, effects),
            Action::NextPosition => self.turn_position(1, effects),
            Action::PreviousPosition => self.turn_position(-1, effects),
            Action::Run => self.start_run(effects),
            Action::Choose(tab) => self.show_choosing(tab, effects),
            Action::Show(drawing) => self.show_drawing(drawing, effects),
            Action::Plan(act) if !act.changes_document() => self.act_on_plan(act, effects),
            Action::PlayRun => self.play_run(effects),
            other => {
                // What changes the document first finishes what is being typed.
                self.close_edit(effects);
                self.give_up_gesture(effects);
                self.change(other, effects);
            }
        }
    }

    /// Actions that change or replace the document.
    pub(super) fn change(&mut self, action: Action, effects: &mut Vec<Effect>) {
        match action {
            Action::Undo => self.undo(effects),
            Action::Redo => self.redo(effects),
            Action::Delete => {
                let targets = (*self.selection).clone();
                self.remove(&targets, effects);
            }
            Action::Duplicate => self.duplicate(effects),
            Action::Copy => self.copy(false, effects),
            Action::Cut => self.copy(true, effects),
            Action::Paste => effects.push(Effect::ReadClipboard),
            Action::Align(by) => self.align(by, effects),
            Action::SpreadOut(along) => self.spread_out(along, effects),
            Action::Group => self.group(effects),
            Action::Ungroup => self.ungroup(effects),
            Action::Fold => self.fold(effects),
            Action::Rename => self.rename_group(effects),
            Action::Step(by) => self.step_selected(by, effects),
            Action::Nudge(direction) => self.nudge(direction, effects),
            Action::Arrange => self.arrange(effects),
            Action::ArrangeSelected => self.arrange_selected(effects),
            Action::PlaceAgain => self.place_again(effects),
            Action::InsertIdler => self.insert(Inserted::Idler, effects),
            Action::InsertStage => self.insert(Inserted::Stage(Kind::Mesh), effects),
            Action::Reverse => self.reverse(effects),
            Action::ChangeInto(kind) => self.change_into(kind, effects),
            Action::MergeShafts => self.merge_shafts(effects),
            Action::SplitShaft => self.split_shaft(effects),
            Action::SetSkeletonOut => self.set_skeleton_out_anew(effects),
            Action::AddPosition => self.add_position(effects),
            Action::RemovePosition => self.remove_position(effects),
            Action::ToggleEngaged => self.toggle_engaged(effects),
            Action::MakeDrive => self.make_drive(effects),
            Action::EmptyBench => self.empty_bench(effects),
            Action::OpenDemo(id) => {
                if let Some(demo) = demos::demo(id) {
                    self.open_text(demo.text, demo.name, effects);
                }
            }
            Action::Share => self.share(effects),
            Action::Download => self.download(effects),
            Action::Plan(act) => self.act_on_plan(act, effects),
            Action::DownloadAll => self.download_all(effects),
            Action::WorkOnCopy => self.work_on_copy(effects),
            _ => {}
        }
    }

    /// Backs out of one thing: an edit, a gesture, a tool, a message, a panel, the selection.
    pub(super) fn cancel(&mut self, effects: &mut Vec<Effect>) {
        if self.hands.menu.is_some() {
            self.close_menu(effects);
        } else if self.editing.is_some() {
            self.cancel_edit(effects);
        } else if self.is_in_gesture() {
            self.give_up_gesture(effects);
        } else if self.joining().is_some() {
            self.stop_joining(effects);
        } else if self.tool != Tool::Select {
            self.take_tool(Tool::Select, effects);
        } else if self.message.is_some() {
            self.message = None;
        } else if self.selection.len() > 1 {
            self.select(Vec::new());
            effects.push(Effect::FocusBench);
        } else if self.panel.is_some() {
            self.panel = None;
            self.redraw();
            effects.push(Effect::FocusBench);
        } else {
            self.select(Vec::new());
        }
    }

    pub(super) fn take_tool(&mut self, tool: Tool, effects: &mut Vec<Effect>) {
        self.close_edit(effects);
        self.give_up_gesture(effects);
        self.clear_overlay();
        self.tool = tool;
        if tool == Tool::Area {
            effects.push(Effect::Announce(self.hint()));
        }
        if let Tool::Place(_) = tool {
            // Parts are placed where they are connected.
            self.show_drawing(Drawing::Flow, effects);
            self.tool = tool;
            effects.push(Effect::Announce(self.hint()));
        }
    }

    pub(super) fn toggle(&mut self, panel: Panel) {
        self.hands.query.clear();
        self.give_up_run_field();
        self.panel = if self.panel == Some(panel) {
            None
        } else {
            Some(panel)
        };
        self.redraw();
        if self.panel == Some(Panel::Working) {
            self.working_shaft = self.selected_shaft().or(self.working_shaft.take());
        }
    }

    /// The first press changes what is seen, the second changes it back, the third leaves it to the system.
    pub(super) fn change_theme(&mut self, effects: &mut Vec<Effect>) {
        let (as_system, opposite) = if self.system_is_dark {
            (Theme::Slate, Theme::Paper)
        } else {
            (Theme::Paper, Theme::Slate)
        };
        self.theme = if self.theme == Theme::System {
            opposite
        } else if self.theme == opposite {
            as_system
        } else {
            Theme::System
        };
        effects.extend([
            Effect::SavePreferences,
            Effect::Announce(wording::theme(self.theme).to_owned()),
        ]);
    }

    pub(super) fn change_answers(&mut self, effects: &mut Vec<Effect>) {
        self.hide_answers = !self.hide_answers;
        self.revealed = Rc::default();
        self.redraw();
        let words = if self.hide_answers {
            "Answers are hidden"
        } else {
            "Answers are shown"
        };
        effects.push(Effect::Announce(words.to_owned()));
    }

    pub(super) fn toggle_label(&mut self, what: crate::actions::LabelPart) {
        use crate::actions::LabelPart;
        let shown = match what {
            LabelPart::Ratio => &mut self.labels.ratio,
            LabelPart::Speed => &mut self.labels.speed,
            LabelPart::Torque => &mut self.labels.torque,
            LabelPart::Power => &mut self.labels.power,
            LabelPart::Efficiency => &mut self.labels.efficiency,
        };
        *shown = !*shown;
        self.redraw();
    }

    pub(super) fn show_working(&mut self, shaft: Id) {
        if self.working_shaft.as_ref() != Some(&shaft) {
            self.revealed = Rc::default();
        }
        self.working_shaft = Some(shaft);
        self.explained = None;
        self.panel = Some(Panel::Working);
    }

    pub(super) fn selected_shaft(&self) -> Option<Id> {
        match self.selection.last() {
            Some(Target::Shaft(id)) => Some(id.clone()),
            _ => None,
        }
    }
}

/// Actions that tell why they do nothing; the others do what they can.
const fn says_why_not(action: &Action) -> bool {
    matches!(
        action,
        Action::Delete
            | Action::Duplicate
            | Action::Copy
            | Action::Cut
            | Action::Align(_)
            | Action::SpreadOut(_)
            | Action::Group
            | Action::Ungroup
            | Action::Fold
            | Action::Rename
            | Action::ToggleEngaged
            | Action::MakeDrive
    )
}
