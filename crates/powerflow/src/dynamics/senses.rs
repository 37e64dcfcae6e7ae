//! Signs of speeds, and where they matter: what rubs.

use layshaft_kinematics::{Element, ElementIdx};

use crate::loads::LoadKind;
use crate::losses::{Loss, Rotation, half_difference};
use crate::model::{Drive, Model};

/// Which way everything turns: −1, 0 (at rest, held) or 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Senses {
    /// Per shaft.
    pub shafts: Vec<f64>,
    /// Per element with a carrier: sign of first central gear's speed less the carrier's; 0 for others.
    pub rolling: Vec<f64>,
}

impl Senses {
    /// Everything at rest.
    #[must_use]
    pub fn at_rest(model: &Model) -> Self {
        Self {
            shafts: vec![0.0; model.train.shaft_count()],
            rolling: vec![0.0; model.train.elements().len()],
        }
    }
}

/// Where the sign of a speed changes torques.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rubbing {
    /// Per shaft.
    pub shafts: Vec<bool>,
    /// Per element: the sign of its rolling.
    pub rolling: Vec<bool>,
}

impl Rubbing {
    /// Finds it for a model.
    #[must_use]
    pub fn of(model: &Model) -> Self {
        let mut shafts: Vec<bool> = model
            .shafts
            .iter()
            .map(|shaft| shaft.drag.to_newton_metres() != 0.0 || shaft.journal.is_some())
            .collect();
        for load in model.loads.iter().filter(|load| is_dry(&load.kind)) {
            shafts[load.shaft.at()] = true;
        }
        for source in &model.sources {
            if let Drive::Motor(motor) = &source.drive {
                shafts[source.shaft.at()] |= motor.no_load_current.to_amperes() != 0.0;
            }
        }
        let mut rolling = vec![false; model.train.elements().len()];
        for ((kind, loss), rolls) in model
            .train
            .elements()
            .iter()
            .zip(&model.elements)
            .zip(&mut rolling)
        {
            match loss.loss {
                _ if loss.loss.is_none() || kind.is_hold() => {}
                Loss::Basic { .. } => *rolls = true,
                Loss::None | Loss::Pair { .. } | Loss::Worm(_) => {
                    for shaft in kind
                        .constraint()
                        .terms()
                        .iter()
                        .filter_map(|term| term.port.shaft())
                    {
                        shafts[shaft.at()] = true;
                    }
                }
            }
        }
        Self { shafts, rolling }
    }
}

fn is_dry(kind: &LoadKind) -> bool {
    match kind {
        LoadKind::Resisting { torque, .. } => torque.to_newton_metres() != 0.0,
        LoadKind::Vehicle { rolling, .. } => *rolling != 0.0,
        LoadKind::Driving { motor } => motor.no_load_current.to_amperes() != 0.0,
        LoadKind::Winch { .. } => false,
    }
}

/// `d_p` of an element for the given signs.
pub(super) fn absolute(
    model: &Model,
    element: ElementIdx,
    kind: &Element,
    rotation: &Rotation<'_>,
    senses: &Senses,
) -> [f64; 3] {
    let Some(loss) = model.elements.get(element.at()).filter(|_| !kind.is_hold()) else {
        return [0.0; 3];
    };
    match (loss.loss, kind.as_carrier_gear()) {
        (Loss::Basic { efficiency }, Some(gear)) => {
            let sense = senses.rolling.get(element.at()).copied().unwrap_or(0.0);
            rolling_loss(efficiency, gear.coefficients, sense)
        }
        (loss, _) => loss.absolute(kind, rotation),
    }
}

/// As [`Loss::absolute`], from the sign of the first gear's rolling: the second's is that times the basic ratio's.
fn rolling_loss(efficiency: f64, coefficients: [i128; 3], sense: f64) -> [f64; 3] {
    let k = half_difference(efficiency);
    let [first, second, _] = coefficients.map(|coefficient| coefficient as f64);
    let other = if (first < 0.0) == (second < 0.0) {
        -sense
    } else {
        sense
    };
    let first = -k * first.abs() * sense;
    let second = -k * second.abs() * other;
    [first, second, -(first + second)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_of_a_differential_roll_opposite_ways() {
        let [a, b, carrier] = rolling_loss(0.8, [1, 1, -2], 1.0);
        assert!(a < 0.0 && b == -a && carrier == 0.0);
    }
}
