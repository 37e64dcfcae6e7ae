//! What only shows when positions are seen beside one another, and the layout's findings as a whole.

use std::rc::Rc;

use num_traits::{Signed, ToPrimitive, Zero};

use layshaft_layout::lower::drive_shaft;
use layshaft_layout::{ElementKind, Id, Layout};

use crate::finding::{Finding, FindingKind};
use crate::findings::importance;
use crate::is_source;
use crate::result::{PositionReport, Report, Shifting, State};

/// A position geared lower is said to pull less when it does so by more than this.
const NOTABLE: f64 = 0.01;

/// Adds the comparison of positions and gathers all findings.
pub(crate) fn complete(
    layout: &Layout,
    mut positions: Vec<PositionReport>,
    shifting: Vec<Shifting>,
) -> Report {
    for finding in lower_pulls_less(layout, &positions) {
        let FindingKind::LowerPullsLess { lower, .. } = &finding.kind else {
            continue;
        };
        if let Some(position) = positions.iter_mut().find(|position| position.id == *lower) {
            position.findings.push(finding.clone());
            position.findings.sort_by_key(|finding| importance(&finding.kind));
        }
    }
    for finding in shifting.iter().flat_map(from_shifting) {
        if let Some(position) = positions
            .iter_mut()
            .find(|position| Some(&position.id) == finding.position.as_ref())
        {
            position.findings.push(finding);
            position.findings.sort_by_key(|finding| importance(&finding.kind));
        }
    }
    let findings = gather(&positions);
    Report {
        shifting,
        drive: drive_shaft(layout).cloned(),
        positions: positions.into_iter().map(Rc::new).collect(),
        findings,
    }
}

/// What a torque switch does that it should not, in the position it shifts up from.
fn from_shifting(shifts: &Shifting) -> Vec<Finding> {
    let hunting = shifts.hunting.map(|loads| FindingKind::Hunting {
        element: shifts.switch.clone(),
        from: shifts.from.clone(),
        to: shifts.to.clone(),
        loads,
        unit: shifts.unit,
    });
    let stalls = shifts.stalls.map(|loads| FindingKind::ShiftsAndStalls {
        element: shifts.switch.clone(),
        from: shifts.from.clone(),
        to: shifts.to.clone(),
        loads,
        unit: shifts.unit,
    });
    let found = |kind| Finding {
        position: Some(shifts.from.clone()),
        kind,
    };
    hunting.into_iter().chain(stalls).map(found).collect()
}

/// All findings, each once: one that every position shares speaks of the layout.
fn gather(positions: &[PositionReport]) -> Vec<Finding> {
    let mut all: Vec<Finding> = Vec::new();
    for finding in positions.iter().flat_map(|position| &position.findings) {
        let everywhere = positions.len() > 1
            && positions
                .iter()
                .all(|position| position.findings.iter().any(|other| other.kind == finding.kind));
        let finding = if everywhere {
            Finding {
                position: None,
                ..finding.clone()
            }
        } else {
            finding.clone()
        };
        if !all.contains(&finding) {
            all.push(finding);
        }
    }
    all.sort_by_key(|finding| importance(&finding.kind));
    all
}

/// How a position is geared and what it pulls.
struct Pull<'a> {
    report: &'a PositionReport,
    ratio: f64,
    pull: f64,
}

fn lower_pulls_less(layout: &Layout, positions: &[PositionReport]) -> Vec<Finding> {
    let Some(load) = layout.elements.iter().find(|element| is_load(&element.kind)) else {
        return Vec::new();
    };
    let Some((_, shaft)) = load
        .ports()
        .into_iter()
        .next()
        .map(|(role, id)| (role, id.clone()))
    else {
        return Vec::new();
    };
    let pulls: Vec<Pull<'_>> = positions
        .iter()
        .filter_map(|report| pull_of(layout, report, &load.id, &shaft))
        .collect();
    let worst = |lower: &Pull<'_>| {
        pulls
            .iter()
            .filter(|higher| higher.ratio > lower.ratio * (1.0 + 1e-12) && higher.pull > 0.0)
            .map(|higher| (higher, lower.pull / higher.pull))
            .filter(|(_, share)| *share < 1.0 - NOTABLE)
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(higher, share)| Finding {
                position: Some(lower.report.id.clone()),
                kind: FindingKind::LowerPullsLess {
                    lower: lower.report.id.clone(),
                    higher: higher.report.id.clone(),
                    pull_ratio: share,
                    culprit: culprit(lower.report),
                },
            })
    };
    pulls.iter().filter_map(worst).collect()
}

fn is_load(kind: &ElementKind) -> bool {
    matches!(
        kind,
        ElementKind::Load(_) | ElementKind::Winch(_) | ElementKind::Vehicle(_)
    )
}

fn pull_of<'a>(layout: &Layout, report: &'a PositionReport, load: &Id, shaft: &Id) -> Option<Pull<'a>> {
    let result = report.shafts.iter().find(|result| result.id == *shaft)?;
    let ratio = result
        .ratio
        .as_ref()
        .filter(|ratio| !ratio.is_zero())?
        .abs()
        .to_f64()?;
    let pull = match (&report.stall, report.state) {
        (Some(stall), _) => stall.torque.to_newton_metres(),
        (None, State::SelfLocking) => 0.0,
        (None, _) => torque_gain(layout, report, load)?,
    };
    Some(Pull { report, ratio, pull })
}

/// Torque at the load over torque of the only source: what a crank without a limit is judged by.
fn torque_gain(layout: &Layout, report: &PositionReport, load: &Id) -> Option<f64> {
    let torque = |id: &Id| {
        let element = report.elements.iter().find(|element| element.id == *id)?;
        element
            .ports
            .first()
            .map(|port| port.torque.abs().to_newton_metres())
    };
    let mut sources = layout.elements.iter().filter(|element| is_source(&element.kind));
    let source = sources.next().filter(|_| sources.next().is_none())?;
    let gain = torque(load)? / torque(&source.id)?;
    gain.is_finite().then_some(gain)
}

/// The element that loses most, with its share of the drive's power.
fn culprit(report: &PositionReport) -> Option<(Id, f64)> {
    let input = report.input_power?.to_watts();
    report
        .elements
        .iter()
        .filter_map(|element| Some((element.id.clone(), element.loss?.to_watts() / input)))
        .filter(|(_, share)| share.is_finite() && *share > 0.0)
        .max_by(|a, b| a.1.total_cmp(&b.1))
}
