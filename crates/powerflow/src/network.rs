//! The train at one motion as an absolute-value equation: which row and column is what, and the right-hand side.
//!
//! Rows: equilibrium of torque (N·m) on every shaft that carries any, of force (N) on a vehicle's body; then one row of
//! compliance per redundant loop. Columns: one multiplier per element, then one torque per source.

use layshaft_kinematics::{Constraint, Element, ElementIdx, ShaftIdx, Train, Turning};

use crate::ave::{self, Entry, Losses, Outcome, Plan, System};
use crate::loads::Load;
use crate::losses::Rotation;
use crate::model::Model;
use crate::settle::Settled;

/// A system that its plan could not put in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Unordered;

/// The equation of one motion.
#[derive(Clone, Debug)]
pub(crate) struct Network {
    system: System,
    plan: Plan,
    row_of: Vec<u32>,
    /// Per column: the element, or none for sources.
    elements: Vec<ElementIdx>,
    /// Per element of the train: `d_p`.
    pub(crate) absolute: Vec<[f64; 3]>,
    /// Per shaft: sign of its speed.
    pub(crate) signs: Vec<f64>,
    /// Per shaft: speed.
    pub(crate) speeds: Vec<f64>,
    /// Per shaft: friction torque per size of multipliers, from bearings: (column, N·m per unit).
    pub(crate) bearings: Vec<Vec<(u32, f64)>>,
}

const NO_ROW: u32 = u32::MAX;

impl Network {
    /// Sets the equation up.
    pub(crate) fn new(model: &Model, settled: &Settled, turning: &Turning) -> Result<Self, Unordered> {
        let train = settled.train(model);
        let motion = &settled.carrying_motion;
        let signs: Vec<f64> = train
            .shafts()
            .map(|shaft| f64::from(motion.sign(shaft, turning)))
            .collect();
        let rotation = Rotation {
            motion,
            turning,
            signs: &signs,
        };
        let absolute = train
            .indexed()
            .map(|(element, kind)| absolute(model, element, kind, &rotation))
            .collect();
        let mut network = Self {
            system: System::default(),
            plan: Plan::default(),
            row_of: vec![NO_ROW; train.shaft_count()],
            elements: Vec::with_capacity(train.elements().len()),
            absolute,
            speeds: train
                .shafts()
                .map(|shaft| settled.motion.speed(shaft, turning))
                .collect(),
            bearings: vec![Vec::new(); train.shaft_count()],
            signs,
        };
        let rows = network.number_rows(model, train);
        let stresses = motion.self_stresses(train);
        let compliance = compliance_rows(model, train, &stresses, rows);
        network.system = System::new(rows + stresses.len());
        for (element, kind) in train.indexed() {
            network.add_element(model, element, kind, &compliance);
        }
        for source in &model.sources {
            let row = network.row_of[source.shaft.at()];
            network.system.push((row != NO_ROW).then_some(Entry {
                row,
                linear: 1.0,
                absolute: 0.0,
            }));
        }
        network.plan = Plan::new(&network.system).map_err(|_| Unordered)?;
        Ok(network)
    }

    /// Numbers the rows: shafts that an element in use puts torque on, or that a source touches.
    fn number_rows(&mut self, model: &Model, train: &Train) -> usize {
        let mut rows = 0;
        let mut number = |shaft: ShaftIdx| {
            let row = &mut self.row_of[shaft.at()];
            if *row == NO_ROW {
                *row = rows;
                rows += 1;
            }
        };
        for (element, absolute) in train.elements().iter().zip(&self.absolute) {
            let constraint = element.constraint();
            // A carrier whose gears have the basic ratio 1 gets torque from losses only.
            let acting = constraint.terms().iter().zip(absolute);
            acting
                .filter(|(term, absolute)| term.coefficient != 0 || **absolute != 0.0)
                .filter_map(|(term, _)| term.port.shaft())
                .for_each(&mut number);
        }
        model
            .sources
            .iter()
            .map(|source| source.shaft)
            .for_each(&mut number);
        rows as usize
    }

