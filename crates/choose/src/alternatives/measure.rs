//! What a layout does in its low and its high gear: solved at its present load, and again near the largest pull of each.

use layshaft_layout::{ElementKind, Id, Layout, WinchLoad};
use layshaft_report::{Parts, PositionReport, Stall, State, probe};
use num_traits::{Signed, ToPrimitive};

use super::Gear;
use super::ends::{Ends, ratio_in};

/// Share of the largest pull at which losses and brakes are looked at.
const NEAR: f64 = 0.999;

/// Gears of a layout with a ratio between source and load, in document order.
pub fn gears(layout: &Layout, ends: &EndIds) -> Vec<Gear> {
    let parts = Parts {
        holding: true,
        loops: true,
        ..Parts::LEAST
    };
    let reports = probe(layout, parts, &|_| {}).unwrap_or_default();
    reports
        .iter()
        .enumerate()
        .filter_map(|(number, report)| gear(layout, ends, number, report))
        .collect()
}

/// The gear with the lowest ratio and, where there is another, the one with the highest.
pub fn low_and_high(layout: &Layout, ends: &EndIds) -> Vec<Gear> {
    let mut all = gears(layout, ends);
    all.sort_by(|one, other| one.ratio.total_cmp(&other.ratio));
    let middle = 1..all.len().saturating_sub(1).max(1);
    if all.len() > 2 {
        all.drain(middle);
    }
    if let [low, high] = &all[..]
        && high.exact == low.exact
    {
        all.pop();
    }
    all
}

/// Where source and load sit.
#[derive(Clone, Debug)]
pub struct EndIds {
    pub source: Id,
    pub load: Id,
    pub source_shaft: Id,
    pub load_shaft: Id,
}

impl EndIds {
    /// Those of a layout that has both.
    pub fn of(layout: &Layout) -> Option<Self> {
        let ends = Ends::of(layout).ok()?;
        Some(Self {
            source: ends.source.id,
            load: ends.load.id,
            source_shaft: ends.source_shaft.id,
            load_shaft: ends.load_shaft.id,
        })
    }
}

fn gear(layout: &Layout, ends: &EndIds, number: usize, report: &PositionReport) -> Option<Gear> {
    let exact = ratio_in(report, &ends.source_shaft, &ends.load_shaft)?;
    let near = report
        .stall
        .as_ref()
        .and_then(|stall| near_largest(layout, ends, stall, number));
    let working = near.as_ref().unwrap_or(report);
    let stall = report.stall.as_ref();
    Some(Gear {
        position: report.id.clone(),
        name: report.name.clone(),
        state: report.state,
        ratio: exact.abs().to_f64()?,
        exact: exact.to_string(),
        pull: stall
            .and_then(|stall| stall.pull)
            .map(layshaft_quantity::Force::to_newtons),
        torque: stall.map(|stall| stall.torque.to_newton_metres()),
        slope: stall
            .and_then(|stall| stall.slope)
            .map(layshaft_quantity::Angle::to_degrees),
        limit: stall.map(|stall| stall.limit),
        gain: gain(working, ends),
        speed: speed(layout, ends, report),
        efficiency: working.efficiency,
        circulating: working
            .loops
            .iter()
            .filter_map(|power_loop| power_loop.times_output)
            .max_by(f64::total_cmp),
        holds: report.holding.map(|holding| holding.holds),
        worst: worst(working),
        brakes: brakes(layout, working),
    })
}

/// The same gear solved near the largest load that it moves.
fn near_largest(layout: &Layout, ends: &EndIds, stall: &Stall, number: usize) -> Option<PositionReport> {
    let mut loaded = layout.clone();
    let at = loaded
        .elements
        .iter()
        .position(|element| element.id == ends.load)?;
    match &mut loaded.elements[at].kind {
        ElementKind::Winch(winch) => winch.load = WinchLoad::Pull(stall.pull?.to_newtons() * NEAR),
        ElementKind::Load(load) => load.torque_nm = stall.torque.to_newton_metres() * NEAR,
        ElementKind::Vehicle(vehicle) => vehicle.slope_deg = stall.slope?.to_degrees() * NEAR,
        _ => return None,
    }
    let parts = Parts {
        loops: true,
        ..Parts::LEAST
    };
    let report = probe(&loaded, parts, &|_| {})?.into_iter().nth(number)?;
    (report.state == State::Runs).then_some(report)
}

fn element<'r>(report: &'r PositionReport, id: &Id) -> Option<&'r layshaft_report::ElementResult> {
    report.elements.iter().find(|element| element.id == *id)
}

/// Torque at the load per torque at the source.
fn gain(report: &PositionReport, ends: &EndIds) -> Option<f64> {
    let torque = |id: &Id| {
        Some(
            element(report, id)?
                .ports
                .first()?
                .torque
                .abs()
                .to_newton_metres(),
        )
    };
    let gain = torque(&ends.load)? / torque(&ends.source)?;
    gain.is_finite().then_some(gain)
}

fn speed(layout: &Layout, ends: &EndIds, report: &PositionReport) -> Option<f64> {
    match &layout.element(&ends.load)?.kind {
        ElementKind::Vehicle(_) => Some(report.vehicle.as_ref()?.top_speed?.to_metres_per_s()),
        // What doesn't run has no speed to be compared.
        _ if report.state != State::Runs => None,
        ElementKind::Winch(_) => Some(element(report, &ends.load)?.line_speed?.to_metres_per_s()),
        _ => {
            let shaft = report.shafts.iter().find(|shaft| shaft.id == ends.load_shaft)?;
            Some(shaft.speed?.to_rpm().abs())
        }
    }
}

/// What loses most, with its share of the source's power.
fn worst(report: &PositionReport) -> Option<(Id, f64)> {
    let input = report.input_power?.to_watts();
    let shares = report
        .elements
        .iter()
        .filter_map(|element| Some((element.id.clone(), element.loss?.to_watts() / input)));
    shares
        .filter(|(_, share)| share.is_finite() && *share > 0.0)
        .max_by(|one, other| one.1.total_cmp(&other.1))
}

fn brakes(layout: &Layout, report: &PositionReport) -> Vec<(Id, f64)> {
    let pairs = layout.elements.iter().zip(&report.elements);
    pairs
        .filter(|(element, _)| matches!(&element.kind, ElementKind::Brake(_)) || is_backstop(&element.kind))
        .filter_map(|(element, result)| {
            let held = result
                .ports
                .iter()
                .map(|port| port.torque.abs().to_newton_metres())
                .fold(0.0, f64::max);
            (held > 0.0).then(|| (element.id.clone(), held))
        })
        .collect()
}

fn is_backstop(kind: &ElementKind) -> bool {
    matches!(kind, ElementKind::OneWay(it) if it.a.is_frame() || it.b.is_frame())
}
