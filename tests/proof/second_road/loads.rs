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
    let mut taken = vec![0.0; bench.coordinates];
    for ((element, joint), sense) in layout.elements.iter().zip(&bench.joints).zip(&senses.0) {
        let at = match joint {
            Joint::Wheels { body, .. } => Some(*body),
            Joint::Load { .. } => end_of(joint),
            _ => None,
        };
        if let Some(at) = at {
            taken[at] += one_takes(&element.kind, *sense, speeds[at]);
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
