//! From a layout to everything computed about it, per shift position, with findings as typed evidence.
//!
//! The page and the command line both call [`report`], so they can't disagree. Words for people are added by
//! `editor::wording`; the JSON that the command line prints is made in `cli`.

mod compare;
mod derive;
mod elements;
mod finding;
mod findings;
mod position;
mod probe;
mod range;
mod result;
mod run;
mod run_result;
mod shafts;
mod stall;
mod switching;
mod vehicle;
mod working;

pub use derive::working;
pub use finding::{Finding, FindingKind};
pub use layshaft_motion::{Energy as RunEnergy, Failure as RunFailure, Sample as RunSample};
pub use layshaft_powerflow::materials::{MaterialPair, Standing};
pub use probe::{probe, probe_position};
pub use result::*;
pub use run::{RunAim, RunRequest, run_layout};
pub use run_result::{LayoutRun, RunEnd, RunEvent, RunEventKind, RunProblem};
pub use working::*;

use std::rc::Rc;

use layshaft_layout::lower::{self, LiftSenses};
use layshaft_layout::{ElementKind, Id, Layout, Position};
use layshaft_powerflow::crowded_source;

/// A layout that can be read but not computed, with the place in the file.
#[derive(Clone, Debug, PartialEq)]
pub struct ReportError {
    /// Path into the file, such as `elements[3].shaft`.
    pub path: String,
    /// What is wrong.
    pub problem: ReportProblem,
}

/// What is wrong with a layout that can be read but not computed.
#[derive(Clone, Debug, PartialEq)]
pub enum ReportProblem {
    /// In this position more sources than freedoms meet on one train.
    TooManySources {
        /// The position.
        position: Id,
        /// The source that leaves no room.
        source: Id,
    },
}

/// Which parts of a position's report are computed, beside motion, flow and the pull that keeps moving.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Parts {
    /// The pull to start, friction being that of surfaces at rest.
    pub start: bool,
    /// Whether what pulls is held with the motor off.
    pub holding: bool,
    /// Circulating power.
    pub loops: bool,
    /// How far parallel paths may share otherwise.
    pub shares: bool,
    /// Other consistent states, which can take a hundred times as long as all else.
    pub others: bool,
    /// Results per shaft.
    pub shafts: bool,
    /// Results per element beyond ports and loss.
    pub elements: bool,
    /// A vehicle's speed on level ground.
    pub top_speed: bool,
    /// Findings.
    pub findings: bool,
}

impl Parts {
    /// No more than motion, flow and pull, told of every shaft and element.
    pub const LEAST: Self = Self {
        start: false,
        holding: false,
        loops: false,
        shares: false,
        others: false,
        shafts: true,
        elements: true,
        top_speed: true,
        findings: false,
    };
    /// All but the other states.
    pub const USUAL: Self = Self {
        start: true,
        holding: true,
        loops: true,
        shares: true,
        others: false,
        shafts: true,
        elements: true,
        top_speed: true,
        findings: true,
    };
}

/// Computes everything about a layout but the other states in which it could stand.
///
/// # Errors
/// All of [`ReportProblem`], each with its path.
pub fn report(layout: &Layout) -> Result<Report, Vec<ReportError>> {
    compute(layout, Parts::USUAL)
}

/// As [`report`], with the other consistent states of joints that can let go: too slow for a drawing that follows every
/// key.
///
/// # Errors
/// As [`report`].
pub fn report_with_other_states(layout: &Layout) -> Result<Report, Vec<ReportError>> {
    compute(
        layout,
        Parts {
            others: true,
            ..Parts::USUAL
        },
    )
}

fn compute(layout: &Layout, parts: Parts) -> Result<Report, Vec<ReportError>> {
    let positions = layout.effective_positions();
    let senses = senses_of(layout, &positions);
    let lowered: Vec<lower::Lowered> = positions
        .iter()
        .map(|position| lower::lower(layout, position, &senses))
        .collect();
    let errors: Vec<ReportError> = positions
        .iter()
        .zip(&lowered)
        .filter_map(|(position, lowered)| too_many_sources(layout, position, lowered))
        .collect();
    if !errors.is_empty() {
        return Err(errors);
    }
    let reports: Vec<PositionReport> = positions
        .iter()
        .zip(&lowered)
        .map(|(position, lowered)| {
            let ends = range::ends(layout, position, &senses);
            position::position_report(layout, position, lowered, ends.as_ref(), parts)
        })
        .collect();
    let shifting = switching::switches(layout, &positions, &lowered);
    Ok(compare::complete(layout, reports, shifting))
}

/// Computes one position alone, without comparing it with the others; `None` where there is no such position.
#[must_use]
pub fn report_position(layout: &Layout, position: &Id) -> Option<Rc<PositionReport>> {
    let positions = layout.effective_positions();
    let senses = senses_of(layout, &positions);
    let position = positions.iter().find(|other| other.id == *position)?;
    Some(Rc::new(position::position_report(
        layout,
        position,
        &lower::lower(layout, position, &senses),
        range::ends(layout, position, &senses).as_ref(),
        Parts::USUAL,
    )))
}

fn senses_of(layout: &Layout, positions: &[Position]) -> LiftSenses {
    LiftSenses::of(
        layout,
        positions
            .first()
            .expect("a layout has at least its implied position"),
    )
}

fn too_many_sources(layout: &Layout, position: &Position, lowered: &lower::Lowered) -> Option<ReportError> {
    let crowded = crowded_source(&lowered.model)?;
    let at = lowered
        .parts
        .iter()
        .position(|part| *part == lower::Part::Source(crowded))?;
    Some(ReportError {
        path: format!("elements[{at}].shaft"),
        problem: ReportProblem::TooManySources {
            position: position.id.clone(),
            source: layout.elements[at].id.clone(),
        },
    })
}

/// Whether an element is a motor or crank.
fn is_source(kind: &ElementKind) -> bool {
    matches!(kind, ElementKind::Motor(_) | ElementKind::Crank(_))
}
