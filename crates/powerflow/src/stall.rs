//! The pull to keep moving: the largest load that a drive can just keep moving at creeping speed.
//!
//! Friction is kinetic, its signs follow from the kinematic ratios; terms that grow with speed vanish. The first load is
//! scaled, the others stay.

use layshaft_kinematics::{ElementIdx, Ratio, ShaftIdx};
use layshaft_quantity::{Force, Torque};

use crate::loads::LoadKind;
use crate::model::{Model, Release};
use crate::network::Network;
use crate::operate::{Operation, State};
use crate::root;
use crate::settle::Settled;
use crate::stand::Joint;
use crate::verdict::{Verdict, decide};

/// What limits a pull.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StallLimit {
    /// The source has no more torque.
    Source,
    /// It locks by its own friction.
    SelfLocking,
    /// This joint slips.
    Slip(ElementIdx),
    /// The teeth of this mesh skip or break.
    Tooth(ElementIdx),
    /// This shaft, held by its friction so far, turns instead.
    Branch(ShaftIdx),
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
/// A load small enough to overload nothing, as a share of what acts.
const SLIGHT: f64 = 1e-6;

impl Operation {
    /// The largest size of one load that the only source can keep moving; `None` where nothing limits it, where the load
    /// does not move, or where several sources share the train.
    #[must_use]
    pub fn stall(&self, model: &Model, load: usize) -> Option<Stall> {
        if self.derived.is_none() && model.elements.iter().all(|element| element.release.is_none()) {
            return largest(model, self.settled.as_ref()?, model, load, limits(model));
        }
        // Joints stand as they do under a slight load: what slips under the present one is a limit, not a way to stand.
        let slight = with_slight_load(model, load);
        let operation = crate::modes::from_rest(&slight);
        if let State::LetsGo { joints, .. } = &operation.state {
            return Some(Stall {
                size: 0.0,
                limit: StallLimit::Slip(*joints.first()?),
            });
        }
        let slides = |joint: &Joint| joint.slip_sign() != 0.0;
        if let Some(at) = operation.stand.joints.iter().position(slides) {
            return Some(Stall {
                size: 0.0,
                limit: StallLimit::Slip(ElementIdx(u32::try_from(at).ok()?)),
            });
        }
        let stood = operation.derived.as_deref().unwrap_or(&slight);
        let mut limits = limits(stood);
        let mut without = slight.clone();
        without.loads[load].kind = LoadKind::Resisting {
            torque: Torque::ZERO,
            viscous: 0.0,
            fan: 0.0,
        };
        for (at, &shaft) in operation.stand.held.iter().enumerate() {
            let hold = ElementIdx(u32::try_from(model.train.elements().len() + at).ok()?);
            let capacity = crate::modes::holding_capacity(&without, &operation.stand, shaft);
            if capacity > 0.0 {
                limits.push((hold, capacity, StallLimit::Branch(shaft)));
            }
        }
        largest(model, operation.settled.as_ref()?, stood, load, limits)
    }
}

fn with_slight_load(model: &Model, load: usize) -> Model {
    let usual = model
        .sources
        .iter()
        .filter_map(|source| source.drive.largest_torque())
        .fold(0.0_f64, |largest, torque| largest.max(torque.abs()));
    let slight = SLIGHT * if usual > 0.0 { usual } else { 1.0 };
    let mut model = model.clone();
    match &mut model.loads[load].kind {
        LoadKind::Winch { pull, .. } => *pull = Force::newtons(slight),
        kind => {
            *kind = LoadKind::Resisting {
                torque: Torque::newton_metres(slight),
                viscous: 0.0,
                fan: 0.0,
            };
        }
    }
    model
}

/// The largest load of `given` on the train as it stands in `model`.
fn largest(
    given: &Model,
    settled: &Settled,
    model: &Model,
    load: usize,
    limits: Vec<(ElementIdx, f64, StallLimit)>,
) -> Option<Stall> {
    let [source] = &model.sources[..] else { return None };
    let available = source.drive.largest_torque()?;
    let sense = source.drive.sense();
    let rpm = Ratio::from_float(sense)?;
    let turning = settled.motion.turning(&[(source.shaft, rpm)]);
    let network = Network::new(model, settled, &turning).ok()?;
    let sign = network.signs[model.loads[load].shaft.at()];
    if sign == 0.0 || sense == 0.0 {
        return None;
    }
    let pull = Pull {
        model,
        settled,
        limits,
        network: &network,
        load,
        unit: given.loads[load].unit(sign),
        sense,
    };
    pull.largest(available)
}

