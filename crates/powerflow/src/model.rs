//! What the power-flow solver works on: a train with its losses, sources and loads, all in SI.

use layshaft_kinematics::{Ratio, ShaftIdx, Train};
use layshaft_quantity::{Force, Length, Torque};

use crate::loads::Load;
use crate::losses::{Loss, STATIC_OVER_KINETIC};
use crate::motor::Motor;
use crate::relief::PortPull;

/// A train with everything that puts torque on it.
#[derive(Clone, Debug)]
pub struct Model {
    /// Shafts and elements.
    pub train: Train,
    /// The shaft that ratios refer to.
    pub drive: Option<ShaftIdx>,
    /// Per element of the train.
    pub elements: Vec<ElementLoss>,
    /// Per shaft of the train.
    pub shafts: Vec<ShaftLoss>,
    /// Motors and cranks.
    pub sources: Vec<Source>,
    /// Loads, winches and vehicles, in document order.
    pub loads: Vec<Load>,
}

impl Model {
    /// The same train with the friction of surfaces at rest: coefficients of threads, collars and journals times
    /// [`STATIC_OVER_KINETIC`], efficiencies found from tooth friction as they are at rest. Typed efficiencies and drag
    /// stay, since nothing says how much of them is friction.
    #[must_use]
    pub fn at_rest_friction(&self) -> Self {
        let mut model = self.clone();
        for element in &mut model.elements {
            element.loss = match element.efficiency_at_rest {
                Some(efficiency) => element.loss.with_efficiency(efficiency),
                None => element.loss.at_rest(),
            };
        }
        for journal in model.shafts.iter_mut().filter_map(|shaft| shaft.journal.as_mut()) {
            journal.friction *= STATIC_OVER_KINETIC;
        }
        model
    }
}

/// What an element loses and how it bends.
#[derive(Clone, Debug, PartialEq)]
pub struct ElementLoss {
    /// Its loss.
    pub loss: Loss,
    /// Efficiency of the same surfaces at rest, where its loss is an efficiency that was found from friction; none: as
    /// moving.
    pub efficiency_at_rest: Option<f64>,
    /// Force on its shafts' bearings in N per unit of its multiplier; 0 where its size is not known.
    pub bearing_force: f64,
    /// Per port: which way that force pulls its shaft; none: not known.
    pub pulls: Option<Box<[Option<PortPull>; 3]>>,
    /// Compliance for unit multiplier; how redundant loops share. 0: stiff beside the others.
    pub compliance: f64,
    /// What makes it let go; none: never.
    pub release: Option<Release>,
    /// Largest torque at its first port before teeth skip or break; none: not known.
    pub tooth_limit: Option<Torque>,
}

/// How a joint lets go. The train holds the element as it is while it holds (a coupling, a belt, a hold).
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Release {
    /// One-way clutch between the two ports of a coupling `a`, `b`: with sense `s`, `s (w_b − w_a) ≥ 0` always; engaged it
    /// puts a torque `s T ≥ 0` on `b`. Does not count in the mobility.
    OneWay {
        /// +1 or −1.
        sense: f64,
    },
    /// Slips when the torque at its first port would exceed this in size.
    Slip {
        /// The limit.
        limit: Torque,
    },
}

impl Default for ElementLoss {
    fn default() -> Self {
        Self {
            loss: Loss::None,
            efficiency_at_rest: None,
            bearing_force: 0.0,
            pulls: None,
            compliance: 0.0,
            release: None,
            tooth_limit: None,
        }
    }
}

/// Friction on a shaft that is not an element's.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct ShaftLoss {
    /// Constant torque opposing rotation.
    pub drag: Torque,
    /// Torque per speed, N·m·s.
    pub viscous: f64,
    /// Plain bearings.
    pub journal: Option<Journal>,
    /// Known torque on the shaft in N·m, whichever way it turns: of joints that slip.
    pub given: f64,
    /// Moment of inertia in kg·m² (mass in kg of a vehicle's body); matters in runs only.
    pub inertia: f64,
}

