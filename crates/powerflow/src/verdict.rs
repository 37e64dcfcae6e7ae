//! From the solutions of the absolute-value equation to one answer: solved, locked, or more than one.

use layshaft_kinematics::ElementIdx;

use crate::ave::{Losses, Outcome};
use crate::model::Model;
use crate::network::Network;

/// Where and how a train locks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lock {
    /// The elements of the block that has no solution.
    pub elements: Vec<ElementIdx>,
    /// It locks whichever way the load acts.
    pub by_own_friction: bool,
}

/// The answer for one right-hand side.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Verdict {
    /// One state, with elements of blocks that could not be searched whole.
    Solved { x: Vec<f64>, unproven: Vec<ElementIdx> },
    /// No drive torque moves it.
    Locked(Lock),
    /// More than one state that is not wedged.
    Ambiguous {
        elements: Vec<ElementIdx>,
        range: [f64; 2],
    },
}

/// Solves and decides.
pub(crate) fn decide(model: &Model, network: &Network, side: &[f64]) -> Verdict {
    match network.solve(side, Losses::Full) {
        Outcome::None { columns, .. } => {
            let loads = network.loads_alone(model, 1.0);
            let flipped: Vec<f64> = side
                .iter()
                .zip(&loads)
                .map(|(side, load)| side - 2.0 * load)
                .collect();
            let other_way = matches!(network.solve(&flipped, Losses::Full), Outcome::Solutions { .. });
            Verdict::Locked(Lock {
                elements: network.elements_of(&columns),
                by_own_friction: !other_way,
            })
        }
        Outcome::Solutions {
            mut solutions,
            unproven,
        } => {
            let unproven = network.elements_of(&unproven);
            if let [_] = solutions[..] {
                return Verdict::Solved {
                    x: solutions.remove(0),
                    unproven,
                };
            }
            choose(model, network, solutions, unproven)
        }
    }
}

fn choose(model: &Model, network: &Network, solutions: Vec<Vec<f64>>, unproven: Vec<ElementIdx>) -> Verdict {
    let differing = differing_columns(&solutions);
    let mut free: Vec<Vec<f64>> = solutions
        .into_iter()
        .filter(|x| !is_wedged(model, network, x))
        .collect();
    match free.len() {
        0 => Verdict::Locked(Lock {
            elements: network.elements_of(&differing),
            by_own_friction: true,
        }),
        1 => Verdict::Solved {
            x: free.remove(0),
            unproven,
        },
        _ => {
            let torques = free.iter().map(|x| network.source_torque(x, 0));
            let range = [
                torques.clone().fold(f64::INFINITY, f64::min),
                torques.fold(f64::NEG_INFINITY, f64::max),
            ];
            Verdict::Ambiguous {
                elements: network.elements_of(&differing),
                range,
            }
        }
    }
}

fn differing_columns(solutions: &[Vec<f64>]) -> Vec<u32> {
    let columns = solutions.first().map_or(0, Vec::len);
    let differs = |column: usize| solutions.iter().any(|x| x[column] != solutions[0][column]);
    (0_u32..)
        .zip(0..columns)
        .filter(|&(_, column)| differs(column))
        .map(|(at, _)| at)
        .collect()
}

/// A state whose drive torque rises as the resisting load falls: teeth wedged by friction, never where it operates.
fn is_wedged(model: &Model, network: &Network, x: &[f64]) -> bool {
    let signs: Vec<f64> = x
        .iter()
        .map(|&value| if value == 0.0 { 0.0 } else { value.signum() })
        .collect();
    let more_load = network.loads_alone(model, 1.0);
    let change = |losses| match network.solve(&more_load, losses) {
        Outcome::Solutions { solutions, .. } => network.source_torque(&solutions[0], 0),
        Outcome::None { .. } => 0.0,
    };
    change(Losses::Signed(&signs)) * change(Losses::Without) < 0.0
}
