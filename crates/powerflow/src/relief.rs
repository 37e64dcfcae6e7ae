//! Bearing loads as vectors: forces on a shaft that pull against one another load its bearings less than their sum.
//!
//! Journals rub with the scalar sum of the forces on them, a safe bound. Where the places of the axes are known, the
//! directions of the forces are too: each shaft's sum is multiplied by vector over scalar, and the train solved again
//! until that settles. Which way elements pull is worked out in `pulls`. Directions are in the plane across the shafts.

mod pulls;
mod stall;

pub use pulls::{belt_force, belt_pull, chain_force, mesh_pull, tooth_force, worm_force};
pub use stall::{RelievedStall, stall_relieved};

use layshaft_kinematics::ElementIdx;

use crate::flow::Flow;
use crate::model::Model;
use crate::operate::{Operation, operate};

/// Which way an element pulls the shaft at one of its ports: force in N = `bearing_force (L along + |L| separating)`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PortPull {
    /// Part that turns round with the sign of the multiplier: tangential force of teeth, skew of a belt's strand.
    pub along: [f64; 2],
    /// Part that keeps its direction: what drives teeth apart, what draws pulleys together.
    pub separating: [f64; 2],
}

/// A train solved with the vector sums of the forces on its bearings.
#[derive(Clone, Debug)]
pub struct Relieved {
    /// The model with the relief of every journal set.
    pub model: Model,
    /// Its state and flow.
    pub operation: Operation,
    /// Whether the vector sums settled; else model and operation are those of the scalar sums, the safe bound.
    pub settled: bool,
}

/// Largest change of a relief that counts as none, and the most rounds.
const SETTLED: f64 = 1e-10;
const MOST_ROUNDS: usize = 50;

/// Forces on one shaft.
#[derive(Clone, Copy, Debug, Default)]
struct BearingLoad {
    scalar: f64,
    vector: [f64; 2],
    /// Sizes of forces whose direction is not known.
    undirected: f64,
}

impl BearingLoad {
    fn add(&mut self, size: f64, vector: Option<[f64; 2]>) {
        self.scalar += size;
        match vector {
            Some([x, y]) => self.vector = [self.vector[0] + x, self.vector[1] + y],
            None => self.undirected += size,
        }
    }

    /// Vector over scalar; a force without a direction counts as if it pulled the worst way.
    fn relief(&self) -> f64 {
        if self.scalar > 0.0 {
            ((libm::hypot(self.vector[0], self.vector[1]) + self.undirected) / self.scalar).min(1.0)
        } else {
            1.0
        }
    }
}

/// Per shaft: size of the vector sum of the forces on its bearings over the sum of their sizes, at a power flow; 1 where
/// nothing presses.
#[must_use]
pub fn reliefs(model: &Model, flow: &Flow) -> Vec<f64> {
    let mut loads = vec![BearingLoad::default(); model.train.shaft_count()];
    for (load, shaft) in loads.iter_mut().zip(&model.shafts) {
        if let Some(journal) = shaft.journal {
            load.add(journal.steady_force.to_newtons(), journal.steady_pull);
        }
    }
    for (load, torque) in model.loads.iter().zip(&flow.load_torques) {
        // Which way the line runs is not known.
        if model.shafts[load.shaft.at()].journal.is_some() {
            loads[load.shaft.at()].add(load.bearing_force(*torque), None);
        }
    }
    for (element, kind) in model.train.indexed() {
        let Some(loss) = model
            .elements
            .get(element.at())
            .filter(|loss| loss.bearing_force > 0.0)
        else {
            continue;
        };
        let multiplier = multiplier(model, flow, element) * loss.bearing_force;
        for (term, pull) in kind
            .constraint()
            .terms()
            .iter()
            .zip(loss.pulls.as_deref().copied().unwrap_or_default())
        {
            if let Some(shaft) = term.port.shaft() {
                loads[shaft.at()].add(multiplier.abs(), pull.map(|pull| pull.at(multiplier)));
            }
        }
    }
    loads.iter().map(BearingLoad::relief).collect()
}

impl PortPull {
    /// The force, for a multiplier times bearing force.
    pub(crate) fn at(&self, multiplier: f64) -> [f64; 2] {
        [0, 1].map(|axis| multiplier * self.along[axis] + multiplier.abs() * self.separating[axis])
    }
}

/// An element's multiplier from its port torques: friction adds to one side of a pair what it takes from the other, in
/// terms of tooth load, so their mean is free of it.
fn multiplier(model: &Model, flow: &Flow, element: ElementIdx) -> f64 {
    let constraint = model.train.element(element).constraint();
    let terms = constraint.terms();
    let loads = terms.iter().zip(flow.into_element(element));
    let sum: f64 = loads.map(|(term, torque)| -torque / term.weight()).sum();
    sum / terms.len().max(1) as f64
}

/// Whether the direction of any force on a journal is known.
fn has_directions(model: &Model) -> bool {
    let pulled = |element: &crate::ElementLoss| element.bearing_force > 0.0 && element.pulls.is_some();
    model
        .shafts
        .iter()
        .any(|shaft| shaft.journal.is_some_and(|journal| journal.arm() > 0.0))
        && (model.elements.iter().any(pulled)
            || model
                .shafts
                .iter()
                .any(|shaft| shaft.journal.is_some_and(|journal| journal.steady_pull.is_some())))
}

fn with_reliefs(model: &Model, reliefs: &[f64]) -> Model {
    let mut relieved = model.clone();
    for (shaft, relief) in relieved.shafts.iter_mut().zip(reliefs) {
        if let Some(journal) = &mut shaft.journal {
            journal.relief = *relief;
        }
    }
    relieved
}

/// Largest change of a relief.
fn change(now: &[f64], next: &[f64]) -> f64 {
    let changes = now.iter().zip(next).map(|(now, next)| (now - next).abs());
    changes.fold(0.0, f64::max)
}

/// Solves a train with the vector sums of the forces on its bearings, where their directions are known.
///
/// Starts from bearings without friction, so that a train that only the scalar bound would lock is not taken for locked.
/// Where the sums don't settle within 50 rounds to 1e-10, or the train does not move with one of them, the result is that
/// of the scalar sums and [`Relieved::settled`] is false.
#[must_use]
pub fn operate_relieved(model: &Model) -> Relieved {
    let by_scalar = |settled| Relieved {
        operation: operate(model),
        model: model.clone(),
        settled,
    };
    if !has_directions(model) {
        return by_scalar(true);
    }
    let mut now = vec![0.0; model.shafts.len()];
    for _ in 0..MOST_ROUNDS {
        let relieved = with_reliefs(model, &now);
        let operation = operate(&relieved);
        let Some(flow) = &operation.flow else { break };
        let next = reliefs(model, flow);
        if change(&now, &next) < SETTLED {
            return Relieved {
                model: relieved,
                operation,
                settled: true,
            };
        }
        now = next;
    }
    by_scalar(false)
}

#[cfg(test)]
mod tests;
