//! Words for people: from findings, errors and states to plain sentences that name things and say what to do.
//!
//! One function leads from a typed finding to its words; the groups of findings have a file each.

mod cautions;
mod choosing_compare;
pub(crate) mod choosing_gears;
pub(crate) mod choosing_influence;
pub(crate) mod choosing_sweep;
mod choosing_two_speeds;
mod choosing_two_speeds_found;
mod choosing_work;
mod drives;
mod errors;
mod flow;
mod gears;
mod hands;
mod headline;
mod losses;
mod motion;
pub(crate) mod motor_map;
pub(crate) mod pictures;
pub mod plan;
mod reach;
mod reworking;
mod run_sheet;
mod runs;
pub(crate) mod shelf;
mod states;
mod theme;

pub use cautions::{cautions_for, general_caution};
pub(crate) use choosing_compare::{
    BENCH, DifferenceWords, FROM_BENCH, FROM_KEPT, before_change, bench_before, compare_hint,
    compare_verdict, difference_words, paired_by_gear, range_problem, strongest_words, unreadable_variant,
    usual_end,
};
pub(crate) use choosing_two_speeds::{
    arrangement_in_title, arrangement_name, arrangement_works, catches, gain_words, holds_words, parts_words,
    shift_words,
};
pub(crate) use choosing_two_speeds_found::{
    LEFT_OUT, Lead, exact_words, group_note, group_title, lead_words, low_and_high_words, ratio_words,
    sized_by_words, why_not_words,
};
pub use choosing_work::{work_broke_off, work_stopped};
pub use errors::report_error;
pub(crate) use hands::*;
pub use headline::{headline, question};
pub use losses::{bearing_words, loss_words, standing_words};
pub use reach::{range_words, reach_words, shifting_words};
pub use reworking::rework_needs;
pub use run_sheet::{run_announcement, run_hint, run_intent};
pub use runs::{run_end, run_event, run_problem};
pub use shelf::code_too_long;
pub use states::{duration, limit_words, mode_words, state_words};
pub use theme::theme;

use layshaft_layout::{Command, Id, Layout};
use layshaft_report::{Finding, FindingKind, Report};

use crate::parts;
use crate::session::Input;
use crate::target::Target;
use crate::units::Units;

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The layout cannot do its job like this.
    Fault,
    /// It works, but not as one would expect.
    Warning,
    /// Good to know.
    Note,
    /// A plain result.
    Result,
}

impl Severity {
    /// Its name, since a colour or a sign alone says nothing.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fault => "Fault",
            Self::Warning => "Warning",
            Self::Note => "Note",
            Self::Result => "Result",
        }
    }
}

/// A finding in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// How much it matters.
    pub severity: Severity,
    /// One sentence, as a figure's caption would say it; no full stop.
    pub headline: String,
    /// One or two sentences: the evidence, and what to try.
    pub detail: String,
    /// What it speaks of; pressing the finding selects these.
    pub places: Vec<Target>,
    /// The position it speaks of.
    pub position: Option<Id>,
    /// One change that would mend it, where there is one.
    pub repair: Option<Repair>,
    /// Cautions that belong to it.
    pub cautions: Vec<&'static str>,
}

/// What to do on an empty bench where the tray is folded away and there are fingers.
pub const EMPTY_ON_PHONE: &str = "Press Parts below, take one, and tap here.";

/// A detail of so many characters still takes no more than two lines of a phone.
const SHORT_DETAIL: usize = 110;

impl Words {
    /// Whether the detail is so long that a phone folds it away.
    #[must_use]
    pub fn is_long(&self) -> bool {
        self.detail.chars().count() > SHORT_DETAIL
    }

    fn new(severity: Severity, headline: impl Into<String>, detail: impl Into<String>) -> Self {
        Self {
            severity,
            headline: headline.into(),
            detail: detail.into(),
            places: Vec::new(),
            position: None,
            repair: None,
            cautions: Vec::new(),
        }
    }

