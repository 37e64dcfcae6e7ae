//! What a page reads of a session: the drawing, the words over it, the sheets beside it.

use std::rc::Rc;

use layshaft_layout::{Id, Layout};
use layshaft_report::{PositionReport, Report};

use super::{Editing, Message, Selection, Session, Theme, View};
use crate::actions::Panel;
use crate::engagement::{Engagement, engagement};
use crate::fields::{Details, DetailsInput, details};
use crate::scene::flow::{FlowInput, Holds, scene};
use crate::scene::{Scene, Shown};
use crate::summary::output_shaft;
use crate::target::Target;
use crate::title_block::{TitleBlock, title_block};
use crate::tools::Tool;
use crate::units::Units;
use crate::wording::{self, Severity, Words};
use crate::working::{WorkingSheet, sheet};

/// What a drawing was made of, as far as places of labels depend on it.
#[derive(Clone, Debug)]
pub(super) struct MadeOf {
    layout: Rc<Layout>,
    report: Rc<Report>,
    position: Id,
    shown: Shown,
    of_run: bool,
    hides_answers: bool,
    units: Units,
}

impl Session {
    /// The layout as shown, with what is being dragged or typed.
    #[must_use]
    pub fn layout(&self) -> &Rc<Layout> {
        &self.shown
    }

    /// What is computed about it.
    #[must_use]
    pub fn report(&self) -> &Rc<Report> {
        self.computed.report()
    }

    pub(super) fn position_report(&self) -> Option<&PositionReport> {
        self.report()
            .positions
            .iter()
            .find(|report| report.id == self.position)
            .map(Rc::as_ref)
    }

    /// What is selected; the last one has the keyboard.
    #[must_use]
    pub fn selection(&self) -> &Rc<Selection> {
        &self.selection
    }

    /// The position shown.
    #[must_use]
    pub fn position(&self) -> &Id {
        &self.position
    }

    /// All positions with their names, the implied one too.
    #[must_use]
    pub fn positions(&self) -> Vec<(Id, String)> {
        self.shown
            .effective_positions()
            .into_iter()
            .map(|position| (position.id, position.name))
            .collect()
    }

    /// Which clutches and brakes are engaged where.
    #[must_use]
    pub fn engagement(&self) -> Engagement {
        engagement(&self.shown, &self.position)
    }

    /// The tool in hand.
    #[must_use]
    pub const fn tool(&self) -> Tool {
        self.tool
    }

    /// What to do next with the tool in hand: one line for the foot of the bench.
    #[must_use]
    pub fn hint(&self) -> String {
        if let Some(moment) = self.run_hint() {
            return moment;
        }
        if self.is_embedded {
            return String::new();
        }
        match self.tool {
            Tool::Pan => "Drag to move the sheet. Esc puts the hand away.".to_owned(),
            Tool::Area => "Drag a rectangle round what is to be selected. Esc puts it away.".to_owned(),
            Tool::Place(kind) => {
                let name = kind.entry().name.to_lowercase();
                match kind.port_count() {
                    0 => "Press where the shaft goes. Esc puts it away.".to_owned(),
                    1 => {
                        format!("Press a shaft to put the {name} on it, or the bare bench. Esc puts it away.")
                    }
                    _ => format!(
                        "Press a shaft to build on from it, or the bare bench, or drag from one shaft to another, to place the {name}. Esc puts it away."
                    ),
                }
            }
            Tool::Select => self.selecting_hint(),
        }
    }

    fn selecting_hint(&self) -> String {
        if let Some(hint) = self.building_hint() {
            return hint;
        }
        match self.selection.last() {
            _ if self.shown.shafts.is_empty() => {
                "Take a part from the tray and put it here, or press M for a gear mesh.".to_owned()
            }
            Some(_) if self.selection.len() > 1 => {
                "Drag one to move them all, Ctrl+G names them as one, Esc lets them go.".to_owned()
            }
            Some(Target::Group(_)) => {
                "Enter folds or opens the group, F2 names it, Ctrl+Shift+G dissolves it.".to_owned()
            }
            Some(Target::Shaft(id)) => {
                format!(
                    "{id} is selected: press a part's key to build on from it. Arrow keys go to what is connected."
                )
            }
            Some(Target::Element(id)) => {
                format!(
                    "{id} is selected: Enter edits its first number, + and − step it. Drag its ends to other shafts."
                )
            }
            _ => "Click a number to edit it, drag to move, press ? for all actions.".to_owned(),
        }
    }

    /// Where the bench is looked at.
    #[must_use]
    pub const fn view(&self) -> View {
        self.view
    }

    /// The panel that is open.
    #[must_use]
    pub const fn panel(&self) -> Option<Panel> {
        self.panel
    }

    /// The field being edited.
    #[must_use]
    pub const fn editing(&self) -> Option<&Editing> {
        self.editing.as_ref()
    }

    /// The message over the bench.
    #[must_use]
    pub const fn message(&self) -> Option<&Message> {
        self.message.as_ref()
    }

    /// The theme.
    #[must_use]
    pub const fn theme(&self) -> Theme {
        self.theme
    }

    /// Which results labels show.
    #[must_use]
    pub const fn labels(&self) -> Shown {
        self.labels
    }

    /// Units in which numbers are shown.
    #[must_use]
    pub const fn units(&self) -> Units {
        self.units
    }

    /// Whether answers are hidden.
    #[must_use]
    pub const fn hides_answers(&self) -> bool {
        self.hide_answers
    }

