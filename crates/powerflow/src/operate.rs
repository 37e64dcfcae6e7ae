//! A train's state and operating point: does it move, how fast, and what flows.
//!
//! The state is the first that applies: jammed, undetermined, ambiguous, self-locking, stalled, held, running.

use std::rc::Rc;

use layshaft_kinematics::{ElementIdx, Jam, Motion, Ratio, SelfStress, ShaftIdx, Turning};

use crate::flow::Flow;
use crate::model::{Drive, Model};
use crate::motor::Motor;
use crate::motors;
use crate::network::Network;
use crate::settle::{HeldWorm, Settled, motion_of, settle};
use crate::stand::Stand;
use crate::verdict::{Lock, Verdict, decide};

/// The state of a train, with its evidence.
#[derive(Clone, Debug, PartialEq)]
pub enum State {
    /// The drive cannot turn.
    Jammed(Jam),
    /// Loads on shafts whose speed nothing settles.
    Undetermined {
        /// The free shafts.
        shafts: Vec<ShaftIdx>,
        /// The loads (by their number) that nothing balances.
        loads: Vec<usize>,
    },
    /// More than one consistent solution.
    Ambiguous {
        /// Elements of the first source's solutions that differ.
        elements: Vec<ElementIdx>,
        /// Lowest and highest torque of the first source.
        range: [f64; 2],
    },
    /// No drive torque moves this load.
    SelfLocking(Lock),
    /// The drive is too weak.
    Stalled {
        /// The source.
        source: usize,
        /// Torque that it would need, in its own sense.
        needed: f64,
        /// Torque that it has.
        available: f64,
    },
    /// Joints let go before the load moves: it is not carried.
    LetsGo {
        /// The joints that slip.
        joints: Vec<ElementIdx>,
        /// The shafts that nothing holds then.
        shafts: Vec<ShaftIdx>,
    },
    /// At rest, nothing asked of the drive.
    Held,
    /// It runs.
    Runs,
}

/// Everything about one shift position.
#[derive(Clone, Debug)]
pub struct Operation {
    /// Speeds with what holds by friction in place.
    pub motion: Rc<Motion>,
    /// Independent speeds of the drive's part, by rank only.
    pub mobility: usize,
    /// Worms that hold by friction.
    pub held: Vec<ElementIdx>,
    /// The state.
    pub state: State,
    /// What flows, where it moves (or would, were anything asked of it).
    pub flow: Option<Flow>,
    /// Elements of blocks too large to be searched whole.
    pub unproven: Vec<ElementIdx>,
    /// Redundant loops.
    pub redundant: Vec<SelfStress>,
    /// How everything that can let go stands.
    pub stand: Stand,
    /// Speeds with those that torques settle among the settled.
    pub(crate) found: Rc<Motion>,
    pub(crate) settled: Option<Settled>,
    /// The model of the stand, where it is not the plain one.
    pub(crate) derived: Option<Rc<Model>>,
}

pub(crate) const RPM: f64 = core::f64::consts::TAU / 60.0;

impl Operation {
    /// Whether a shaft's speed is known: settled by the sources, or by the torques on it.
    #[must_use]
    pub fn knows_speed(&self, shaft: ShaftIdx) -> bool {
        self.found.is_settled(shaft)
    }

    /// The sense in which the sources turn a shaft, exact: −1, 0, 1; 0 also where nothing settles its speed.
    #[must_use]
    pub fn sense(&self, model: &Model, shaft: ShaftIdx) -> i8 {
        if self.found.is_settled(shaft) {
            self.found.sign(shaft, &turning_by_sources(model, &self.found))
        } else {
            0
        }
    }

    /// The train with holds in place of the worms that hold: a worm's number is the hold of its own shaft, the holds of the
    /// wheels stand behind all other elements in the order of [`Operation::held`].
    #[must_use]
    pub fn train_with_holds(&self, model: &Model) -> layshaft_kinematics::Train {
        let mut train = crate::stand::derive(model, &self.stand).model.train;
        for &element in &self.held {
            crate::settle::hold(&mut train, element);
        }
        train
    }
}

/// Finds a train's state and operating point. Where joints can let go, or the sources don't settle every shaft that
/// carries torque, it is looked for from rest (`modes`).
#[must_use]
pub fn operate(model: &Model) -> Operation {
    let joints = model.elements.iter().any(|element| element.release.is_some());
    if joints {
        return crate::modes::from_rest(model);
    }
    let plain = operate_as_it_stands(model);
    match plain.state {
        State::Undetermined { .. } => crate::modes::from_rest(model),
        _ => plain,
    }
}

