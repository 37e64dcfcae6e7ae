//! The operating point on motors: the speed at which what they give is what the train asks for.

use crate::model::Model;
use crate::motor::Motor;
use crate::network::Network;
use crate::operate::{Operation, RPM, State, conclude, network_at, unordered};
use crate::root;
use crate::settle::Settled;
use crate::verdict::{Lock, Verdict, decide};

/// Speed at which "creeping" is tried where loads depend on speed: a share of no-load speed.
const CREEP: f64 = 1e-9;

fn speed_matters(model: &Model) -> bool {
    model.loads.iter().any(crate::loads::Load::depends_on_speed)
        || model.shafts.iter().any(|shaft| shaft.viscous != 0.0)
}

/// A single motor: a closed form where nothing depends on speed, else the root of what it has over.
pub(crate) fn on_a_motor(model: &Model, settled: &Settled, motor: &Motor, operation: &mut Operation) {
    let sense = motor.supply.sign();
    let Some(mut network) = network_at(model, settled, &|_| sense) else {
        operation.state = unordered();
        return;
    };
    let no_load = motor.speed_at(0.0).abs();
    let mut at = RPM;
    let mut needed = |network: &mut Network, speed: f64| -> Verdict {
        network.scale_speeds(speed / at);
        at = speed;
        let side = network.right_hand_side(model, false);
        decide(model, network, &side)
    };
    let creeping = needed(&mut network, no_load * CREEP);
    let Verdict::Solved { x, .. } = creeping else {
        let side = network.right_hand_side(model, false);
        conclude(model, settled, &network, &side, operation);
        return;
    };
    let at_creep = network.source_torque(&x, 0) * sense;
    let available = motor.creeping_torque().to_newton_metres();
    if at_creep > available {
        operation.state = State::Stalled {
            source: 0,
            needed: at_creep,
            available,
        };
        operation.flow = None;
        return;
    }
    let speed = if speed_matters(model) {
        let mut surplus = |speed: f64| match needed(&mut network, speed) {
            Verdict::Solved { x, .. } => Some(
                motor.torque(speed * sense).to_newton_metres() * sense - network.source_torque(&x, 0) * sense,
            ),
            _ => None,
        };
        balance(no_load, available - at_creep, &mut surplus)
    } else {
        Some(motor.speed_at(at_creep * sense) * sense)
    };
    let Some(speed) = speed else {
        operation.state = State::SelfLocking(Lock {
            elements: Vec::new(),
            by_own_friction: true,
        });
        return;
    };
    let _ = needed(&mut network, speed);
    let side = network.right_hand_side(model, false);
    conclude(model, settled, &network, &side, operation);
}

/// The speed at which nothing is left over, above 0 where the surplus is positive.
fn balance(no_load: f64, at_rest: f64, surplus: &mut dyn FnMut(f64) -> Option<f64>) -> Option<f64> {
    let mut low = (no_load * CREEP, at_rest);
    let mut high = no_load;
    while high <= no_load * 1e9 {
        match surplus(high) {
            Some(value) if value > 0.0 => low = (high, value),
            Some(value) => return root::between(low, (high, value), surplus),
            None => return below_locking(low, high, surplus),
        }
        high *= 2.0;
    }
    None
}

/// Between a speed with a surplus and one at which it locks (loads that grow with speed may turn one that helps into one
/// that resists): the speed at which nothing is left over, if that comes first.
fn below_locking(
    mut low: (f64, f64),
    mut locks: f64,
    surplus: &mut dyn FnMut(f64) -> Option<f64>,
) -> Option<f64> {
    for _ in 0..200 {
        let middle = low.0 + (locks - low.0) / 2.0;
        if middle <= low.0 || middle >= locks {
            break;
        }
        match surplus(middle) {
            None => locks = middle,
            Some(value) if value > 0.0 => low = (middle, value),
            Some(value) => return root::between(low, (middle, value), surplus),
        }
    }
    None
}

/// Steps of the iteration on several motors' speeds, and when it has settled.
const MOST_ROUNDS: usize = 200;
const SETTLED: f64 = 1e-13;

/// Motors that share a train with other sources: each takes the speed at which it gives the torque asked of it, until no
/// speed changes any more.
pub(crate) fn on_several(
    model: &Model,
    settled: &Settled,
    motors: &[(usize, &Motor)],
    operation: &mut Operation,
) {
    let mut speeds: Vec<f64> = vec![0.0; model.sources.len()];
    for &(at, motor) in motors {
        speeds[at] = motor.speed_at(0.0);
    }
    for _ in 0..MOST_ROUNDS {
        let Some(network) = network_at(model, settled, &|at| speeds[at] / RPM) else {
            operation.state = unordered();
            return;
        };
        let side = network.right_hand_side(model, false);
        let Verdict::Solved { x, .. } = decide(model, &network, &side) else {
            conclude(model, settled, &network, &side, operation);
            return;
        };
        let mut change = 0.0_f64;
        for &(at, motor) in motors {
            let torque = network.source_torque(&x, at);
            let sense = motor.supply.sign();
            let available = motor.creeping_torque().to_newton_metres();
            if torque * sense > available {
                let needed = torque * sense;
                operation.state = State::Stalled {
                    source: at,
                    needed,
                    available,
                };
                return;
            }
            let new = motor.speed_at(torque);
            change = change.max((new - speeds[at]).abs() / motor.speed_at(0.0).abs().max(f64::MIN_POSITIVE));
            // Half steps, since a load that grows with speed would make full ones swing.
            speeds[at] = if speed_matters(model) {
                (new + speeds[at]) / 2.0
            } else {
                new
            };
        }
        if change <= SETTLED {
            conclude(model, settled, &network, &side, operation);
            return;
        }
    }
    operation.state = unordered();
}
