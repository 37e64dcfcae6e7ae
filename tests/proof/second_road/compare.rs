//! Both roads beside one another, and where they part.

use layshaft_layout::{ElementKind, Layout};
use layshaft_report::{PositionReport, State, report};
use num_traits::{ToPrimitive, Zero};
use serde_json::Value;

use super::flow::{Answer, Question, Torques};
use super::joints::{Bench, Joint};
use super::loads::Senses;
use super::loops;
use super::roads::{Chosen, Roads, chosen};
use super::speeds::{follows, mobility, still};
use super::stalls;
use layshaft_tests::compact;

/// Share of the largest port power (or torque) by which results may differ.
const TOLERANCE: f64 = 1e-6;

/// Checks speeds, mobility, state, port torques and circulating power in every position of a compact layout.
pub fn check(train: &Value) {
    let layout = compact::layout(train);
    let Ok(report) = report(&layout) else { return };
    let first = &report.positions[0];
    if first.state == State::Jammed && layout.positions.len() > 1 && layout.drive.is_some() {
        // Which sense a drive "gives" that cannot turn, when the source beside it can, is nowhere said.
        return;
    }
    let n_sources = layout
        .elements
        .iter()
        .filter(|element| matches!(element.kind, ElementKind::Motor(_) | ElementKind::Crank(_)))
        .count();
    if n_sources > 1 && !matches!(first.state, State::Runs | State::Held) {
        // No speed is reported by which to tell what lifts.
        return;
    }
    let speed_in_first = |shaft: &str| sense_in(&layout, first, shaft);
    let senses = Senses::new(&layout, &speed_in_first);
    for (position, report) in layout.effective_positions().iter().zip(&report.positions) {
        compare(&Roads::new(
            &layout,
            &senses,
            Bench::new(&layout, position),
            report,
        ));
    }
}

/// The sense in which the sources turn a shaft: of a single one by the ratio, of several by the reported speed (both of
/// which are checked in their own right).
fn sense_in(layout: &Layout, first: &PositionReport, shaft: &str) -> f64 {
    let result = |id: &str| first.shafts.iter().find(|other| other.id.as_str() == id);
    let source = |element: &layshaft_layout::Element| match &element.kind {
        ElementKind::Motor(it) => Some((it.shaft.clone(), it.supply_v.unwrap_or(it.nominal_v))),
        ElementKind::Crank(it) => Some((it.shaft.clone(), it.speed_rpm)),
        _ => None,
    };
    let sources: Vec<_> = layout.elements.iter().filter_map(source).collect();
    let ratio = |id: &str| result(id).and_then(|result| result.ratio.clone());
    match (&sources[..], ratio(shaft)) {
        ([(source, speed)], Some(ratio_of_shaft)) => match ratio(source.as_str()) {
            Some(ratio) if !ratio.is_zero() => (ratio_of_shaft / ratio).to_f64().expect("a float") * speed,
            _ => 0.0,
        },
        _ => result(shaft)
            .and_then(|result| result.speed)
            .map_or(0.0, |speed| speed.to_rad_per_s()),
    }
}

fn compare(roads: &Roads<'_>) {
    let report = roads.report;
    let part = roads.part_of[roads.drive];
    assert_eq!(
        report.mobility,
        mobility(&roads.bench, &roads.part_of, part),
        "mobility"
    );
    if roads.jams() {
        return assert_eq!(report.state, State::Jammed);
    }
    if roads.is_undetermined() && report.state != State::Undetermined {
        // Freedoms that this road leaves open were settled by the torques on them: friction holds a load, or speeds stand
        // where torques balance. That they do balance at every shaft is tested for the same trains in `laws`.
        return;
    }
    let held: Vec<&str> = roads
        .held
        .iter()
        .map(|&at| roads.layout.elements[at].id.as_str())
        .collect();
    assert_eq!(
        report.held.iter().map(|id| id.as_str()).collect::<Vec<_>>(),
        held,
        "held"
    );
    compare_ratios(roads);
    if roads.is_undetermined() {
        return assert_eq!(report.state, State::Undetermined);
    }
    compare_flow(roads);
}

fn compare_ratios(roads: &Roads<'_>) {
    if still(&roads.motions, roads.drive) {
        // Held by friction, though named as the drive: there is nothing to measure speeds by.
        return;
    }
    for (at, shaft) in roads.report.shafts.iter().enumerate() {
        let in_part = roads.part_of[at] == roads.part_of[roads.drive];
        let expected =
            follows(&roads.motions, roads.drive, at).filter(|_| in_part || still(&roads.motions, at));
        match (&shaft.ratio, expected) {
            (Some(ratio), Some(expected)) => {
                let ratio = ratio.to_f64().expect("a float");
                let allowed = 1e-6 * (1.0 + expected.abs());
                assert!(
                    (ratio - expected).abs() <= allowed,
                    "{}: {ratio}, not {expected}",
                    shaft.id
                );
            }
            (ratio, expected) => {
                assert!(
                    ratio.is_none() && expected.is_none(),
                    "{}: {ratio:?}, not {expected:?}",
                    shaft.id
                );
            }
        }
        let free = expected.is_none() && (!roads.with_drive(at) || !still(&roads.loose, at));
        // What is free is said of a drive that is driven; one may be named that nothing turns.
        let driven = still(&roads.loose, roads.drive);
        assert!(!driven || shaft.free == free, "{} free: {}", shaft.id, shaft.free);
    }
}

