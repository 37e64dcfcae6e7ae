//! The pull to keep moving: the largest load that a drive can just keep moving at creeping speed.
//!
//! Friction is kinetic, its signs follow from the kinematic ratios; terms that grow with speed vanish. The first load is
//! scaled, the others stay.

use crate::model::Model;
use crate::network::Network;
use crate::operate::Operation;
use crate::root;
use crate::verdict::{Verdict, decide};

/// What limits a pull.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StallLimit {
    /// The source has no more torque.
    Source,
    /// It locks by its own friction.
    SelfLocking,
}

/// The largest load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stall {
    /// Torque at a plain load's shaft in N·m; pull of a winch or push of a vehicle in N.
    pub size: f64,
    /// What limits it.
    pub limit: StallLimit,
}

/// How far beyond the loss-free pull a load that helps is followed before it is said to have no limit.
const FAR: f64 = 1e6;
const NEAR: f64 = 1e-9;

impl Operation {
    /// The largest size of one load that the only source can keep moving; `None` where nothing limits it, where the load
    /// does not move, or where several sources share the train.
    #[must_use]
    pub fn stall(&self, model: &Model, load: usize) -> Option<Stall> {
        let settled = self.settled.as_ref()?;
        let [source] = &model.sources[..] else { return None };
        let available = source.drive.largest_torque()?;
        let sense = source.drive.sense();
        let rpm = layshaft_kinematics::Ratio::from_float(sense)?;
        let turning = settled.motion.turning(&[(source.shaft, rpm)]);
        let network = Network::new(model, settled, &turning).ok()?;
        let sign = network.signs[model.loads[load].shaft.at()];
        if sign == 0.0 || sense == 0.0 {
            return None;
        }
        let pull = Pull {
            model,
            network: &network,
            load,
            unit: model.loads[load].unit(sign),
            sense,
        };
        pull.largest(available)
    }
}

struct Pull<'a> {
    model: &'a Model,
    network: &'a Network,
    load: usize,
    unit: f64,
    sense: f64,
}

impl Pull<'_> {
    /// Drive torque that a load of this size asks for; `None` where none moves it.
    fn needed(&self, size: f64) -> Option<f64> {
        let side = self.network.side_with(self.model, self.load, size * self.unit);
        match decide(self.model, self.network, &side) {
            Verdict::Solved { x, .. } => Some(self.network.source_torque(&x, 0) * self.sense),
            Verdict::Locked(_) | Verdict::Ambiguous { .. } => None,
        }
    }

    fn lossless_size(&self, available: f64) -> Option<f64> {
        let only = self.network.side_with(self.model, self.load, self.unit);
        let none = self.network.side_with(self.model, self.load, 0.0);
        let torque = |side: &[f64]| match self.network.solve(side, crate::ave::Losses::Without) {
            crate::ave::Outcome::Solutions { solutions, .. } => {
                Some(self.network.source_torque(&solutions[0], 0))
            }
            crate::ave::Outcome::None { .. } => None,
        };
        let slope = torque(&only)? - torque(&none)?;
        let size = available / slope.abs();
        (size.is_finite() && size > 0.0).then_some(size)
    }

    fn largest(&self, available: f64) -> Option<Stall> {
        let scale = self.lossless_size(available)?;
        let surplus = |size: f64| self.needed(size).map(|needed| available - needed);
        let Some(unloaded) = surplus(0.0) else {
            return Some(Stall {
                size: 0.0,
                limit: StallLimit::SelfLocking,
            });
        };
        if unloaded <= 0.0 {
            return Some(Stall {
                size: 0.0,
                limit: StallLimit::Source,
            });
        }
        if surplus(scale * NEAR).is_none() {
            return Some(Stall {
                size: 0.0,
                limit: StallLimit::SelfLocking,
            });
        }
        let mut low = (0.0, unloaded);
        let mut size = scale;
        while size <= scale * FAR {
            match surplus(size) {
                Some(value) if value > 0.0 => low = (size, value),
                Some(value) => {
                    let size = root::between(low, (size, value), &mut |size| surplus(size))?;
                    return Some(Stall {
                        size,
                        limit: StallLimit::Source,
                    });
                }
                None => return Some(self.edge(available, low, size)),
            }
            size *= 4.0;
        }
        None
    }

    /// Between a size that moves and one that locks: the source's limit if it comes first, else where it locks.
    fn edge(&self, available: f64, mut low: (f64, f64), mut locks: f64) -> Stall {
        for _ in 0..200 {
            let middle = low.0 + (locks - low.0) / 2.0;
            if middle <= low.0 || middle >= locks {
                break;
            }
            match self.needed(middle).map(|needed| available - needed) {
                None => locks = middle,
                Some(value) if value > 0.0 => low = (middle, value),
                Some(value) => {
                    let surplus = &mut |size: f64| self.needed(size).map(|needed| available - needed);
                    let size = root::between(low, (middle, value), surplus).unwrap_or(low.0);
                    return Stall {
                        size,
                        limit: StallLimit::Source,
                    };
                }
            }
        }
        Stall {
            size: low.0,
            limit: StallLimit::SelfLocking,
        }
    }
}
