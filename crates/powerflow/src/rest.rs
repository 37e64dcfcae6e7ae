//! A train whose sources are off: does it stay where it is?
//!
//! The load would drive it backwards, so all speeds are taken in the sense in which it would run away. It stays if the
//! equation has no solution that way round, if the source would have to help, or if the source's own friction suffices.
//! Friction is taken as kinetic, which is on the safe side: at rest it is greater.

use layshaft_kinematics::Ratio;

use crate::ave::{Losses, Outcome};
use crate::model::{Drive, Model};
use crate::network::Network;
use crate::operate::State;
use crate::settle::Settled;
use crate::verdict::{Verdict, decide};

/// The state of a train with its sources off. With more than one source each is taken to hold by itself.
pub(crate) fn state_at_rest(model: &Model, settled: &Settled) -> State {
    let [source] = &model.sources[..] else {
        return State::Held;
    };
    let network = |sense: f64| {
        let turning = settled
            .motion
            .turning(&[(source.shaft, Ratio::from_float(sense)?)]);
        Network::new(model, settled, &turning).ok()
    };
    let Some(lossless) = network(1.0).and_then(|network| needed_without_losses(model, &network)) else {
        return State::Held;
    };
    if lossless == 0.0 {
        return State::Held;
    }
    let runaway = -lossless.signum();
    let Some(network) = network(runaway) else {
        return State::Held;
    };
    let side = network.right_hand_side(model, true);
    let Verdict::Solved { x, .. } = decide(model, &network, &side) else {
        return State::Held;
    };
    let holding = -network.source_torque(&x, 0) * runaway;
    let available = match &source.drive {
        Drive::Motor(motor) => motor.holding_torque().to_newton_metres(),
        Drive::Crank { limit, .. } => limit.map_or(f64::INFINITY, |limit| limit.to_newton_metres()),
    };
    if holding <= available {
        State::Held
    } else {
        State::Stalled {
            source: 0,
            needed: holding,
            available,
        }
    }
}

fn needed_without_losses(model: &Model, network: &Network) -> Option<f64> {
    match network.solve(&network.loads_at_rest(model), Losses::Without) {
        Outcome::Solutions { solutions, .. } => Some(network.source_torque(solutions.first()?, 0)),
        Outcome::None { .. } => None,
    }
}