/// Elements that give way, with the torque at their first port at which they do.
fn limits(model: &Model) -> Vec<(ElementIdx, f64, StallLimit)> {
    let of = |(element, loss): (ElementIdx, &crate::model::ElementLoss)| {
        let slip = match loss.release {
            Some(Release::Slip { limit }) => {
                Some((element, limit.to_newton_metres(), StallLimit::Slip(element)))
            }
            _ => None,
        };
        let tooth = loss
            .tooth_limit
            .map(|limit| (element, limit.to_newton_metres(), StallLimit::Tooth(element)));
        [slip, tooth].into_iter().flatten()
    };
    (0..).map(ElementIdx).zip(&model.elements).flat_map(of).collect()
}

struct Pull<'a> {
    model: &'a Model,
    settled: &'a Settled,
    limits: Vec<(ElementIdx, f64, StallLimit)>,
    network: &'a Network,
    load: usize,
    unit: f64,
    sense: f64,
}

impl Pull<'_> {
    /// Drive torque that a load of this size asks for, or why none carries it.
    fn look(&self, size: f64) -> Result<f64, StallLimit> {
        let side = self.network.side_with(self.model, self.load, size * self.unit);
        match decide(self.model, self.network, &side) {
            Verdict::Solved { x, .. } => match self.gives_way(&x) {
                Some(limit) => Err(limit),
                None => Ok(self.network.source_torque(&x, 0) * self.sense),
            },
            Verdict::Locked(_) | Verdict::Ambiguous { .. } => Err(StallLimit::SelfLocking),
        }
    }

    fn needed(&self, size: f64) -> Option<f64> {
        self.look(size).ok()
    }

    /// The element that is over its limit by most.
    fn gives_way(&self, x: &[f64]) -> Option<StallLimit> {
        if self.limits.is_empty() {
            return None;
        }
        let train = self.settled.train(self.model);
        let multipliers = self.network.multipliers(x, train.elements().len());
        let factor = |&(element, limit, _): &(ElementIdx, f64, StallLimit)| {
            let multiplier = multipliers[element.at()];
            let first = train
                .element(element)
                .constraint()
                .terms()
                .first()
                .map_or(0.0, |term| term.weight());
            let torque = multiplier * first + multiplier.abs() * self.network.absolute[element.at()][0];
            torque.abs() / limit
        };
        let worst = self
            .limits
            .iter()
            .max_by(|a, b| factor(a).total_cmp(&factor(b)))
            .filter(|limit| factor(limit) > 1.0)?;
        Some(worst.2)
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
        let unloaded = match self.look(0.0) {
            Ok(needed) => available - needed,
            Err(limit) => return Some(Stall { size: 0.0, limit }),
        };
        if unloaded <= 0.0 {
            return Some(Stall {
                size: 0.0,
                limit: StallLimit::Source,
            });
        }
        if let Err(limit) = self.look(scale * NEAR) {
            return Some(Stall { size: 0.0, limit });
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
        let mut limit = self.look(locks).err().unwrap_or(StallLimit::SelfLocking);
        for _ in 0..200 {
            let middle = low.0 + (locks - low.0) / 2.0;
            if middle <= low.0 || middle >= locks {
                break;
            }
            match self.look(middle).map(|needed| available - needed) {
                Err(why) => {
                    limit = why;
                    locks = middle;
                }
                Ok(value) if value > 0.0 => low = (middle, value),
                Ok(value) => {
                    let surplus = &mut |size: f64| self.needed(size).map(|needed| available - needed);
                    let size = root::between(low, (middle, value), surplus).unwrap_or(low.0);
                    return Stall {
                        size,
                        limit: StallLimit::Source,
                    };
                }
            }
        }
        Stall { size: low.0, limit }
    }
}