    /// Whether there is something to undo, and what: `Undo delete g1`.
    #[must_use]
    pub fn undo_name(&self) -> Option<String> {
        let replaced = || (!self.before.is_empty()).then(|| "Back to the layout before".to_owned());
        self.document
            .undo_name()
            .map(|name| format!("Undo {name}"))
            .or_else(replaced)
    }

    /// Whether there is something to redo, and what.
    #[must_use]
    pub fn redo_name(&self) -> Option<String> {
        let replaced = || (!self.after.is_empty()).then(|| "On to the layout after".to_owned());
        self.document
            .redo_name()
            .map(|name| format!("Redo {name}"))
            .or_else(replaced)
    }

    /// The drawing. Cached: asking twice costs nothing.
    #[must_use]
    pub fn scene(&self) -> Rc<Scene> {
        let drawn = self.scene.borrow().clone();
        let drawn = drawn.unwrap_or_else(|| {
            let fresh = self.draw();
            self.scene.replace(Some(fresh.clone()));
            fresh
        });
        self.under_overlay(self.at_playhead(drawn))
    }

    fn draw(&self) -> Rc<Scene> {
        let run = self.reports_of_run();
        let made_of = MadeOf {
            layout: self.shown.clone(),
            report: self.report().clone(),
            position: self.position.clone(),
            shown: self.labels.at_zoom(self.view.zoom),
            of_run: run.is_some(),
            hides_answers: self.hide_answers,
            units: self.units,
        };
        let before = self.drawn.borrow_mut().take();
        let holds = before
            .as_ref()
            .map_or(Holds::Nothing, |(_, before)| self.holds(before, &made_of));
        let scene = Rc::new(scene(FlowInput {
            layout: &self.shown,
            positions: run.as_ref().unwrap_or(&self.report().positions),
            drive: self.report().drive.as_ref(),
            position: &self.position,
            selected: &self.selection,
            lit: &self.lit,
            shown: made_of.shown,
            hide_answers: self.hide_answers,
            units: self.units,
            before: before.as_ref().map(|(scene, _)| &**scene),
            holds,
        }));
        self.keep_base(before.as_ref().map(|(scene, _)| scene), &scene);
        self.drawn.replace(Some((scene.clone(), made_of)));
        scene
    }

    /// What stays as it is beside what moves: labels while something is typed, everything else while something is dragged
    /// and where only what is selected or lit up has changed.
    fn holds(&self, before: &MadeOf, now: &MadeOf) -> Holds {
        let same_report = Rc::ptr_eq(&before.report, &now.report);
        let same_layout = Rc::ptr_eq(&before.layout, &now.layout);
        let same_words = (before.shown, &before.position, before.hides_answers)
            == (now.shown, &now.position, now.hides_answers)
            && before.units == now.units
            && !before.of_run
            && !now.of_run;
        // What is folded or opened leaves wires of others other ends.
        let same_groups = same_layout || now.layout.groups == before.layout.groups;
        if same_words && same_report && same_groups && (same_layout || self.moving.is_some()) {
            Holds::All
        } else if same_words && (same_layout || self.moving.is_some() || self.editing.is_some()) {
            Holds::Places
        } else {
            Holds::Nothing
        }
    }

    /// All findings in words, the most important first.
    pub(super) fn words(&self) -> Vec<Words> {
        let errors = self
            .computed
            .errors()
            .iter()
            .map(|error| wording::report_error(error, &self.shown));
        let findings = self
            .report()
            .findings
            .iter()
            .map(|finding| wording::finding(finding, &self.shown, self.report(), self.units));
        errors.chain(findings).collect()
    }

    /// The most important finding, or a plain result.
    #[must_use]
    pub fn headline(&self) -> Words {
        if self.hide_answers {
            return wording::question(&self.shown, self.report(), &self.position);
        }
        wording::headline(
            &self.shown,
            self.report(),
            &self.position,
            &self.words(),
            self.units,
        )
    }

    /// The other findings, most important first; those of other positions than the one shown come last.
    #[must_use]
    pub fn findings(&self) -> Vec<Words> {
        if self.hide_answers {
            return Vec::new();
        }
        let headline = self.headline();
        let mut others = self.words();
        others.retain(|words| *words != headline);
        others.sort_by_key(|words| {
            words
                .position
                .as_ref()
                .is_some_and(|position| *position != self.position)
        });
        others.sort_by_key(|words| words.severity > Severity::Warning);
        others
    }

    /// The title block.
    #[must_use]
    pub fn title_block(&self) -> TitleBlock {
        title_block(
            &self.shown,
            self.report(),
            &self.position,
            self.hide_answers,
            self.units,
        )
    }

    /// Fields and results of what is selected; of the layout where nothing is.
    #[must_use]
    pub fn details(&self) -> Option<Details> {
        let input = DetailsInput {
            layout: &self.shown,
            position: self.position_report(),
            editing: self.editing.as_ref(),
            hide_answers: self.hide_answers,
            units: self.units,
        };
        let details = details(input, self.selection.last().unwrap_or(&Target::Layout))?;
        if self.drawing == crate::drawings::Drawing::Plan {
            return Some(self.with_plan_fields(input, details));
        }
        Some(details)
    }

    /// The working of the shaft it was asked for, else of the output; none where nothing settles its speed.
    #[must_use]
    pub fn working(&self) -> Option<WorkingSheet> {
        let asked = self.working_shaft.as_ref().or_else(|| output_shaft(&self.shown));
        let shaft = asked.or_else(|| self.shown.shafts.last().map(|shaft| &shaft.id))?;
        let working = layshaft_report::working(&self.shown, &self.position, shaft)?;
        Some(sheet(
            &self.shown,
            &working,
            &self.position_name(),
            self.hide_answers,
            &self.revealed,
        ))
    }
}
