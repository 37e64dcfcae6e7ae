//! Accelerations of a train in one stand: equilibrium with the torques of inertia.
//!
//! On every shaft `Σ (L c_p + |L| d_p) + T(w) − J dw/dt = 0`, with `T(w)` of loads, motors and friction at the present
//! speed and `dw/dt` an exact combination of the independent accelerations. Unknown are the multipliers and the
//! independent accelerations; a crank keeps its speed, so its torque is unknown in place of an acceleration. Losses keep
//! the form `|L| d_p`: with the signs of the multipliers known it is a linear equation, and those signs change rarely.
//! Signs of speeds are given, not read off the speeds, so that between events the accelerations are smooth.
//!
//! Every shaft needs some inertia: a freedom without any would have to jump to where its torques balance. Who calls gives
//! it a share so small that nothing else is changed by it; the equation is stiff then, which is the integrator's matter.

mod equation;
mod rates;
mod senses;

use layshaft_kinematics::{ElementIdx, Motion, ShaftIdx, solve};

use crate::model::{Drive, Model};
use crate::stand::{Stand, derive};
use equation::Equation;

pub use rates::{NoAcceleration, Rates};
pub use senses::{Rubbing, Senses};

/// Why a stand has no equation of motion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoDynamics {
    /// A crank's shaft can't turn at its speed.
    CrankBlocked {
        /// The source.
        source: usize,
    },
    /// The equation can't be put in order.
    Unordered,
}

/// The equation of motion of a model in one stand.
#[derive(Clone, Debug)]
pub struct Dynamics {
    model: Model,
    own_elements: usize,
    motion: Motion,
    senses: Senses,
    inertia: Vec<f64>,
    /// Per independent speed: a shaft of its class, and that shaft's speed per unit of it.
    roots: Vec<(ShaftIdx, f64)>,
    /// Per independent speed: the crank that sets it.
    cranks: Vec<Option<usize>>,
    /// Per shaft: its speed as a combination of the independent ones.
    combinations: Vec<Vec<(usize, f64)>>,
    equation: Equation,
}

impl Dynamics {
    /// Sets the equation up; `inertia` per shaft in kg·m² (kg of a body), positive.
    ///
    /// # Errors
    /// [`NoDynamics`].
    pub fn new(model: &Model, stand: &Stand, senses: Senses, inertia: &[f64]) -> Result<Self, NoDynamics> {
        let derived = derive(model, stand);
        let model = derived.model;
        let motion = motion_with_cranks_first(&model);
        let roots = roots(&model, &motion);
        let parameters: Vec<usize> = roots.iter().map(|&(_, class, _)| class).collect();
        let cranks = cranks(&model, &motion, &parameters)?;
        let combination = |shaft| {
            let parts = motion.float_combination(shaft);
            parts
                .filter_map(|(class, factor)| Some((parameters.binary_search(&class).ok()?, factor)))
                .collect()
        };
        let combinations: Vec<Vec<(usize, f64)>> = model.train.shafts().map(combination).collect();
        let equation = Equation::new(&model, &motion, &senses, inertia, &combinations, &cranks)
            .ok_or(NoDynamics::Unordered)?;
        Ok(Self {
            own_elements: derived.own_elements,
            roots: roots
                .into_iter()
                .map(|(shaft, _, factor)| (shaft, factor))
                .collect(),
            inertia: inertia.to_vec(),
            model,
            motion,
            senses,
            cranks,
            combinations,
            equation,
        })
    }

    /// Number of independent speeds.
    #[must_use]
    pub fn freedoms(&self) -> usize {
        self.roots.len()
    }

    /// The model as it stands.
    #[must_use]
    pub const fn model(&self) -> &Model {
        &self.model
    }

    /// Its motion.
    #[must_use]
    pub const fn motion(&self) -> &Motion {
        &self.motion
    }

    /// Number of elements that are the train's own; holds stand behind them.
    #[must_use]
    pub const fn own_elements(&self) -> usize {
        self.own_elements
    }

    /// The signs that it was set up with.
    #[must_use]
    pub const fn senses(&self) -> &Senses {
        &self.senses
    }

    /// A shaft's speed as a combination of the independent ones.
    #[must_use]
    pub fn combination(&self, shaft: ShaftIdx) -> &[(usize, f64)] {
        &self.combinations[shaft.at()]
    }

    /// A shaft that turns with one independent speed alone, and its speed per unit of it.
    #[must_use]
    pub fn root(&self, freedom: usize) -> (ShaftIdx, f64) {
        self.roots[freedom]
    }

    /// Whether a source is what sets an independent speed.
    #[must_use]
    pub fn is_given(&self, freedom: usize) -> bool {
        self.cranks[freedom].is_some()
    }

    /// Speeds of all shafts.
    #[must_use]
    pub fn speeds(&self, independent: &[f64]) -> Vec<f64> {
        self.combinations
            .iter()
            .map(|parts| parts.iter().map(|&(at, factor)| independent[at] * factor).sum())
            .collect()
    }

    /// The independent speeds of a set of shaft speeds that fits, read off one shaft each; cranks at theirs.
    #[must_use]
    pub fn independent(&self, speeds: &[f64]) -> Vec<f64> {
        let read = |(freedom, &(shaft, factor)): (usize, &(ShaftIdx, f64))| {
            self.given_speed(freedom)
                .unwrap_or_else(|| speeds[shaft.at()] / factor)
        };
        self.roots.iter().enumerate().map(read).collect()
    }