/// Plain bearings of a shaft: friction torque `f r F`, `F` the sum of the forces on it (a safe bound: forces that pull
/// against one another would load it less).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Journal {
    /// Coefficient of friction.
    pub friction: f64,
    /// Radius of the journal.
    pub radius: Length,
    /// Bearing load over applied load, 1 between the bearings.
    pub overhang: f64,
    /// Force from line pull or weight: the sum of their sizes.
    pub steady_force: Force,
    /// Their vector sum in N, where the directions of all of them are known.
    pub steady_pull: Option<[f64; 2]>,
    /// Vector sum over scalar sum of the forces, 1 where their directions are not known.
    pub relief: f64,
}

impl Journal {
    /// Friction torque per newton of applied load, in metres.
    #[must_use]
    pub fn arm(&self) -> f64 {
        self.friction * self.radius.to_metres() * self.overhang * self.relief
    }
}

impl Model {
    /// Friction torque that a load's line pull adds in the bearings of its shaft turning with the given sign, in N·m.
    #[must_use]
    pub fn line_friction(&self, load: &Load, torque: f64, sign: f64) -> f64 {
        self.shafts[load.shaft.at()]
            .journal
            .map_or(0.0, |journal| -sign * journal.arm() * load.bearing_force(torque))
    }
}

/// A source of motion.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// Its shaft.
    pub shaft: ShaftIdx,
    /// What drives.
    pub drive: Drive,
}

/// What drives.
#[derive(Clone, Debug, PartialEq)]
pub enum Drive {
    /// DC motor.
    Motor(Motor),
    /// A given speed.
    Crank {
        /// Speed in rad/s.
        speed: f64,
        /// The same as an exact fraction of one common unit for all cranks (rpm), so that signs of differences are exact.
        exact: Ratio,
        /// Largest torque.
        limit: Option<Torque>,
    },
}

impl Drive {
    /// The sense in which it drives: −1, 0, 1.
    #[must_use]
    pub fn sense(&self) -> f64 {
        crate::ave::sign(match self {
            Self::Motor(motor) => motor.supply.to_volts(),
            Self::Crank { speed, .. } => *speed,
        })
    }

    /// Largest torque at creeping speed, in its own sense; none: as much as needed.
    #[must_use]
    pub fn largest_torque(&self) -> Option<f64> {
        match self {
            Self::Motor(motor) => Some(motor.creeping_torque().to_newton_metres()),
            Self::Crank { limit, .. } => limit.map(Torque::to_newton_metres),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::losses::{Collar, WormFriction};
    use layshaft_quantity::Angle;

    fn model() -> Model {
        let worm = Loss::Worm(WormFriction {
            lead: Angle::degrees(5.0),
            friction: 0.1,
            pressure: Angle::degrees(20.0),
            collar: Some(Collar {
                friction: 0.2,
                arm_ratio: 0.1,
                reduction: 30.0,
            }),
            at_rest: false,
        });
        let pair = |efficiency_at_rest| ElementLoss {
            loss: Loss::Pair { efficiency: 0.9 },
            efficiency_at_rest,
            ..ElementLoss::default()
        };
        let worm = ElementLoss {
            loss: worm,
            ..ElementLoss::default()
        };
        let journal = Journal {
            friction: 0.1,
            radius: Length::millimetres(2.0),
            overhang: 1.5,
            steady_force: Force::ZERO,
            steady_pull: None,
            relief: 1.0,
        };
        Model {
            train: Train::new(1),
            drive: None,
            elements: vec![worm, pair(Some(0.87)), pair(None)],
            shafts: vec![ShaftLoss {
                journal: Some(journal),
                ..ShaftLoss::default()
            }],
            sources: Vec::new(),
            loads: Vec::new(),
        }
    }

    #[test]
    fn friction_at_rest_is_greater_where_it_is_known() {
        let rest = model().at_rest_friction();
        let Loss::Worm(worm) = rest.elements[0].loss else {
            panic!("a worm stays one")
        };
        assert!((worm.friction - 0.13).abs() < 1e-15);
        assert!((worm.collar.map_or(0.0, |collar| collar.friction) - 0.26).abs() < 1e-15);
        assert_eq!(rest.elements[1].loss, Loss::Pair { efficiency: 0.87 });
        assert_eq!(rest.elements[2].loss, Loss::Pair { efficiency: 0.9 });
        assert!(
            (rest.shafts[0].journal.map_or(0.0, |journal| journal.arm()) - 0.13 * 0.002 * 1.5).abs() < 1e-15
        );
    }
}
