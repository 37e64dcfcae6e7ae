//! The absolute-value equation of a motion: columns of multipliers, then of independent accelerations (or of the torques
//! of cranks in their place); rows of shafts, then of compliance.
//!
//! Signs of the multipliers hardly ever change from one moment to the next, so the last ones are tried first and matrices
//! that were taken apart are kept. Where that does not settle, the whole search of `ave` decides, and among several
//! solutions the one nearest to the last.

use layshaft_kinematics::{Constraint, ElementIdx, Motion, Train};

use super::senses::{Senses, absolute};
use crate::ave::{self, Entry, Losses, Lu, Outcome, Plan, System};
use crate::losses::Rotation;
use crate::model::{Drive, Model};
use crate::network::{compliance_rows, ties_nothing};

/// What a column stands for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Column {
    /// Multiplier of an element.
    Multiplier(ElementIdx),
    /// An independent acceleration.
    Acceleration(usize),
    /// Torque of a source.
    Crank(usize),
}

#[derive(Clone, Debug)]
pub(super) struct Equation {
    system: System,
    pub(super) columns: Vec<Column>,
    /// Per column: its value is the unknown times this.
    units: Vec<f64>,
    /// Per element of the train: `d_p`.
    pub(super) absolute: Vec<[f64; 3]>,
    /// Per shaft: friction torque of bearings per size of a column's value.
    pub(super) bearings: Vec<Vec<(usize, f64)>>,
    lossy: Vec<usize>,
    known: Vec<(Vec<i8>, Lu)>,
    last: Option<(Vec<i8>, Vec<f64>)>,
    /// Size of the torques that act at rest.
    usual: f64,
    plan: Option<Option<Plan>>,
}

/// The columns that leave no solution.
pub(super) struct Unsolved(pub(super) Vec<u32>);

/// Steps of Newton's method on the signs before the whole search.
const NEWTON_STEPS: usize = 20;
/// Matrices kept.
const MOST_KNOWN: usize = 64;
/// Below this share of the largest unknown a value counts as 0.
const ROUNDING: f64 = 1e-13;
/// So does it below this share of the torques that act at rest: what a load hardly there loses is of no account, and its
/// sign would change with every rounding.
const NO_LOAD: f64 = 1e-8;

impl Equation {
    pub(super) fn new(
        model: &Model,
        motion: &Motion,
        senses: &Senses,
        inertia: &[f64],
        combinations: &[Vec<(usize, f64)>],
        cranks: &[Option<usize>],
    ) -> Option<Self> {
        let train = &model.train;
        let stresses = motion.self_stresses(train);
        let turning = motion.turning(&[]);
        let rotation = Rotation {
            motion,
            turning: &turning,
            signs: &senses.shafts,
        };
        let mut equation = Self {
            system: System::new(train.shaft_count() + stresses.len()),
            columns: Vec::new(),
            units: Vec::new(),
            absolute: train
                .indexed()
                .map(|(element, kind)| absolute(model, element, kind, &rotation, senses))
                .collect(),
            bearings: vec![Vec::new(); train.shaft_count()],
            lossy: Vec::new(),
            known: Vec::new(),
            last: None,
            usual: usual_torque(model),
            plan: None,
        };
        let compliance = compliance_rows(model, train, &stresses, train.shaft_count());
        equation.add_multipliers(model, train, senses, &compliance);
        equation.add_freedoms(model, inertia, combinations, cranks);
        (equation.system.rows() == equation.system.columns()).then_some(equation)
    }

    fn add_multipliers(
        &mut self,
        model: &Model,
        train: &Train,
        senses: &Senses,
        compliance: &[Vec<(u32, f64)>],
    ) {
        for (element, kind) in train.indexed() {
            let constraint = kind.constraint();
            if ties_nothing(&constraint) {
                continue;
            }
            let shared = compliance.get(element.at()).map_or(&[][..], Vec::as_slice);
            let mut entries: Vec<Entry> = shared
                .iter()
                .map(|&(row, linear)| Entry {
                    row,
                    linear,
                    absolute: 0.0,
                })
                .collect();
            entries.extend(self.ports(model, element, &constraint, senses));
            self.push(Column::Multiplier(element), entries);
        }
    }