/// State and operating point with every joint holding.
pub(crate) fn operate_as_it_stands(model: &Model) -> Operation {
    let free = Rc::new(motion_of(model, &model.train));
    let mobility = free.mobility();
    let blank = |motion: Rc<Motion>, held: &[HeldWorm], state: State| Operation {
        found: Rc::clone(&motion),
        motion,
        mobility,
        held: held.iter().map(|held| held.worm).collect(),
        state,
        flow: None,
        unproven: Vec::new(),
        redundant: Vec::new(),
        stand: Stand::fast(model),
        settled: None,
        derived: None,
    };
    if let Some(jam) = free.jam(&model.train) {
        return blank(free, &[], State::Jammed(jam));
    }
    let mut released = Vec::new();
    loop {
        let settled = match settle(model, &free, &released) {
            Ok(settled) => settled,
            Err(unsettled) => {
                let state = State::Undetermined {
                    shafts: unsettled.shafts,
                    loads: unsettled.loads,
                };
                return blank(unsettled.motion, &unsettled.held, state);
            }
        };
        let mut operation = blank(Rc::clone(&settled.motion), &settled.held, State::Runs);
        operation.redundant = settled.carrying_motion.self_stresses(settled.train(model));
        run(model, &settled, &mut operation);
        let slipped = operation
            .flow
            .as_ref()
            .and_then(|flow| slipped_worm(model, &settled, flow));
        if let Some(worm) = slipped {
            released.push(worm);
            continue;
        }
        operation.settled = Some(settled);
        return operation;
    }
}

/// The sense in which the sources turn each shaft: −1, 0 or 1; 0 for shafts that they don't settle.
#[must_use]
pub fn rotation_senses(model: &Model) -> Vec<i8> {
    let model = &crate::stand::with_open_backstops(model);
    let free = Rc::new(motion_of(model, &model.train));
    let motion = match settle(model, &free, &[]) {
        Ok(settled) => settled.motion,
        Err(unsettled) => unsettled.motion,
    };
    let turning = turning_by_sources(model, &motion);
    let sense = |shaft| {
        if motion.is_settled(shaft) {
            motion.sign(shaft, &turning)
        } else {
            0
        }
    };
    model.train.shafts().map(sense).collect()
}

/// Speeds of the sources as far as their senses go; without sources that of the drive shaft.
fn turning_by_sources(model: &Model, motion: &Motion) -> Turning {
    if model.sources.is_empty() {
        let one = model.drive.map(|drive| (drive, num_traits::One::one()));
        motion.turning(one.as_slice())
    } else {
        motion.turning(&speeds_in_rpm(model, &|at| model.sources[at].drive.sense()))
    }
}

/// The first source for which the train leaves no room: the ones before it settle its shaft's speed already.
#[must_use]
pub fn crowded_source(model: &Model) -> Option<usize> {
    if model.sources.len() < 2 {
        return None;
    }
    crowded_in(model, &motion_of(model, &crate::stand::kinematic_train(model)))
}

/// The same in a known motion.
pub(crate) fn crowded_in(model: &Model, motion: &Motion) -> Option<usize> {
    let mut taken = Vec::new();
    model.sources.iter().position(|source| {
        let parameter = motion.parameter(source.shaft);
        let crowded = !taken.is_empty() && parameter.is_none_or(|parameter| taken.contains(&Some(parameter)));
        taken.push(parameter);
        crowded
    })
}

/// A worm that was taken to hold and doesn't.
fn slipped_worm(model: &Model, settled: &Settled, flow: &Flow) -> Option<ElementIdx> {
    let slips = |held: &&HeldWorm| {
        let crate::losses::Loss::Worm(friction) = &model.elements[held.worm.at()].loss else {
            return false;
        };
        let constraint = model.train.element(held.worm).constraint();
        let c = [0, 1].map(|at| constraint.terms()[at].weight());
        let [worm, wheel, _] = flow.into_element(held.worm);
        !friction.holds(c, [worm, wheel])
    };
    settled.held.iter().find(slips).map(|held| held.worm)
}

