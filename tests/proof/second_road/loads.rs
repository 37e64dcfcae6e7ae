//! What loads and drag take from their shafts, written from their definitions.

use layshaft_layout::{ElementKind, Layout, LiftSense, WinchLoad};

use super::joints::{Bench, Joint};
use super::roads::end_of;

const GRAVITY: f64 = 9.80665;

/// Per element: the sense of its shaft that lifts or drives forward.
pub struct Senses(Vec<f64>);

impl Senses {
    /// From what is typed, else from the speeds in the first position.
    pub fn new(layout: &Layout, speed_in_first: &dyn Fn(&str) -> f64) -> Self {
        let sense = |typed: LiftSense, shaft: &str| match typed {
            LiftSense::Positive => 1.0,
            LiftSense::Negative => -1.0,
            LiftSense::Drive if speed_in_first(shaft) < 0.0 => -1.0,
            LiftSense::Drive => 1.0,
        };
        let of = |element: &layshaft_layout::Element| match &element.kind {
            ElementKind::Winch(it) => sense(it.lifts, it.shaft.as_str()),
            ElementKind::Vehicle(it) => sense(it.forward, it.shafts[0].as_str()),
            _ => 0.0,
        };
        Self(layout.elements.iter().map(of).collect())
    }
}

impl Senses {
    /// Of one element.
    pub fn of(&self, element: usize) -> f64 {
        self.0[element]
    }
}

fn sign(speed: f64) -> f64 {
    if speed == 0.0 { 0.0 } else { speed.signum() }
}

/// Torque that one load takes from its shaft (force that a vehicle takes from its body).
pub fn one_takes(kind: &ElementKind, sense: f64, speed: f64) -> f64 {
    match kind {
        ElementKind::Load(it) => {
            sign(speed) * (it.torque_nm + it.fan_nms2 * speed * speed) + it.viscous_nms * speed
        }
        ElementKind::Winch(it) => {
            let pull = match it.load {
                WinchLoad::Pull(pull) => pull,
                WinchLoad::Mass(mass) => mass * GRAVITY,
            };
            let radius = (it.drum_mm + it.rope_mm) / 2.0 + (f64::from(it.layers) - 1.0) * it.rope_mm;
            sense * pull * radius / 1000.0
        }
        ElementKind::Vehicle(it) => {
            let (weight, slope) = (it.mass_kg * GRAVITY, it.slope_deg.to_radians());
            sense * weight * libm::sin(slope) + sign(speed) * it.rolling * weight * libm::cos(slope)
        }
        _ => 0.0,
    }
}

/// Per coordinate: what all loads take.
pub fn taken(layout: &Layout, senses: &Senses, bench: &Bench, speeds: &[f64]) -> Vec<f64> {
    sum_of_loads(layout, bench, &|at, coordinate| {
        one_takes(&layout.elements[at].kind, senses.of(at), speeds[coordinate])
    })
}

/// The same so slowly that nothing grows with speed, and without one of them.
pub fn creeping_taken(
    layout: &Layout,
    senses: &Senses,
    bench: &Bench,
    speeds: &[f64],
    without: usize,
) -> Vec<f64> {
    sum_of_loads(layout, bench, &|at, coordinate| {
        let speed = CREEPING * sign(speeds[coordinate]);
        if at == without {
            0.0
        } else {
            one_takes(&layout.elements[at].kind, senses.of(at), speed)
        }
    })
}

/// A speed at which what is multiplied by it is nothing.
const CREEPING: f64 = 1e-200;

fn sum_of_loads(layout: &Layout, bench: &Bench, takes: &dyn Fn(usize, usize) -> f64) -> Vec<f64> {
    let mut taken = vec![0.0; bench.coordinates];
    for (at, joint) in bench.joints.iter().enumerate().take(layout.elements.len()) {
        let coordinate = match joint {
            Joint::Wheels { body, .. } => Some(*body),
            Joint::Load { .. } => end_of(joint),
            _ => None,
        };
        if let Some(coordinate) = coordinate {
            taken[coordinate] += takes(at, coordinate);
        }
    }
    taken
}

/// Per coordinate: what drag takes.
pub fn drag(layout: &Layout, bench: &Bench, speeds: &[f64]) -> Vec<f64> {
    let mut drag = vec![0.0; bench.coordinates];
    for (at, shaft) in layout.shafts.iter().enumerate() {
        drag[at] = sign(speeds[at]) * shaft.drag_nm + shaft.viscous_nms * speeds[at];
    }
    drag
}

/// The same so slowly that nothing grows with speed.
pub fn creeping_drag(layout: &Layout, bench: &Bench, speeds: &[f64]) -> Vec<f64> {
    let slowly: Vec<f64> = speeds.iter().map(|&speed| CREEPING * sign(speed)).collect();
    drag(layout, bench, &slowly)
}