    fn add_element(
        &mut self,
        model: &Model,
        element: ElementIdx,
        kind: &Element,
        compliance: &[Vec<(u32, f64)>],
    ) {
        let constraint = kind.constraint();
        if ties_nothing(&constraint) {
            return;
        }
        let Self {
            system,
            row_of,
            elements,
            absolute,
            signs,
            bearings,
            ..
        } = self;
        let column = u32::try_from(elements.len()).expect("fewer than 2^32 elements");
        let d = absolute[element.at()];
        let force = model
            .elements
            .get(element.at())
            .map_or(0.0, |loss| loss.bearing_force);
        let shared = compliance.get(element.at()).map_or(&[][..], Vec::as_slice);
        let ports = constraint.terms().iter().zip(d).filter_map(|(term, absolute)| {
            let shaft = term.port.shaft().filter(|shaft| row_of[shaft.at()] != NO_ROW)?;
            // Bearings press with the teeth's force, and rub only while the shaft turns.
            let journal = model.shafts[shaft.at()]
                .journal
                .filter(|_| signs[shaft.at()] != 0.0);
            let friction = journal.map_or(0.0, |journal| journal.arm() * force);
            if friction > 0.0 {
                bearings[shaft.at()].push((column, friction));
            }
            Some(Entry {
                row: row_of[shaft.at()],
                linear: term.weight(),
                absolute: absolute - signs[shaft.at()] * friction,
            })
        });
        let shared = shared.iter().map(|&(row, linear)| Entry {
            row,
            linear,
            absolute: 0.0,
        });
        system.push(ports.chain(shared));
        elements.push(element);
    }

    /// Sets the speeds to another size; signs must stay.
    pub(crate) fn scale_speeds(&mut self, factor: f64) {
        for speed in &mut self.speeds {
            *speed *= factor;
        }
    }

    /// Friction on a shaft from drag, steady bearing loads and joints that slip, as torque on the shaft.
    pub(crate) fn steady_friction(&self, model: &Model, shaft: ShaftIdx, with_viscous: bool) -> f64 {
        let loss = &model.shafts[shaft.at()];
        let bearing = loss
            .journal
            .map_or(0.0, |journal| journal.arm() * journal.steady_force.to_newtons());
        let viscous = if with_viscous {
            loss.viscous * self.speeds[shaft.at()]
        } else {
            0.0
        };
        loss.given - self.signs[shaft.at()] * (loss.drag.to_newton_metres() + bearing) - viscous
    }

    /// The right-hand side for loads as they are, at the present speeds, or creeping (terms of speed left out).
    pub(crate) fn right_hand_side(&self, model: &Model, creeping: bool) -> Vec<f64> {
        let mut side = vec![0.0; self.system.rows()];
        self.add_frictions(model, creeping, &mut side);
        for load in &model.loads {
            let speed = if creeping {
                0.0
            } else {
                self.speeds[load.shaft.at()]
            };
            self.put_load(
                model,
                load,
                load.on_shaft(self.signs[load.shaft.at()], speed),
                &mut side,
            );
        }
        side
    }

    /// The right-hand side creeping, with one load replaced by `torque` on its shaft.
    pub(crate) fn side_with(&self, model: &Model, replaced: usize, torque: f64) -> Vec<f64> {
        let mut side = vec![0.0; self.system.rows()];
        self.add_frictions(model, true, &mut side);
        for (at, load) in model.loads.iter().enumerate() {
            let own = load.on_shaft(self.signs[load.shaft.at()], 0.0);
            self.put_load(model, load, if at == replaced { torque } else { own }, &mut side);
        }
        side
    }

    /// The right-hand side of the loads alone, without drag and bearings.
    pub(crate) fn loads_alone(&self, model: &Model, factor: f64) -> Vec<f64> {
        let mut side = vec![0.0; self.system.rows()];
        for load in &model.loads {
            let torque = load.on_shaft(self.signs[load.shaft.at()], self.speeds[load.shaft.at()]);
            self.put(load.shaft, torque * factor, &mut side);
        }
        side
    }

    /// The right-hand side of what pulls at rest.
    pub(crate) fn loads_at_rest(&self, model: &Model) -> Vec<f64> {
        let mut side = vec![0.0; self.system.rows()];
        for load in &model.loads {
            self.put(load.shaft, load.on_shaft(0.0, 0.0), &mut side);
        }
        side
    }

    fn add_frictions(&self, model: &Model, creeping: bool, side: &mut [f64]) {
        for (at, &row) in (0_u32..).zip(&self.row_of) {
            if row != NO_ROW {
                side[row as usize] -= self.steady_friction(model, ShaftIdx(at), !creeping);
            }
        }
    }