fn run(model: &Model, settled: &Settled, operation: &mut Operation) {
    // Without a drive shaft it was asked what holds, not what turns.
    let holds = model.drive.is_none() && model.loads.iter().any(crate::loads::Load::pulls_at_rest);
    if model.sources.is_empty() && !holds {
        // Nothing turns it and nothing is asked of it: torques are 0, speeds are not known.
        operation.flow = Some(Flow::idle(model, vec![0.0; model.train.shaft_count()]));
        return;
    }
    if !holds && model.sources.iter().all(|source| source.drive.sense() == 0.0) {
        operation.state = crate::rest::state_at_rest(model, settled);
        let nothing_pulls = !model.loads.iter().any(crate::loads::Load::pulls_at_rest);
        operation.flow = nothing_pulls.then(|| Flow::idle(model, vec![0.0; model.train.shaft_count()]));
        return;
    }
    let motors: Vec<(usize, &Motor)> = model
        .sources
        .iter()
        .enumerate()
        .filter_map(|(at, source)| match &source.drive {
            Drive::Motor(motor) => Some((at, motor)),
            Drive::Crank { .. } => None,
        })
        .collect();
    match (&motors[..], model.sources.len()) {
        ([], _) => at_given_speeds(model, settled, operation),
        ([(_, motor)], 1) => motors::on_a_motor(model, settled, motor, operation),
        _ => motors::on_several(model, settled, &motors, operation),
    }
}

/// Exact speeds of the sources in rpm, for `turning`.
fn speeds_in_rpm(model: &Model, motor_rpm: &dyn Fn(usize) -> f64) -> Vec<(ShaftIdx, Ratio)> {
    let entry = |(at, source): (usize, &crate::model::Source)| {
        let speed = match &source.drive {
            Drive::Crank { exact, .. } => exact.clone(),
            Drive::Motor(_) => Ratio::from_float(motor_rpm(at)).unwrap_or_else(num_traits::Zero::zero),
        };
        (source.shaft, speed)
    };
    model.sources.iter().enumerate().map(entry).collect()
}

/// The network with its speeds in SI, for motors at the given rpm.
pub(crate) fn network_at(
    model: &Model,
    settled: &Settled,
    motor_rpm: &dyn Fn(usize) -> f64,
) -> Option<Network> {
    let turning = settled.motion.turning(&speeds_in_rpm(model, motor_rpm));
    let mut network = Network::new(model, settled, &turning).ok()?;
    network.scale_speeds(RPM);
    Some(network)
}

pub(crate) fn unordered() -> State {
    State::Undetermined {
        shafts: Vec::new(),
        loads: Vec::new(),
    }
}

fn at_given_speeds(model: &Model, settled: &Settled, operation: &mut Operation) {
    let Some(network) = network_at(model, settled, &|_| 0.0) else {
        operation.state = unordered();
        return;
    };
    let side = network.right_hand_side(model, false);
    conclude(model, settled, &network, &side, operation);
}

/// Decides one right-hand side and writes state and flow down.
pub(crate) fn conclude(
    model: &Model,
    settled: &Settled,
    network: &Network,
    side: &[f64],
    operation: &mut Operation,
) {
    match decide(model, network, side) {
        Verdict::Solved { x, unproven } => {
            operation.unproven = unproven;
            operation.flow = Some(Flow::new(model, settled, network, &x, false));
            operation.state = state_of_running(model, network, &x);
            if let State::Stalled { .. } = operation.state {
                // At rest nothing flows; what it would need is in the state.
                operation.flow = None;
            }
        }
        Verdict::Locked(lock) => operation.state = State::SelfLocking(lock),
        Verdict::Ambiguous { elements, range } => operation.state = State::Ambiguous { elements, range },
    }
}

/// Too weak a crank, a load at rest on an idle drive, or running.
fn state_of_running(model: &Model, network: &Network, x: &[f64]) -> State {
    for (at, source) in model.sources.iter().enumerate() {
        let needed = network.source_torque(x, at) * source.drive.sense();
        if let (Drive::Crank { .. }, Some(available)) = (&source.drive, source.drive.largest_torque())
            && needed > available * (1.0 + 1e-9)
        {
            return State::Stalled {
                source: at,
                needed,
                available,
            };
        }
    }
    let hangs_at_rest = model.loads.iter().any(|load| load.pulls_at_rest())
        && model
            .loads
            .iter()
            .all(|load| network.signs[load.shaft.at()] == 0.0);
    let largest_load = model.loads.iter().fold(0.0_f64, |largest, load| {
        largest.max(load.on_shaft(0.0, 0.0).abs())
    });
    let idle =
        (0..model.sources.len()).all(|source| network.source_torque(x, source).abs() <= 1e-12 * largest_load);
    if hangs_at_rest && idle {
        State::Held
    } else {
        State::Runs
    }
}
