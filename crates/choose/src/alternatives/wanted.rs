//! Ratios for a wanted pull and speed, taken as if three meshes lay in between; what an arrangement really does is
//! measured afterwards.

use layshaft_layout::lower::motor_of;
use layshaft_layout::{ElementKind, Layout, WinchLoad};
use layshaft_powerflow::Motor;
use layshaft_quantity::{AngularSpeed, Force, Length, STANDARD_GRAVITY, Speed, Torque};

use super::WantedSpeeds;
use super::ends::{Ends, asked};
use crate::task::JobProblem;

/// Meshes between source and load that are reckoned with.
const USUAL_MESHES: i32 = 3;
/// High has to be geared higher than low by this at least.
const LEAST_STEP: f64 = 1.02;

/// Ratios, low and high, for what is wanted.
///
/// Pull `P` at radius `R` from a largest torque `T` through an efficiency `e`: `r = e T / (P R)`. Speed `w` against a
/// torque `M` from a motor of speed `a − b T`: the smaller root of `(b M / e) r² − a r + w = 0`. Source: statics, and the
/// straight line of a DC motor.
///
/// # Errors
/// A sentence where nothing can do it, or one ratio does both.
pub fn ratios_for(
    layout: &Layout,
    wanted: &WantedSpeeds,
    mesh_efficiency: f64,
) -> Result<[f64; 2], JobProblem> {
    let positive = |value: f64| value.is_finite() && value > 0.0;
    let (pull, speed) = match *wanted {
        WantedSpeeds::Ratios([low, high]) => {
            if !positive(low) || !positive(high) {
                return Err(asked("A ratio is greater than nothing."));
            }
            if high < low * LEAST_STEP {
                return Err(asked(
                    "Low and high are as good as one gear: high has to turn faster than low, by 2 % at least.",
                ));
            }
            return Ok([low, high]);
        }
        WantedSpeeds::PullAndSpeed { pull, speed } => (pull, speed),
    };
    if !positive(pull) || !positive(speed) {
        return Err(asked("Pull and speed are greater than nothing."));
    }
    let ends = Ends::of(layout)?;
    let efficiency = (0..USUAL_MESHES).fold(1.0, |product, _| product * mesh_efficiency);
    let load = Resistance::of(&ends, pull, speed)?;
    let source = Line::of(&ends)?;
    let most = source.most.ok_or_else(|| {
        asked("A crank without a limit pulls anything: give it a limit, or ask for ratios.")
    })?;
    let low = efficiency * most / load.largest;
    let high = source.ratio_for(load.speed, load.at_speed / efficiency).ok_or_else(|| {
        asked("Its drive can't move the load at this speed in any gear: ask for less, or take a stronger drive.")
    })?;
    if high < low * LEAST_STEP {
        return Err(asked(
            "One gear does both: ask for more pull or more speed to need two.",
        ));
    }
    Ok([low, high])
}

/// What the load's shaft asks for.
struct Resistance {
    /// Torque of the wanted pull, N·m.
    largest: f64,
    /// Wanted speed, rad/s.
    speed: f64,
    /// Torque at that speed, N·m.
    at_speed: f64,
}

impl Resistance {
    fn of(ends: &Ends, pull: f64, speed: f64) -> Result<Self, JobProblem> {
        let over_rim = |radius: Length, force: Force| Self {
            largest: (Force::newtons(pull) * radius).to_newton_metres(),
            speed: Speed::metres_per_s(speed).to_metres_per_s() / radius.to_metres(),
            at_speed: (force * radius).to_newton_metres(),
        };
        match &ends.load.kind {
            ElementKind::Vehicle(vehicle) => {
                let weight = Force::newtons(vehicle.mass_kg * STANDARD_GRAVITY);
                Ok(over_rim(
                    Length::millimetres(vehicle.wheel_mm / 2.0),
                    weight * vehicle.rolling,
                ))
            }
            ElementKind::Winch(winch) => {
                let layers = f64::from(winch.layers.saturating_sub(1));
                let radius = (winch.drum_mm + winch.rope_mm) / 2.0 + layers * winch.rope_mm;
                let force = match winch.load {
                    WinchLoad::Mass(mass) => Force::newtons(mass * STANDARD_GRAVITY),
                    WinchLoad::Pull(pull) => Force::newtons(pull),
                };
                Ok(over_rim(Length::millimetres(radius), force))
            }
            ElementKind::Load(load) => {
                let speed = AngularSpeed::rpm(speed).to_rad_per_s();
                Ok(Self {
                    largest: pull,
                    speed,
                    at_speed: load.torque_nm + load.viscous_nms * speed + load.fan_nms2 * speed * speed,
                })
            }
            _ => Err(asked("Put a winch, a vehicle or a load on a shaft first.")),
        }
    }
}

/// Speed over torque of a source, a straight line.
struct Line {
    /// Speed without torque, rad/s.
    free: f64,
    /// Speed lost per torque.
    droop: f64,
    /// Largest torque.
    most: Option<f64>,
}

impl Line {
    fn of(ends: &Ends) -> Result<Self, JobProblem> {
        match &ends.source.kind {
            ElementKind::Motor(motor) => Ok(Self::of_motor(&motor_of(motor))),
            ElementKind::Crank(crank) => Ok(Self {
                free: AngularSpeed::rpm(crank.speed_rpm).to_rad_per_s().abs(),
                droop: 0.0,
                most: crank.limit_nm,
            }),
            _ => Err(asked("Put a motor or a crank on a shaft first.")),
        }
    }

    fn of_motor(motor: &Motor) -> Self {
        let most: Torque = motor.creeping_torque();
        let most = most.to_newton_metres();
        let free = motor.speed_at(0.0);
        Self {
            free: free.abs(),
            droop: (free.abs() / most.abs()).abs(),
            most: Some(most.abs()),
        }
    }

    fn ratio_for(&self, speed: f64, torque: f64) -> Option<f64> {
        let root = self.free * self.free - 4.0 * self.droop * torque * speed;
        let ratio = 2.0 * speed / (self.free + libm::sqrt(root));
        (root >= 0.0 && ratio.is_finite() && ratio > 0.0).then_some(ratio)
    }
}