    /// A load's torque, with what its line pull adds in the bearings.
    fn put_load(&self, model: &Model, load: &Load, torque: f64, side: &mut [f64]) {
        let friction = model.line_friction(load, torque, self.signs[load.shaft.at()]);
        self.put(load.shaft, torque + friction, side);
    }

    fn put(&self, shaft: ShaftIdx, torque: f64, side: &mut [f64]) {
        let row = self.row_of[shaft.at()];
        if row != NO_ROW {
            side[row as usize] -= torque;
        }
    }

    /// Solves for a right-hand side.
    pub(crate) fn solve(&self, side: &[f64], losses: Losses<'_>) -> Outcome {
        ave::solve(&self.system, &self.plan, side, losses)
    }

    /// Torque of a source in a solution.
    pub(crate) fn source_torque(&self, x: &[f64], source: usize) -> f64 {
        x[self.elements.len() + source]
    }

    /// The elements that columns stand for.
    pub(crate) fn elements_of(&self, columns: &[u32]) -> Vec<ElementIdx> {
        columns
            .iter()
            .filter_map(|&column| self.elements.get(column as usize).copied())
            .collect()
    }

    /// Multipliers by element of the train; 0 for elements set aside.
    pub(crate) fn multipliers(&self, x: &[f64], elements: usize) -> Vec<f64> {
        let mut multipliers = vec![0.0; elements];
        for (element, value) in self.elements.iter().zip(x) {
            multipliers[element.at()] = *value;
        }
        multipliers
    }
}

/// `d_p` of an element; holds stand in for what does not move and lose nothing.
fn absolute(model: &Model, element: ElementIdx, kind: &Element, rotation: &Rotation<'_>) -> [f64; 3] {
    match model.elements.get(element.at()) {
        Some(loss) if !kind.is_hold() => loss.loss.absolute(kind, rotation),
        _ => [0.0; 3],
    }
}

/// Whether a constraint reads 0 = 0: on the frame alone, or two ends on one shaft that cancel.
pub(crate) fn ties_nothing(constraint: &Constraint) -> bool {
    let terms = constraint.terms();
    let on = |shaft| terms.iter().filter(move |term| term.port.shaft() == Some(shaft));
    let shafts = terms.iter().filter_map(|term| term.port.shaft());
    shafts
        .into_iter()
        .all(|shaft| on(shaft).map(|term| term.coefficient).sum::<i128>() == 0)
}

/// Per element: its entries in the compliance rows `Σ N_e C_e L_e = 0`, one row per self-stress, numbered from `first`.
///
/// Wheels on the ground share by wheel load, whatever else is in the loop; gears and belts share by their compliance; a
/// loop of nothing but stiff parts shares as if all were alike.
pub(crate) fn compliance_rows(
    model: &Model,
    train: &Train,
    stresses: &[layshaft_kinematics::SelfStress],
    first: usize,
) -> Vec<Vec<(u32, f64)>> {
    if stresses.is_empty() {
        return Vec::new();
    }
    let mut rows = vec![Vec::new(); train.elements().len()];
    for (at, stress) in (first..).zip(stresses) {
        let row = u32::try_from(at).expect("fewer than 2^32 rows");
        let on_ground = |element: ElementIdx| match train.element(element) {
            Element::Rolling(rolling) => {
                let scale = rolling.radius[1] as f64;
                scale * scale
            }
            _ => 0.0,
        };
        let own = |element: ElementIdx| {
            model
                .elements
                .get(element.at())
                .map_or(0.0, |loss| loss.compliance)
        };
        let any =
            |of: &dyn Fn(ElementIdx) -> f64| stress.multipliers.iter().any(|&(element, _)| of(element) > 0.0);
        let alike = |_: ElementIdx| 1.0;
        let weight: &dyn Fn(ElementIdx) -> f64 = if any(&on_ground) {
            &on_ground
        } else if any(&own) {
            &own
        } else {
            &alike
        };
        let parts: Vec<(ElementIdx, f64)> = stress
            .multipliers
            .iter()
            .map(|(element, share)| (*element, to_float(share) * weight(*element)))
            .filter(|&(_, value)| value != 0.0)
            .collect();
        let largest = parts
            .iter()
            .fold(0.0_f64, |largest, (_, value)| largest.max(value.abs()));
        for (element, value) in parts {
            rows[element.at()].push((row, value / largest));
        }
    }
    rows
}

fn to_float(ratio: &layshaft_kinematics::Ratio) -> f64 {
    num_traits::ToPrimitive::to_f64(ratio).unwrap_or(f64::NAN)
}