    fn ports(
        &mut self,
        model: &Model,
        element: ElementIdx,
        constraint: &Constraint,
        senses: &Senses,
    ) -> Vec<Entry> {
        let column = self.columns.len();
        let d = self.absolute[element.at()];
        let force = model
            .elements
            .get(element.at())
            .map_or(0.0, |loss| loss.bearing_force);
        let mut entries = Vec::new();
        for (term, absolute) in constraint.terms().iter().zip(d) {
            let Some(shaft) = term.port.shaft() else { continue };
            let sense = senses.shafts[shaft.at()];
            let journal = model.shafts[shaft.at()].journal.filter(|_| sense != 0.0);
            let friction = journal.map_or(0.0, |journal| journal.arm() * force);
            if friction > 0.0 {
                self.bearings[shaft.at()].push((column, friction));
            }
            entries.push(Entry {
                row: shaft.0,
                linear: term.weight(),
                absolute: absolute - sense * friction,
            });
        }
        entries
    }

    fn add_freedoms(
        &mut self,
        model: &Model,
        inertia: &[f64],
        combinations: &[Vec<(usize, f64)>],
        cranks: &[Option<usize>],
    ) {
        for (freedom, crank) in cranks.iter().enumerate() {
            if let Some(source) = *crank {
                let row = model.sources[source].shaft.0;
                let entry = Entry {
                    row,
                    linear: 1.0,
                    absolute: 0.0,
                };
                self.push(Column::Crank(source), vec![entry]);
                continue;
            }
            let mut entries = Vec::new();
            for ((row, parts), inertia) in (0_u32..).zip(combinations).zip(inertia) {
                if let Some(&(_, factor)) = parts.iter().find(|(at, _)| *at == freedom) {
                    entries.push(Entry {
                        row,
                        linear: -inertia * factor,
                        absolute: 0.0,
                    });
                }
            }
            self.push(Column::Acceleration(freedom), entries);
        }
    }

    /// Adds a column, brought to one size: rows of torques take multipliers of any unit.
    fn push(&mut self, column: Column, entries: Vec<Entry>) {
        let largest = entries
            .iter()
            .fold(0.0_f64, |largest, entry| largest.max(entry.linear.abs()));
        let unit = if largest > 0.0 { 1.0 / largest } else { 1.0 };
        if entries.iter().any(|entry| entry.absolute != 0.0) {
            self.lossy.push(self.columns.len());
        }
        self.system.push(entries.into_iter().map(|entry| Entry {
            row: entry.row,
            linear: entry.linear * unit,
            absolute: entry.absolute * unit,
        }));
        self.columns.push(column);
        self.units.push(unit);
    }

    pub(super) const fn rows(&self) -> usize {
        self.system.rows()
    }

    /// Values of all columns for a right-hand side.
    pub(super) fn solve(&mut self, side: &[f64]) -> Result<Vec<f64>, Unsolved> {
        let mut x = match self.newton(side) {
            Some(x) => x,
            None => self.search(side)?,
        };
        for (value, unit) in x.iter_mut().zip(&self.units) {
            *value *= unit;
        }
        Ok(x)
    }

    /// Values of all columns with the signs of the multipliers as they were last: smooth, and right while the margin is
    /// positive.
    pub(super) fn solve_with_last_signs(&mut self, side: &[f64]) -> Result<Vec<f64>, Unsolved> {
        let signs = self.last.as_ref().map(|(signs, _)| signs.clone());
        let Some(mut x) = signs.and_then(|signs| self.with_signs(&signs, side)) else {
            return self.solve(side);
        };
        for (value, unit) in x.iter_mut().zip(&self.units) {
            *value *= unit;
        }
        Ok(x)
    }

    /// How far the multiplier nearest to it is from another sign than the last, as a share of the usual torques; negative
    /// where one has changed.
    pub(super) fn margin(&self, x: &[f64]) -> f64 {
        let Some((signs, _)) = &self.last else { return 1.0 };
        let of = |(&column, &sign): (&usize, &i8)| {
            let value = x[column] / self.units[column] / self.usual;
            if sign == 0 {
                2.0 * NO_LOAD - value.abs()
            } else {
                2.0 * NO_LOAD + f64::from(sign) * value
            }
        };
        self.lossy.iter().zip(signs).map(of).fold(1.0, f64::min)
    }

    fn newton(&mut self, side: &[f64]) -> Option<Vec<f64>> {
        let first = self.last.is_none();
        if first && !self.lossy.is_empty() && !self.is_unique() {
            // Without a past, several solutions may be there: look at all.
            return None;
        }
        let mut signs = match &self.last {
            Some((signs, _)) => signs.clone(),
            None => vec![0; self.lossy.len()],
        };
        for _ in 0..NEWTON_STEPS {
            let x = self.with_signs(&signs, side)?;
            let next = self.signs_of(&x, &signs);
            if next == signs {
                self.last = Some((signs, x.clone()));
                return Some(x);
            }
            signs = next;
        }
        None
    }

