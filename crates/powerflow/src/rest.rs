//! A train whose sources are off: does it stay where it is?
//!
//! The load would drive it backwards, so all speeds are taken in the sense in which it would run away. It stays if the
//! equation has no solution that way round, if the source would have to help, or if the source's own friction suffices.
//! Friction is that of surfaces at rest.

use layshaft_kinematics::Ratio;

use crate::ave::{Losses, Outcome};
use crate::model::{Drive, Model};
use crate::network::Network;
use crate::operate::{State, operate};
use crate::settle::{Settled, motion_of, settle};
use crate::verdict::{Verdict, decide};

/// Whether a train stays where it is with its source off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holding {
    /// It does.
    pub holds: bool,
    /// Torque at the source's shaft against running away, in N·m: negative where it would have to be driven; none where
    /// no torque there makes it run.
    pub needed: Option<f64>,
    /// Torque that the source's own friction holds.
    pub available: f64,
}

/// Whether what pulls at rest is held with the only source, a motor, off; `None` where nothing pulls, or another source
/// drives.
#[must_use]
pub fn holding(model: &Model) -> Option<Holding> {
    let [source] = &model.sources[..] else { return None };
    let Drive::Motor(motor) = &source.drive else {
        return None;
    };
    if !model.loads.iter().any(crate::loads::Load::pulls_at_rest) {
        return None;
    }
    let mut off = model.clone();
    let mut still = motor.clone();
    still.supply = layshaft_quantity::Voltage::ZERO;
    off.sources[0].drive = Drive::Motor(still);
    let balance = needed_to_hold(&off);
    Some(Holding {
        holds: matches!(operate(&off).state, State::Held),
        needed: balance,
        available: motor.holding_torque().to_newton_metres(),
    })
}

/// Torque that the only source would need to keep a train from running away, joints holding but for backstops; `None`
/// where it does not run, or where that is no matter of one torque.
pub(crate) fn needed_to_hold(model: &Model) -> Option<f64> {
    let model = crate::stand::with_open_backstops(&model.at_rest_friction());
    let motion = std::rc::Rc::new(motion_of(&model, &model.train));
    balance(&model, &settle(&model, &motion, &[]).ok()?)
}

/// The state of a train with its sources off. With more than one source each is taken to hold by itself.
pub(crate) fn state_at_rest(model: &Model, settled: &Settled) -> State {
    let model = &model.at_rest_friction();
    let [source] = &model.sources[..] else {
        return State::Held;
    };
    let Some(needed) = balance(model, settled) else {
        return State::Held;
    };
    let available = match &source.drive {
        Drive::Motor(motor) => motor.holding_torque().to_newton_metres(),
        Drive::Crank { limit, .. } => limit.map_or(f64::INFINITY, |limit| limit.to_newton_metres()),
    };
    if needed <= available {
        State::Held
    } else {
        State::Stalled {
            source: 0,
            needed,
            available,
        }
    }
}

/// Torque at the only source that keeps it from running away; `None` where it does not run, whatever the source does.
fn balance(model: &Model, settled: &Settled) -> Option<f64> {
    let [source] = &model.sources[..] else { return None };
    let network = |sense: f64| {
        let turning = settled
            .motion
            .turning(&[(source.shaft, Ratio::from_float(sense)?)]);
        Network::new(model, settled, &turning).ok()
    };
    let lossless = needed_without_losses(model, &network(1.0)?).filter(|torque| *torque != 0.0)?;
    let runaway = -lossless.signum();
    let network = network(runaway)?;
    let side = network.right_hand_side(model, true);
    let Verdict::Solved { x, .. } = decide(model, &network, &side) else {
        return None;
    };
    Some(-network.source_torque(&x, 0) * runaway)
}

fn needed_without_losses(model: &Model, network: &Network) -> Option<f64> {
    match network.solve(&network.loads_at_rest(model), Losses::Without) {
        Outcome::Solutions { solutions, .. } => Some(network.source_torque(solutions.first()?, 0)),
        Outcome::None { .. } => None,
    }
}
