//! What the power-flow solver works on: a train with its losses, sources and loads, all in SI.

use layshaft_kinematics::{Ratio, ShaftIdx, Train};
use layshaft_quantity::{Force, Length, Torque};

use crate::loads::Load;
use crate::losses::Loss;
use crate::motor::Motor;

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

/// What an element loses and how it bends.
#[derive(Clone, Debug, PartialEq)]
pub struct ElementLoss {
    /// Its loss.
    pub loss: Loss,
    /// Force on its shafts' bearings in N per unit of its multiplier; 0 where its size is not known.
    pub bearing_force: f64,
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
            bearing_force: 0.0,
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
    /// Force from line pull or weight.
    pub steady_force: Force,
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
        let value = match self {
            Self::Motor(motor) => motor.supply.to_volts(),
            Self::Crank { speed, .. } => *speed,
        };
        if value > 0.0 {
            1.0
        } else if value < 0.0 {
            -1.0
        } else {
            0.0
        }
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