    fn at_elements<'a>(mut self, ids: impl IntoIterator<Item = &'a Id>) -> Self {
        self.places
            .extend(ids.into_iter().map(|id| Target::Element(id.clone())));
        self
    }

    fn at_shafts<'a>(mut self, ids: impl IntoIterator<Item = &'a Id>) -> Self {
        self.places
            .extend(ids.into_iter().map(|id| Target::Shaft(id.clone())));
        self
    }

    fn with_repair(mut self, label: impl Into<String>, input: Input) -> Self {
        self.repair = Some(Repair {
            label: label.into(),
            input: Box::new(input),
        });
        self
    }

    /// A change of the layout as one step of undo.
    fn with_command(self, label: impl Into<String>, name: &str, command: Command) -> Self {
        let name = name.to_owned();
        let command = Box::new(command);
        self.with_repair(label, Input::Change { command, name })
    }

    fn with_caution(mut self, caution: &'static str) -> Self {
        self.cautions.push(caution);
        self
    }
}

/// A change offered by a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Repair {
    /// What the button says.
    pub label: String,
    /// What to hand to the session when it is pressed.
    pub input: Box<Input>,
}

/// A finding in words.
#[must_use]
pub fn finding(finding: &Finding, layout: &Layout, report: &Report, units: Units) -> Words {
    let context = Context {
        layout,
        report,
        units,
        position: finding.position.as_ref(),
    };
    let mut words = of_kind(&finding.kind, context);
    words.position = finding.position.clone().or(words.position);
    words.places.dedup();
    words
}