fn compare_flow(roads: &Roads<'_>) {
    let question = roads.question();
    let Answer::Solutions(solutions) = question.answer() else {
        return check_reported(roads, &question);
    };
    let state = roads.report.state;
    stalls::compare(roads);
    let torques = match chosen(solutions) {
        Chosen::None => return assert_eq!(state, State::SelfLocking),
        Chosen::Several => return assert_eq!(state, State::Ambiguous),
        Chosen::One(torques) => torques,
    };
    if let Some(source) = too_weak(roads, &torques) {
        return assert_eq!(state, State::Stalled, "{source} is too weak");
    }
    let motor = |element: &layshaft_layout::Element| matches!(element.kind, ElementKind::Motor(_));
    if state == State::SelfLocking && roads.layout.elements.iter().any(motor) {
        // Brute force was asked at creeping speed; with loads that grow with speed a train may lock later on.
        return;
    }
    assert!(
        matches!(state, State::Runs | State::Held),
        "{state:?}, but it runs"
    );
    compare_torques(roads, &torques, &question.speeds);
    compare_motors(roads, &torques, &question.speeds);
    loops::compare(roads);
}

/// The source that can't give what is asked of it: a crank above its limit, a motor above its torque at rest.
fn too_weak<'a>(roads: &Roads<'a>, torques: &Torques) -> Option<&'a str> {
    let weak = |&&source: &&usize| {
        let needed = -torques[source][0];
        match &roads.layout.elements[source].kind {
            ElementKind::Crank(it) => it
                .limit_nm
                .is_some_and(|limit| needed * it.speed_rpm.signum() > limit),
            ElementKind::Motor(_) if roads.report.state == State::Stalled => true,
            _ => false,
        }
    };
    roads
        .sources
        .iter()
        .find(weak)
        .map(|&source| roads.layout.elements[source].id.as_str())
}

/// Where brute force can't find the torques it can still tell whether those reported are right.
fn check_reported(roads: &Roads<'_>, question: &Question<'_>) {
    let torques = |at: usize| {
        roads.report.elements[at]
            .ports
            .iter()
            .map(|port| port.torque.to_newton_metres())
            .collect()
    };
    if matches!(roads.report.state, State::Runs | State::Held) {
        question.check(&(0..roads.bench.joints.len()).map(torques).collect());
        loops::compare(roads);
    }
}

fn compare_torques(roads: &Roads<'_>, expected: &Torques, speeds: &[f64]) {
    let ports = || roads.report.elements.iter().flat_map(|element| &element.ports);
    let largest_power = ports().fold(0.0_f64, |largest, port| largest.max(port.power.to_watts().abs()));
    let largest_torque = ports().fold(0.0_f64, |largest, port| {
        largest.max(port.torque.to_newton_metres().abs())
    });
    let largest_speed = speeds
        .iter()
        .fold(0.0_f64, |largest, speed| largest.max(speed.abs()));
    let allowed_power = TOLERANCE * largest_power.max(1e-6 * largest_torque * largest_speed);
    for ((element, torques), joint) in roads
        .report
        .elements
        .iter()
        .zip(expected)
        .zip(&roads.bench.joints)
    {
        let ends = if let Joint::Source { end } = joint {
            vec![*end]
        } else {
            joint.ties()
        };
        for ((port, torque), end) in element.ports.iter().zip(torques).zip(ends) {
            let power = torque * end.map_or(0.0, |at| speeds[at]);
            let (found, flows) = (port.torque.to_newton_metres(), port.power.to_watts());
            assert!(
                (flows - power).abs() <= allowed_power,
                "{}: {flows} W, not {power} W",
                element.id
            );
            let close = (found - torque).abs() <= TOLERANCE * largest_torque;
            assert!(close, "{}: {found} N·m, not {torque} N·m", element.id);
        }
    }
}

/// At the reported speed a motor gives the torque that is asked of it: `T = Kt (I − I0)`.
fn compare_motors(roads: &Roads<'_>, torques: &Torques, speeds: &[f64]) {
    for &source in &roads.sources {
        let (ElementKind::Motor(it), Joint::Source { end: Some(end) }) =
            (&roads.layout.elements[source].kind, &roads.bench.joints[source])
        else {
            continue;
        };
        let sense = it.supply_v.unwrap_or(it.nominal_v).signum();
        let supply = it.supply_v.unwrap_or(it.nominal_v).abs();
        let winding = it.nominal_v / it.stall_a;
        let no_load = it.no_load_rpm * std::f64::consts::TAU / 60.0;
        let back_emf = (it.nominal_v - it.no_load_a * winding) / no_load;
        let current = (supply - back_emf * speeds[*end] * sense) / (winding + it.supply_ohm);
        let gives = it.stall_nm / (it.stall_a - it.no_load_a) * (current - it.no_load_a);
        let asked = -torques[source][0] * sense;
        assert!(
            (gives - asked).abs() <= TOLERANCE * it.stall_nm.max(asked.abs()),
            "motor gives {gives}, asked {asked}"
        );
    }
}
