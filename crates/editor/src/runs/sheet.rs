//! The run sheet as the page shows it: what can be asked, what came of it, where the playhead is.

use std::rc::Rc;

use layshaft_layout::{ElementKind, Id, Layout};

use super::course::{self, StretchRow};
use super::plots::PlotSheet;
use super::profile::{Profile, profile};
use super::result::RunResult;
use super::series::{Along, Quantity, Track};
use super::setup::{RunEntry, RunField};
use super::table::NumbersTable;
use super::{Moment, PACES, Playback, Runs, measures};
use crate::geometry::Point;
use crate::numbers::Measure;
use crate::parts;
use crate::units::Units;
use crate::wording;

/// What a run of this layout is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A vehicle drives a course.
    Vehicle,
    /// A winch lifts.
    Winch,
    /// Nothing travels: shafts run up.
    Shafts,
}

/// The run sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct RunSheet {
    /// What it is about.
    pub subject: Subject,
    /// What a run does as things stand, as a sentence; or what to do first.
    pub intent: String,
    /// The course's stretches.
    pub course: Vec<StretchRow>,
    /// The course from the side.
    pub profile: Option<Profile>,
    /// Further fields.
    pub settings: Vec<RunEntry>,
    /// Positions to start in, where there are several; the one chosen.
    pub positions: Vec<(Id, String, bool)>,
    /// Why it can't be run, as a sentence.
    pub fault: Option<String>,
    /// What came of the last run.
    pub result: Option<Rc<RunResult>>,
    /// Its plots.
    pub plots: Option<Rc<PlotSheet>>,
    /// Its numbers.
    pub table: Option<Rc<NumbersTable>>,
    /// The playhead.
    pub playhead: Option<Playhead>,
    /// The last run is of something else than what is asked for now.
    pub stale: bool,
    /// A run is being carried out.
    pub waiting: bool,
    /// What lies along the plots.
    pub along: Along,
    /// Whether there is a way to plot over.
    pub has_way: bool,
    /// Nothing is to move by itself.
    pub still: bool,
    /// Answers are hidden, and so are results.
    pub hides_answers: bool,
}

/// The playhead with what stands there.
#[derive(Clone, Debug, PartialEq)]
pub struct Playhead {
    /// Where it is and whether it moves.
    pub playback: Playback,
    /// Time of the last sample.
    pub end: f64,
    /// Its place along the plots.
    pub x: f64,
    /// A dot on the main line of each plot, and the value there.
    pub dots: Vec<(Point, String)>,
    /// Its place on the course.
    pub on_profile: Option<Point>,
    /// All values with their names.
    pub values: Vec<(&'static str, Measure)>,
    /// Name of the shift position, where there are several.
    pub position: Option<String>,
    /// What a screen reader says.
    pub spoken: String,
    /// Paces to choose from, as texts.
    pub paces: Vec<(f64, String)>,
}

/// What a run of this layout is about.
pub(crate) fn subject(layout: &Layout) -> (Subject, Option<Id>) {
    let find = |wanted: fn(&ElementKind) -> bool| {
        let found = layout.elements.iter().find(|element| wanted(&element.kind));
        found.map(|element| element.id.clone())
    };
    let vehicle = find(|kind| matches!(kind, ElementKind::Vehicle(_)));
    let winch = find(|kind| matches!(kind, ElementKind::Winch(_)));
    match (vehicle, winch) {
        (Some(id), _) => (Subject::Vehicle, Some(id)),
        (None, Some(id)) => (Subject::Winch, Some(id)),
        (None, None) => (Subject::Shafts, None),
    }
}

impl Runs {
    /// The sheet for the layout as shown.
    pub(crate) fn sheet(&self, layout: &Layout, stale: bool, hides_answers: bool) -> RunSheet {
        let (subject, of) = subject(layout);
        let profile = match subject {
            Subject::Vehicle => profile(&layout.course, self.room()),
            _ => None,
        };
        let fault = self.outcome.as_ref().filter(|_| !stale);
        let fault = fault.and_then(|outcome| outcome.result.as_ref().err());
        let shown = !hides_answers;
        RunSheet {
            intent: wording::run_intent(&subject, of.as_ref(), layout, self.setup.lift),
            course: match subject {
                Subject::Vehicle => course::rows(&layout.course, self.typing.as_ref()),
                _ => Vec::new(),
            },
            settings: self.settings(&subject),
            positions: self.positions(layout),
            fault: fault.map(|problem| wording::run_problem(problem, layout)),
            result: self.result.clone().filter(|_| shown),
            plots: self.plots.clone().filter(|_| shown),
            table: self.table.clone().filter(|_| shown),
            playhead: self.playhead(profile.as_ref()).filter(|_| shown),
            stale,
            waiting: self.waiting,
            along: self.plots.as_ref().map_or(self.along, |plots| plots.along),
            has_way: self.track.as_ref().is_some_and(|track| track.has_way()),
            still: self.still,
            hides_answers,
            subject,
            profile,
        }
    }

