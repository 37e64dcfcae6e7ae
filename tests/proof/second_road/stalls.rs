//! The pull to keep moving, by asking brute force at creeping speed with the reported load in place.

use layshaft_layout::{Element, ElementKind};
use layshaft_report::{Limit, Stall};

use super::flow::Answer;
use super::joints::Joint;
use super::loads::{creeping_drag, creeping_taken};
use super::roads::{Chosen, Roads, chosen};

/// Share of what the drive has by which its torque may miss it.
const TOLERANCE: f64 = 1e-6;

/// A small load beside those of the random trains, in N·m or N.
const LITTLE: f64 = 1e-3;

/// Checks that the reported pull asks for just what the drive has, or that a little more would lock.
pub fn compare(roads: &Roads<'_>) {
    let [source] = &roads.sources[..] else {
        return assert!(roads.report.stall.is_none(), "a pull of several sources");
    };
    let Some(stall) = &roads.report.stall else {
        return assert_no_stall(roads, *source);
    };
    let Some((available, sense)) = available(&roads.layout.elements[*source].kind) else {
        panic!("{stall:?}, though nothing limits the source")
    };
    let needed = |factor: f64| match with_load(roads, stall, factor) {
        Some(Chosen::One(torques)) => Some(Some(-torques[*source][0] * sense)),
        Some(Chosen::None) => Some(None),
        // Which of several is wedged depends on what is called the load.
        Some(Chosen::Several) => None,
        None => None,
    };
    let (Some(at), Some(below), Some(above)) = (needed(1.0), needed(1.0 - 1e-4), needed(1.0 + 1e-4)) else {
        return;
    };
    let size = stall.torque.to_newton_metres();
    let n_loads = roads.bench.joints.iter().filter(|joint| is_load(joint)).count();
    match stall.limit {
        // With several loads it depends on what is called more load which state is wedged.
        _ if n_loads > 1 && (stall.limit == Limit::SelfLocking || at.is_none()) => {}
        Limit::SelfLocking => assert!(above.is_none() && (below.is_some() || size == 0.0), "{stall:?}"),
        _ if size == 0.0 => assert!(
            at.is_some_and(|needed| needed >= available),
            "{stall:?} needs {at:?}"
        ),
        _ => {
            let fits = |needed: f64| (needed - available).abs() <= TOLERANCE * available.max(needed.abs());
            assert!(at.is_some_and(fits), "{stall:?} needs {at:?} of {available}");
        }
    }
}

/// No pull is reported only where nothing limits the source, the load stands still, or it helps.
fn assert_no_stall(roads: &Roads<'_>, source: usize) {
    let Some(first) = roads.bench.joints.iter().position(is_load) else {
        return;
    };
    let coordinate = coordinate_of(&roads.bench.joints[first]);
    let speed = roads.question().speeds[coordinate];
    let helps = matches!(roads.layout.elements[first].kind, ElementKind::Winch(_))
        && roads.senses.of(first) * speed < 0.0;
    let limited = available(&roads.layout.elements[source].kind).is_some();
    assert!(
        !limited || speed == 0.0 || helps,
        "{} has no pull",
        roads.layout.elements[first].id
    );
}

fn is_load(joint: &Joint) -> bool {
    matches!(joint, Joint::Load { .. } | Joint::Wheels { .. })
}

fn coordinate_of(load: &Joint) -> usize {
    match load {
        Joint::Wheels { body, .. } => *body,
        Joint::Load { end: Some(end) } => *end,
        other => panic!("{other:?} is no load"),
    }
}

/// Largest torque of a source at creeping speed in its own sense, and that sense.
fn available(kind: &ElementKind) -> Option<(f64, f64)> {
    match kind {
        ElementKind::Crank(it) => Some((it.limit_nm?, it.speed_rpm.signum())),
        ElementKind::Motor(it) => {
            let supply = it.supply_v.unwrap_or(it.nominal_v);
            let current = supply.abs() / (it.nominal_v / it.stall_a + it.supply_ohm);
            Some((
                it.stall_nm / (it.stall_a - it.no_load_a) * (current - it.no_load_a),
                supply.signum(),
            ))
        }
        _ => None,
    }
}

/// The solutions with the reported load times a factor; none where floats can't tell.
fn with_load(roads: &Roads<'_>, stall: &Stall, factor: f64) -> Option<Chosen> {
    let at = roads
        .layout
        .elements
        .iter()
        .position(|element| element.id == stall.load)
        .expect("a load");
    let mut question = roads.question();
    let coordinate = coordinate_of(&roads.bench.joints[at]);
    question.drag = creeping_drag(roads.layout, &roads.bench, &question.speeds);
    question.loads = creeping_taken(roads.layout, roads.senses, &roads.bench, &question.speeds, at);
    let reported = size_of(&roads.layout.elements[at], stall);
    // What locks at any load locks at a little.
    let size = if reported == 0.0 {
        (factor - 1.0) * LITTLE
    } else {
        factor * reported
    };
    let sense = if matches!(roads.layout.elements[at].kind, ElementKind::Winch(_)) {
        roads.senses.of(at)
    } else {
        question.speeds[coordinate].signum()
    };
    question.loads[coordinate] += sense * size;
    match question.answer() {
        Answer::Solutions(solutions) => Some(chosen(solutions)),
        _ => None,
    }
}

/// Torque at a shaft, or force on a body.
fn size_of(element: &Element, stall: &Stall) -> f64 {
    match element.kind {
        ElementKind::Vehicle(_) => stall.pull.expect("a vehicle has a pull").to_newtons(),
        _ => stall.torque.to_newton_metres(),
    }
}
