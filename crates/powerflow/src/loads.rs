//! Loads: what they put on their shaft at a speed.

use layshaft_kinematics::ShaftIdx;
use layshaft_quantity::{Angle, Force, Length, Torque};
use libm::{cos, sin};

use crate::motor::Motor;

/// A load on a shaft (for a vehicle: on its body, whose "torque" is a force and whose "speed" is in m/s).
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// Where it acts.
    pub shaft: ShaftIdx,
    /// What it is.
    pub kind: LoadKind,
}

/// What a load is.
#[derive(Clone, Debug, PartialEq)]
pub enum LoadKind {
    /// Opposes rotation.
    Resisting {
        /// Constant torque.
        torque: Torque,
        /// Torque per speed, N·m·s.
        viscous: f64,
        /// Torque per square of speed, N·m·s².
        fan: f64,
    },
    /// A motor beside another source on the same freedom: helps with what it gives at its speed.
    Driving {
        /// The motor.
        motor: Motor,
    },
    /// A pull on a rope: keeps its sense whichever way the drum turns.
    Winch {
        /// Line pull.
        pull: Force,
        /// Radius at which the rope runs on.
        radius: Length,
        /// Sense of rotation that lifts: +1 or −1.
        lifts: f64,
    },
    /// A vehicle: weight along the slope keeps its sense, rolling resistance opposes motion.
    Vehicle {
        /// Weight.
        weight: Force,
        /// Coefficient of rolling resistance.
        rolling: f64,
        /// Slope.
        slope: Angle,
        /// Sense of wheel rotation that is forward: +1 or −1.
        forward: f64,
    },
}

impl Load {
    /// Torque that it puts on its shaft, at a speed of the given sign; force for a vehicle.
    #[must_use]
    pub fn on_shaft(&self, sign: f64, speed: f64) -> f64 {
        match &self.kind {
            LoadKind::Resisting { torque, viscous, fan } => {
                -sign * (torque.to_newton_metres() + fan * speed * speed) - viscous * speed
            }
            LoadKind::Driving { motor } => motor.torque(speed).to_newton_metres(),
            LoadKind::Winch { pull, radius, lifts } => -lifts * (*pull * *radius).to_newton_metres(),
            LoadKind::Vehicle {
                weight,
                rolling,
                slope,
                forward,
            } => {
                let weight = weight.to_newtons();
                let slope = slope.to_radians();
                -forward * weight * sin(slope) - sign * rolling * weight * cos(slope)
            }
        }
    }

    /// Force on the bearings of its shaft, in N, while it puts this torque on it: a line pulls with its whole tension; what
    /// resists by friction or is a vehicle's push does not press on them.
    #[must_use]
    pub fn bearing_force(&self, torque: f64) -> f64 {
        match &self.kind {
            LoadKind::Winch { radius, .. } => (torque / radius.to_metres()).abs(),
            LoadKind::Resisting { .. } | LoadKind::Driving { .. } | LoadKind::Vehicle { .. } => 0.0,
        }
    }

    /// Whether it pulls even at rest.
    #[must_use]
    pub fn pulls_at_rest(&self) -> bool {
        self.on_shaft(0.0, 0.0) != 0.0
    }

    /// Whether it puts any torque on a turning shaft.
    #[must_use]
    pub fn resists(&self) -> bool {
        self.on_shaft(1.0, 1.0) != 0.0 || self.on_shaft(-1.0, -1.0) != 0.0
    }

    /// Whether its torque changes with speed.
    #[must_use]
    pub fn depends_on_speed(&self) -> bool {
        match self.kind {
            LoadKind::Resisting { viscous, fan, .. } => viscous != 0.0 || fan != 0.0,
            LoadKind::Driving { .. } => true,
            LoadKind::Winch { .. } | LoadKind::Vehicle { .. } => false,
        }
    }

    /// What is scaled to find the stall pull: a unit of it, as torque (force) on the shaft at creeping speed of the given
    /// sign. A winch keeps its sense, so that lowering scales what helps; everything else resists.
    #[must_use]
    pub fn unit(&self, sign: f64) -> f64 {
        match &self.kind {
            LoadKind::Winch { radius, lifts, .. } => -lifts * radius.to_metres(),
            LoadKind::Resisting { .. } | LoadKind::Vehicle { .. } | LoadKind::Driving { .. } => -sign,
        }
    }
}

/// Steepest slope at which a force along it can push a weight with rolling resistance `c`: `F = W (sin t + c cos t)`.
///
/// Written as `F / (W sqrt(1 + c²)) = sin(t + atan c)`; a force above that can push up anything.
#[must_use]
pub fn slope_for_force(force: f64, weight: f64, rolling: f64) -> Angle {
    let share = force / (weight * libm::sqrt(1.0 + rolling * rolling));
    let lean = libm::atan(rolling);
    let steepest = core::f64::consts::FRAC_PI_2;
    Angle::radians(if share >= 1.0 {
        steepest
    } else {
        (libm::asin(share) - lean).min(steepest)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slope_asks_for_the_force_that_it_is_found_from() {
        let (weight, rolling, slope) = (20.0, 0.05, 0.3);
        let force = weight * (sin(slope) + rolling * cos(slope));
        assert!((slope_for_force(force, weight, rolling).to_radians() - slope).abs() < 1e-12);
    }

    fn check(kind: LoadKind, [sign, speed]: [f64; 2], expected: f64) {
        let shaft = ShaftIdx(0);
        let found = Load { shaft, kind }.on_shaft(sign, speed);
        assert!((found - expected).abs() < 1e-12, "{found}, not {expected}");
    }

    /// 2 N·m, 0.1 N·m·s, 0.03 N·m·s² at 10 rad/s: 2 + 1 + 3 against it, whichever way it turns.
    #[test]
    fn constant_viscous_and_fan_loads_oppose_rotation() {
        let load = LoadKind::Resisting {
            torque: Torque::newton_metres(2.0),
            viscous: 0.1,
            fan: 0.03,
        };
        check(load.clone(), [1.0, 10.0], -6.0);
        check(load.clone(), [-1.0, -10.0], 6.0);
        check(load, [0.0, 0.0], 0.0);
    }

    /// 100 N on 20 mm pull with 2 N·m the same way, lifting and lowering.
    #[test]
    fn a_line_pulls_the_same_way_always() {
        let winch = LoadKind::Winch {
            pull: Force::newtons(100.0),
            radius: Length::millimetres(20.0),
            lifts: -1.0,
        };
        check(winch.clone(), [-1.0, -5.0], 2.0);
        check(winch.clone(), [1.0, 5.0], 2.0);
        let shaft = ShaftIdx(0);
        let pulled = Load { shaft, kind: winch }.bearing_force(-3.0);
        assert!((pulled - 150.0).abs() < 1e-12);
    }

    /// 50 N on a slope of 30°, rolling 0.02: 25 N down it, 0.02 · 43.3 N against the motion.
    #[test]
    fn rolling_resists_where_weight_pulls_downhill() {
        let vehicle = LoadKind::Vehicle {
            weight: Force::newtons(50.0),
            rolling: 0.02,
            slope: Angle::degrees(30.0),
            forward: 1.0,
        };
        let rolling = 0.02 * 50.0 * libm::sqrt(3.0) / 2.0;
        check(vehicle.clone(), [1.0, 0.4], -25.0 - rolling);
        check(vehicle, [-1.0, -0.4], -25.0 + rolling);
    }
}