    fn given_speed(&self, freedom: usize) -> Option<f64> {
        let source = &self.model.sources[self.cranks[freedom]?];
        let Drive::Crank { speed, .. } = &source.drive else {
            return None;
        };
        let factor = self.combinations[source.shaft.at()].first()?.1;
        Some(speed / factor)
    }

    /// The independent speeds after a blow that brings speeds to ones that fit: the nearest by kinetic energy,
    /// `min Σ J (w' − w)²`, which conserves the momentum of all that stays free.
    #[must_use]
    pub fn after_blow(&self, speeds: &[f64]) -> Vec<f64> {
        let n = self.freedoms();
        let mut independent = self.independent(speeds);
        let free: Vec<usize> = (0..n).filter(|&freedom| !self.is_given(freedom)).collect();
        for &freedom in &free {
            independent[freedom] = 0.0;
        }
        let given = self.speeds(&independent);
        let mut place = vec![usize::MAX; n];
        for (at, &freedom) in free.iter().enumerate() {
            place[freedom] = at;
        }
        let mut matrix = vec![vec![0.0; free.len() + 1]; free.len()];
        for (shaft, parts) in self.combinations.iter().enumerate() {
            let inertia = self.inertia[shaft];
            for &(i, a) in parts.iter().filter(|(i, _)| place[*i] != usize::MAX) {
                for &(j, b) in parts.iter().filter(|(j, _)| place[*j] != usize::MAX) {
                    matrix[place[i]][place[j]] += inertia * a * b;
                }
                matrix[place[i]][free.len()] += inertia * a * (speeds[shaft] - given[shaft]);
            }
        }
        for (freedom, value) in free.iter().zip(eliminate(matrix)) {
            independent[*freedom] = value;
        }
        independent
    }

    /// Kinetic energy in J.
    #[must_use]
    pub fn kinetic_energy(&self, speeds: &[f64]) -> f64 {
        let parts = self.inertia.iter().zip(speeds);
        parts.map(|(inertia, speed)| 0.5 * inertia * speed * speed).sum()
    }
}

/// Cranks come first, so that their speeds are the independent ones wherever the train leaves them free.
fn motion_with_cranks_first(model: &Model) -> Motion {
    let is_crank = |drive: &Drive| matches!(drive, Drive::Crank { .. });
    let shafts_of = |cranks: bool| {
        let sources = model.sources.iter();
        sources
            .filter(move |source| is_crank(&source.drive) == cranks)
            .map(|source| source.shaft)
    };
    let mut sources: Vec<ShaftIdx> = shafts_of(true).chain(shafts_of(false)).collect();
    sources.dedup();
    solve(&model.train, model.drive, &sources)
}

/// Per independent speed: a shaft that turns with it alone, its class, its speed per unit; in the order of classes.
fn roots(model: &Model, motion: &Motion) -> Vec<(ShaftIdx, usize, f64)> {
    let mut roots: Vec<(ShaftIdx, usize, f64)> = Vec::new();
    for shaft in model.train.shafts() {
        let Some(class) = motion.parameter(shaft) else {
            continue;
        };
        if let (Err(place), Some((_, factor))) = (
            roots.binary_search_by_key(&class, |&(_, class, _)| class),
            motion.float_combination(shaft).next(),
        ) {
            roots.insert(place, (shaft, class, factor));
        }
    }
    roots
}

fn cranks(model: &Model, motion: &Motion, parameters: &[usize]) -> Result<Vec<Option<usize>>, NoDynamics> {
    let mut cranks = vec![None; parameters.len()];
    for (source, entry) in model.sources.iter().enumerate() {
        if !matches!(entry.drive, Drive::Crank { .. }) {
            continue;
        }
        let freedom = motion
            .parameter(entry.shaft)
            .and_then(|class| parameters.binary_search(&class).ok());
        match freedom {
            Some(freedom) if cranks[freedom].is_none() => cranks[freedom] = Some(source),
            _ => return Err(NoDynamics::CrankBlocked { source }),
        }
    }
    Ok(cranks)
}

/// Gauss' elimination with the largest pivot, of a small regular matrix with its right-hand side behind it.
fn eliminate(mut matrix: Vec<Vec<f64>>) -> Vec<f64> {
    let n = matrix.len();
    for at in 0..n {
        let pivot = (at..n)
            .max_by(|&a, &b| matrix[a][at].abs().total_cmp(&matrix[b][at].abs()))
            .unwrap_or(at);
        matrix.swap(at, pivot);
        let own = matrix[at].clone();
        if own[at] == 0.0 {
            continue;
        }
        for (row, values) in matrix.iter_mut().enumerate() {
            if row != at && values[at] != 0.0 {
                let factor = values[at] / own[at];
                for (value, own) in values.iter_mut().zip(&own).skip(at) {
                    *value -= factor * own;
                }
            }
        }
    }
    (0..n)
        .map(|at| {
            if matrix[at][at] == 0.0 {
                0.0
            } else {
                matrix[at][n] / matrix[at][at]
            }
        })
        .collect()
}

impl Dynamics {
    /// The elements among these columns of the equation.
    fn elements_of(&self, columns: &[u32]) -> Vec<ElementIdx> {
        self.equation.elements_of(columns)
    }
}