    fn settings(&self, subject: &Subject) -> Vec<RunEntry> {
        let setup = &self.setup;
        let lift = (
            RunField::Lift,
            "Lift by",
            setup.lift,
            "Negative lowers. Empty: until the time is up",
        );
        let (speed, speed_hint) = match subject {
            Subject::Vehicle => ("Speed at the start", "Empty: from rest"),
            Subject::Winch => ("Rope speed at the start", "Empty: from rest"),
            Subject::Shafts => ("", ""),
        };
        let from = (RunField::FromSpeed, speed, setup.from_speed, speed_hint);
        let limit = (
            RunField::Limit,
            "Time limit",
            setup.limit,
            "Empty: 60 s, or until it rests",
        );
        let fields = match subject {
            Subject::Vehicle => vec![from, limit],
            Subject::Winch => vec![lift, from, limit],
            Subject::Shafts => vec![limit],
        };
        fields
            .into_iter()
            .map(|(field, label, value, hint)| self.entry(field, label, value, hint))
            .collect()
    }

    fn entry(&self, field: RunField, label: &str, value: Option<f64>, hint: &'static str) -> RunEntry {
        let typed = self.typing.as_ref().filter(|typing| typing.field == field);
        RunEntry {
            field,
            label: label.to_owned(),
            unit: field.unit(),
            text: typed.map_or_else(|| RunField::write(value), |typing| typing.text.clone()),
            problem: typed.and_then(|typing| typing.problem.clone()),
            hint,
        }
    }

    fn positions(&self, layout: &Layout) -> Vec<(Id, String, bool)> {
        let positions = layout.effective_positions();
        if positions.len() < 2 {
            return Vec::new();
        }
        let chosen = positions
            .iter()
            .position(|position| Some(&position.id) == self.setup.position.as_ref())
            .unwrap_or(0);
        let told = positions.into_iter().enumerate();
        told.map(|(number, position)| (position.id, position.name, number == chosen))
            .collect()
    }

    fn playhead(&self, profile: Option<&Profile>) -> Option<Playhead> {
        let (track, plots, moment) = (self.track.as_ref()?, self.plots.as_ref()?, self.moment()?);
        let way = moment.value(Quantity::Way);
        let x = plots.at(moment.time, way.unwrap_or(0.0));
        let dots = plots.plots.iter().filter_map(|plot| {
            let value = moment.value(plot.main)?;
            Some((
                Point::new(x, plot.height(value)),
                plot.main.measure(value, self.units).text(),
            ))
        });
        let several = track.run.positions.len() > 1;
        let position = several.then(|| track.position_name(moment.position).to_owned());
        let values = values(track, &moment, self.units);
        Some(Playhead {
            playback: self.playback,
            end: track.end(),
            x,
            dots: dots.collect(),
            on_profile: profile.and_then(|profile| profile.at(way?)),
            spoken: spoken(&values, position.as_deref()),
            values,
            position,
            paces: PACES.into_iter().map(|pace| (pace, format!("×{pace}"))).collect(),
        })
    }
}

impl Moment {
    pub(crate) fn value(&self, quantity: Quantity) -> Option<f64> {
        let place = Quantity::ALL.iter().position(|other| *other == quantity)?;
        self.values[place]
    }
}

fn values(track: &Track, moment: &Moment, units: Units) -> Vec<(&'static str, Measure)> {
    let time = ("Time", measures::seconds(moment.time));
    let others = Quantity::ALL.into_iter().filter_map(|quantity| {
        let value = moment.value(quantity)?;
        Some((quantity.name(track), quantity.measure(value, units)))
    });
    std::iter::once(time).chain(others).collect()
}

fn spoken(values: &[(&'static str, Measure)], position: Option<&str>) -> String {
    let mut said: Vec<String> = values
        .iter()
        .map(|(name, value)| format!("{} {}", name.to_lowercase(), value.spoken()))
        .collect();
    said.extend(position.map(|position| format!("position {position}")));
    said.join(", ")
}

/// The name of what a run is about: `vehicle cart`.
pub(crate) fn subject_name(of: Option<&Id>, layout: &Layout) -> String {
    of.map_or_else(String::new, |id| parts::element_name(layout, id))
}