fn of_kind(kind: &FindingKind, at: Context<'_>) -> Words {
    match kind {
        FindingKind::LowerPullsLess {
            lower,
            higher,
            pull_ratio,
            culprit,
        } => flow::lower_pulls_less(at, lower, higher, *pull_ratio, culprit.as_ref()),
        FindingKind::JammedLoop { elements, product } => motion::jammed_loop(at, elements, product.as_ref()),
        FindingKind::JammedBrakes { elements } => motion::jammed_brakes(at, elements),
        FindingKind::Undetermined { shafts, elements } => motion::undetermined(at, shafts, elements),
        FindingKind::FreeShafts { shafts } => motion::free_shafts(at, shafts),
        FindingKind::Unreached { shafts } => motion::unreached(shafts),
        FindingKind::RedundantLoop { elements, shares } => motion::redundant_loop(at, elements, shares),
        FindingKind::Ambiguous {
            elements,
            lowest,
            highest,
        } => flow::ambiguous(at, elements, *lowest, *highest),
        FindingKind::SelfLocking {
            elements,
            by_own_friction,
        } => flow::self_locking(at, elements, *by_own_friction),
        FindingKind::HeldByFriction { element, shaft } => flow::held_by_friction(at, element, shaft),
        FindingKind::Stalled {
            element,
            needed,
            available,
        } => flow::stalled(at, element, *needed, *available),
        FindingKind::LetsGo { elements, needed } => flow::lets_go(at, elements, *needed),
        FindingKind::Slips {
            element,
            limit,
            needed,
            heat,
        } => flow::slips(at, element, *limit, *needed, *heat),
        FindingKind::StandsByFriction { element } => drives::stands_by_friction(at, element),
        FindingKind::OtherStates { states } => flow::other_states(at, states),
        FindingKind::TractionBeforeTorque {
            element,
            traction,
            torque,
            slope,
        } => drives::traction_before_torque(at, element, *traction, *torque, *slope),
        FindingKind::TorqueBeforeTraction {
            element,
            torque,
            traction,
        } => drives::torque_before_traction(at, element, *torque, *traction),
        FindingKind::Tips {
            element,
            slope,
            tipping,
        } => drives::tips(element, *slope, *tipping),
        FindingKind::BackDrives {
            element,
            needed,
            available,
        } => drives::back_drives(at, element, *needed, *available),
        FindingKind::Overheats { element, heat, limit } => drives::overheats(at, element, *heat, *limit),
        FindingKind::PastBestEfficiency {
            element,
            torque,
            best,
            best_efficiency,
        } => drives::past_best(at, element, *torque, *best, *best_efficiency),
        FindingKind::Hunting {
            element,
            from,
            to,
            loads,
            unit,
        } => drives::hunting(at, element, [from, to], *loads, *unit),
        FindingKind::ShiftsAndStalls {
            element,
            from,
            to,
            loads,
            unit,
        } => drives::shifts_and_stalls(at, element, [from, to], *loads, *unit),
        FindingKind::TeethOverloaded {
            element,
            torque,
            limit,
            measured,
        } => gears::teeth_overloaded(at, element, *torque, *limit, *measured),
        FindingKind::PlanetAssembly {
            element,
            count,
            teeth,
            fits,
        } => gears::planet_assembly(element, *count, *teeth, *fits),
        FindingKind::PlanetsCollide { element, count, fits } => {
            gears::planets_collide(element, *count, *fits)
        }
        FindingKind::CentreDistance {
            element,
            shaft,
            found,
            wanted,
            axis_mm,
        } => gears::centre_distance(at, element, shaft, [*found, *wanted], *axis_mm),
        FindingKind::FrictionRange { pair, elements } => gears::friction_range(at, pair, elements),
        FindingKind::CirculatingPower {
            elements,
            power,
            times_output,
        } => flow::circulating(elements, *power, *times_output),
        FindingKind::FedFromBothEnds { element, loss } => flow::fed_from_both_ends(at, element, *loss),
        FindingKind::Overhauling { element, power } => flow::overhauling(at, element, *power),
        FindingKind::MainLoss {
            element,
            share,
            of_input,
        } => flow::main_loss(at, element, *share, *of_input),
        FindingKind::NoLossGiven { elements } => flow::no_loss_given(at, elements),
        FindingKind::SheetMakesEnergy { element } => flow::sheet_makes_energy(element),
        FindingKind::Undercut { element } => flow::undercut(element),
        FindingKind::NotProven { elements } => flow::not_proven(elements),
    }
}

/// What sentences look names up in.
#[derive(Clone, Copy)]
struct Context<'a> {
    layout: &'a Layout,
    report: &'a Report,
    position: Option<&'a Id>,
    /// Units in which numbers are told.
    units: Units,
}

impl Context<'_> {
    /// The name of a position for people.
    fn position_name(self, id: &Id) -> String {
        let report = self.report.positions.iter().find(|report| report.id == *id);
        report.map_or_else(|| id.to_string(), |report| report.name.clone())
    }

    /// `gear mesh g1`.
    fn element(self, id: &Id) -> String {
        parts::element_name(self.layout, id)
    }

    fn has_several_positions(self) -> bool {
        self.report.positions.len() > 1
    }

    /// ` in First`, where there is more than one position.
    fn in_position(self) -> String {
        match self.position.filter(|_| self.has_several_positions()) {
            Some(position) => format!(" in {}", self.position_name(position)),
            None => String::new(),
        }
    }
}

/// Ids as a sentence lists them: `a, b and c`; long lists are cut.
fn list(ids: &[Id]) -> String {
    const LONGEST: usize = 6;
    let mut names: Vec<String> = ids.iter().take(LONGEST).map(ToString::to_string).collect();
    if ids.len() > LONGEST {
        names.push(format!("{} more", ids.len() - LONGEST));
    }
    parts::list(&names)
}

/// The sentence's first letter large.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// `one` where there is one, else `several`.
const fn number<'a>(count: usize, one: &'a str, several: &'a str) -> &'a str {
    if count == 1 { one } else { several }
}

#[cfg(test)]
mod tests;