    /// Signs of the lossy columns; values that are rounding keep theirs.
    fn signs_of(&self, x: &[f64], before: &[i8]) -> Vec<i8> {
        let largest = x.iter().fold(0.0_f64, |largest, value| largest.max(value.abs()));
        let sign = |(&column, &before): (&usize, &i8)| {
            let value = x[column];
            if value.abs() <= (ROUNDING * largest).max(NO_LOAD * self.usual) {
                before
            } else if value > 0.0 {
                1
            } else {
                -1
            }
        };
        self.lossy.iter().zip(before).map(sign).collect()
    }

    fn with_signs(&mut self, signs: &[i8], side: &[f64]) -> Option<Vec<f64>> {
        if let Some((_, lu)) = self.known.iter().find(|(known, _)| known == signs) {
            return Some(lu.solve(side));
        }
        let mut all = vec![0.0; self.columns.len()];
        for (&column, &sign) in self.lossy.iter().zip(signs) {
            all[column] = f64::from(sign);
        }
        let mut entries = Vec::new();
        for (column, sign) in (0_u32..).zip(&all) {
            for entry in self.system.column(column as usize) {
                entries.push((entry.row, column, entry.linear + entry.absolute * sign));
            }
        }
        let lu = Lu::new(self.columns.len(), entries)?;
        let x = lu.solve(side);
        if self.known.len() >= MOST_KNOWN {
            self.known.clear();
        }
        self.known.push((signs.to_vec(), lu));
        x.iter().all(|value| value.is_finite()).then_some(x)
    }

    fn plan(&mut self) -> Option<&Plan> {
        let system = &self.system;
        self.plan.get_or_insert_with(|| Plan::new(system).ok()).as_ref()
    }

    fn is_unique(&mut self) -> bool {
        self.plan()
            .is_some_and(|plan| plan.blocks().all(|(rows, _, unique)| rows.len() == 1 || unique))
    }

    fn search(&mut self, side: &[f64]) -> Result<Vec<f64>, Unsolved> {
        let count = self.columns.len();
        let all = || (0_u32..).take(count).collect();
        let Some(plan) = self.plan().cloned() else {
            return Err(Unsolved(all()));
        };
        let solutions = match ave::solve(&self.system, &plan, side, Losses::Full) {
            Outcome::Solutions { solutions, .. } => solutions,
            Outcome::None { columns, .. } => return Err(Unsolved(columns)),
        };
        let origin = vec![0.0; self.columns.len()];
        let near = self.last.as_ref().map_or(&origin, |(_, x)| x);
        let distance = |x: &Vec<f64>| -> f64 {
            let steps = x.iter().zip(near).map(|(a, b)| a - b);
            steps.fold(0.0, |sum, step| sum + step * step)
        };
        let best = solutions
            .into_iter()
            .min_by(|a, b| distance(a).total_cmp(&distance(b)))
            .ok_or_else(|| Unsolved(all()))?;
        let signs = self.signs_of(&best, &vec![0; self.lossy.len()]);
        self.last = Some((signs, best.clone()));
        Ok(best)
    }

    pub(super) fn elements_of(&self, columns: &[u32]) -> Vec<ElementIdx> {
        let element = |&column: &u32| match self.columns.get(column as usize) {
            Some(Column::Multiplier(element)) => Some(*element),
            _ => None,
        };
        columns.iter().filter_map(element).collect()
    }
}

/// The largest of the torques that motors, loads, friction and slipping joints put on shafts at rest.
fn usual_torque(model: &Model) -> f64 {
    let loads = model
        .loads
        .iter()
        .flat_map(|load| [load.on_shaft(1.0, 0.0), load.on_shaft(-1.0, 0.0)]);
    let motors = model.sources.iter().map(|source| match &source.drive {
        Drive::Motor(motor) => motor.torque_constant * motor.current(0.0).to_amperes(),
        Drive::Crank { .. } => 0.0,
    });
    let shafts = model
        .shafts
        .iter()
        .flat_map(|shaft| [shaft.drag.to_newton_metres(), shaft.given]);
    let all = loads.chain(motors).chain(shafts);
    all.fold(f64::MIN_POSITIVE, |largest, torque| largest.max(torque.abs()))
}
