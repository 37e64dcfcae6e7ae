//! The inequalities of a state: what holds is within its limit, what moves moves the way its friction says, what drives
//! drives.

use super::bench::{LetsGo, Source};
use super::solve::{Attempt, Motion, State, Way};

/// Sorts inequalities: held, broken, or too near to say.
pub struct Checks {
    size: f64,
    pub broken: bool,
    pub near: bool,
}

impl Checks {
    /// `value ≥ 0`, beside values of this size.
    fn not_negative(&mut self, value: f64, size: f64) {
        let size = size.max(1e-9 * self.size);
        if value < -1e-6 * size {
            self.broken = true;
        } else if value < 1e-6 * size {
            self.near = true;
        }
    }

    /// The same, where nothing at all is as good.
    fn not_negative_or_none(&mut self, value: f64, size: f64) {
        let size = size.max(1e-9 * self.size);
        if value < -1e-9 * size {
            if value < -1e-6 * size {
                self.broken = true;
            } else {
                self.near = true;
            }
        }
    }
}

impl Attempt<'_> {
    /// Looks at them all; `regular`: everything is determined.
    pub fn checks(&self, state: &State, rubbing: &[f64], regular: bool) -> Checks {
        let largest_torque = state
            .torques
            .iter()
            .flatten()
            .chain(rubbing)
            .chain(&state.sources)
            .fold(1e-6_f64, |l, t| l.max(t.abs()));
        let largest_speed = state.speeds.iter().fold(1e-6_f64, |l, w| l.max(w.abs()));
        // Where something is not determined it is some torque, and only speeds can rule a state out.
        let largest_torque = if regular { largest_torque } else { f64::INFINITY };
        let mut checks = Checks {
            size: 1.0,
            broken: false,
            near: false,
        };
        let speed = |end: Option<usize>| end.map_or(0.0, |at| state.speeds[at]);
        for (joint, (way, torques)) in self.bench.joints.iter().zip(self.ways.iter().zip(&state.torques)) {
            let sum: f64 = joint
                .ends
                .iter()
                .zip(&joint.factors)
                .map(|(end, factor)| factor * speed(*end))
                .sum();
            let carrier = joint.ends.get(2).map_or(0.0, |end| speed(*end));
            let rolls = |at: usize| speed(joint.ends[at]) - carrier;
            match way {
                Way::Open | Way::Slips(_) => {}
                Way::Drives(at) => {
                    checks.not_negative(torques[*at] * rolls(*at), largest_torque * largest_speed)
                }
                Way::Fast if joint.efficiency < 1.0 => {
                    // Loss-free only where it does not roll.
                    checks.not_negative_or_none(-rolls(0).abs(), largest_speed);
                }
                Way::Fast => {}
            }
            match (joint.lets_go, way) {
                (LetsGo::OneWay(sense), Way::Open) => checks.not_negative(sense * -sum, largest_speed),
                (LetsGo::OneWay(sense), _) => checks.not_negative(sense * torques[0], largest_torque),
                (LetsGo::Slips(_), Way::Slips(sign)) => {
                    checks.not_negative(sign * sum, largest_speed * joint.factors[0].abs())
                }
                (LetsGo::Slips(limit), _) => checks.not_negative(limit - torques[0].abs(), largest_torque),
                (LetsGo::Never, _) => {}
            }
        }
        for (shaft, motion) in self
            .shafts
            .iter()
            .enumerate()
            .filter(|(shaft, _)| self.bench.friction[*shaft] > 0.0)
        {
            match motion {
                Motion::Rest => {
                    checks.not_negative(self.bench.friction[shaft] - rubbing[shaft].abs(), largest_torque)
                }
                moving => checks.not_negative(moving.sign() * state.speeds[shaft], largest_speed),
            }
        }
        for (((_, shaft, source), motion), torque) in
            self.bench.sources.iter().zip(&self.motors).zip(&state.sources)
        {
            let Source::Motor {
                at_rest, friction, ..
            } = source
            else {
                continue;
            };
            match motion {
                Motion::Rest => checks.not_negative(friction - (at_rest + torque).abs(), largest_torque),
                moving => checks.not_negative(moving.sign() * state.speeds[*shaft], largest_speed),
            }
        }
        checks
    }
}
