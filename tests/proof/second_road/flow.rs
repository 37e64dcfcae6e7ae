//! Power flow by brute force: for every choice of which end drives in each lossy element, one dense linear system of
//! port torques; kept are the solutions in which the ends that were to drive do drive.
//!
//! Unknown here is the torque into every element at every port. An element gives the conditions of its definition
//! (`power out = efficiency · power in`, torques of a carrier gear add up to 0); every shaft is in balance. No
//! multipliers, no `k`, no absolute values: nothing is shared with the engine but the definitions.

use nalgebra::{DMatrix, DVector};

use super::joints::{At, Joint};

/// A train at known speeds under known loads.
#[derive(Clone, Debug)]
pub struct Question<'a> {
    pub joints: &'a [Joint],
    /// Per coordinate; exactly 0 where it stands still.
    pub speeds: Vec<f64>,
    /// Per joint: it touches a coordinate that nothing settles, and carries nothing.
    pub aside: Vec<bool>,
    /// Per joint: it holds by its friction, whatever torques are at its ends.
    pub held: Vec<bool>,
    /// Per coordinate: torque (force) that loads take from it.
    pub loads: Vec<f64>,
    /// Per coordinate: torque that drag takes from it.
    pub drag: Vec<f64>,
}

/// Torques into every joint at its ports.
pub type Torques = Vec<Vec<f64>>;

/// What brute force finds.
#[derive(Clone, Debug)]
pub enum Answer {
    /// More unknowns than conditions: a redundant loop.
    Redundant,
    /// So near to a change of state that floats should not decide.
    Uncertain,
    /// All solutions, with whether each is wedged.
    Solutions(Vec<(Torques, bool)>),
}

impl Question<'_> {
    fn speed(&self, at: At) -> f64 {
        at.map_or(0.0, |at| self.speeds[at])
    }

    /// Speed of one end against another; rounding counts as none.
    fn slip(&self, a: At, b: At) -> f64 {
        let (a, b) = (self.speed(a), self.speed(b));
        if (a - b).abs() <= 1e-9 * (a.abs() + b.abs()) {
            0.0
        } else {
            a - b
        }
    }

    fn ports(&self, joint: usize) -> Vec<At> {
        match &self.joints[joint] {
            _ if self.aside[joint] => Vec::new(),
            Joint::Pair { ends, .. } | Joint::Worm { ends, .. } => ends.to_vec(),
            Joint::Gear { ends, .. } => ends.to_vec(),
            Joint::Hold { end } | Joint::Source { end } => vec![*end],
            Joint::Wheels { ends, .. } => ends.clone(),
            Joint::Load { .. } | Joint::Off => Vec::new(),
        }
    }

    /// Whether it matters which end drives.
    fn lossy(&self, joint: usize) -> bool {
        match &self.joints[joint] {
            _ if self.aside[joint] => false,
            Joint::Pair { ends, efficiency, .. } => *efficiency < 1.0 && self.speed(ends[0]) != 0.0,
            Joint::Worm { ends, .. } => !self.held[joint] && self.speed(ends[0]) != 0.0,
            Joint::Gear { ends, efficiency, .. } => *efficiency < 1.0 && self.slip(ends[0], ends[2]) != 0.0,
            _ => false,
        }
    }

    /// Conditions on the port torques of one joint, with the port that drives: `second` or first.
    fn conditions(&self, joint: usize, second: bool, lossless: bool) -> Vec<Vec<f64>> {
        let losing = self.lossy(joint) && !lossless;
        match &self.joints[joint] {
            _ if self.held[joint] => Vec::new(),
            Joint::Pair { turns, .. } | Joint::Worm { turns, .. } if !losing => vec![turns.to_vec()],
            Joint::Pair { ends, efficiency, .. } => {
                let [a, b] = ends.map(|end| self.speed(end));
                vec![if second {
                    vec![a, efficiency * b]
                } else {
                    vec![efficiency * a, b]
                }]
            }
            Joint::Worm {
                ends, driving, back, ..
            } => {
                let [worm, wheel] = ends.map(|end| self.speed(end));
                vec![if second {
                    vec![worm, back * wheel]
                } else {
                    vec![driving * worm, wheel]
                }]
            }
            Joint::Gear { ratio, .. } if !losing => vec![vec![1.0; 3], vec![*ratio, 1.0, 0.0]],
            Joint::Gear { ends, efficiency, .. } => {
                let rolls = [0, 1].map(|at| self.slip(ends[at], ends[2]));
                let rolling = if second {
                    [1.0, *efficiency]
                } else {
                    [*efficiency, 1.0]
                };
                vec![
                    vec![1.0; 3],
                    vec![rolling[0] * rolls[0], rolling[1] * rolls[1], 0.0],
                ]
            }
            _ => Vec::new(),
        }
    }

    /// Power into the end that was to drive; for a worm whose wheel is to be driven, the power out of the wheel.
    fn driving_power(&self, joint: usize, second: bool, torques: &[f64]) -> f64 {
        match &self.joints[joint] {
            Joint::Pair { ends, .. } => {
                let at = usize::from(second);
                torques[at] * self.speed(ends[at])
            }
            Joint::Worm { ends, .. } => torques[1] * self.speed(ends[1]) * if second { 1.0 } else { -1.0 },
            Joint::Gear { ends, .. } => {
                let at = usize::from(second);
                torques[at] * self.slip(ends[at], ends[2])
            }
            _ => 0.0,
        }
    }

    fn system(&self, driver: &dyn Fn(usize) -> bool, lossless: bool, numbers: &Numbers) -> DMatrix<f64> {
        let mut rows: Vec<DVector<f64>> = Vec::new();
        for joint in 0..self.joints.len() {
            if self.aside[joint] {
                continue;
            }
            for factors in self.conditions(joint, driver(joint), lossless) {
                let mut row = DVector::<f64>::zeros(numbers.count);
                for (port, factor) in factors.into_iter().enumerate() {
                    row[numbers.first[joint] + port] = factor;
                }
                rows.push(&row / row.norm());
            }
        }
        rows.extend(numbers.balances.iter().map(|(_, row)| row.clone()));
        DMatrix::from_fn(rows.len(), numbers.count, |row, column| rows[row][column])
    }

    /// All solutions.
    pub fn answer(&self) -> Answer {
        let numbers = Numbers::of(self);
        let lossless = self.system(&|_| false, true, &numbers);
        if lossless.nrows() != numbers.count || !regular(&lossless) {
            return Answer::Redundant;
        }
        let side = self.side(&numbers, &|at| self.loads[at] + self.drag[at]);
        let more_load = self.side(&numbers, &|at| self.loads[at]);
        let drive_asks = |system: &DMatrix<f64>| self.drive_torque(&solved(system, &more_load), &numbers);
        let lossless_asks = drive_asks(&lossless);
        let lossy: Vec<usize> = (0..self.joints.len())
            .filter(|&joint| self.lossy(joint))
            .collect();
        let mut found: Vec<(DVector<f64>, bool)> = Vec::new();
        for pattern in 0_u32..1 << lossy.len() {
            let second = |joint: usize| {
                lossy
                    .iter()
                    .position(|&own| own == joint)
                    .is_some_and(|bit| pattern >> bit & 1 == 1)
            };
            let system = self.system(&second, false, &numbers);
            if !regular(&system) {
                return Answer::Uncertain;
            }
            let x = solved(&system, &side);
            match self.fits(&x, &lossy, &second, &numbers) {
                Fit::No => {}
                Fit::Barely => return Answer::Uncertain,
                Fit::Yes => {
                    if found
                        .iter()
                        .all(|(other, _)| (other - &x).amax() > 1e-7 * x.amax())
                    {
                        found.push((x, drive_asks(&system) * lossless_asks < 0.0));
                    }
                }
            }
        }
        Answer::Solutions(
            found
                .into_iter()
                .map(|(x, wedged)| (numbers.by_joint(&x), wedged))
                .collect(),
        )
    }

    /// Checks that torques meet every joint's conditions and that every coordinate is in balance.
    pub fn check(&self, torques: &Torques) {
        let numbers = Numbers::of(self);
        let used = |joint: usize| &torques[joint][..numbers.ports[joint].min(torques[joint].len())];
        let largest = torques
            .iter()
            .flatten()
            .fold(0.0_f64, |largest, torque| largest.max(torque.abs()));
        for (joint, own) in torques.iter().enumerate() {
            let met = |second: bool| {
                let conditions = self.conditions(joint, second, false);
                let power = self.driving_power(joint, second, used(joint));
                let norm = |factors: &[f64]| {
                    factors
                        .iter()
                        .fold(0.0_f64, |norm, factor| norm.max(factor.abs()))
                };
                let sum = |factors: &[f64]| {
                    factors
                        .iter()
                        .zip(used(joint))
                        .map(|(factor, torque)| factor * torque)
                        .sum::<f64>()
                };
                power
                    >= -1e-9
                        * largest
                        * self
                            .speeds
                            .iter()
                            .fold(0.0, |fastest: f64, speed| fastest.max(speed.abs()))
                    && conditions
                        .iter()
                        .all(|factors| sum(factors).abs() <= 1e-7 * norm(factors) * largest)
            };
            assert!(
                self.aside[joint] || met(false) || met(true),
                "torques of element {joint}: {:?}",
                own
            );
        }
        let x = DVector::from_iterator(
            numbers.count,
            (0..self.joints.len()).flat_map(|joint| used(joint).to_vec()),
        );
        for (at, row) in &numbers.balances {
            let left = row.dot(&x) + self.loads[*at] + self.drag[*at];
            assert!(
                left.abs() <= 1e-7 * largest * row.amax(),
                "coordinate {at} is out of balance by {left}"
            );
        }
    }

    fn side(&self, numbers: &Numbers, taken: &dyn Fn(usize) -> f64) -> DVector<f64> {
        let skipped = numbers.count - numbers.balances.len();
        DVector::from_fn(numbers.count, |row, _| {
            if row < skipped {
                0.0
            } else {
                -taken(numbers.balances[row - skipped].0)
            }
        })
    }

    /// Torque of the first source on its shaft.
    fn drive_torque(&self, x: &DVector<f64>, numbers: &Numbers) -> f64 {
        let source = self
            .joints
            .iter()
            .position(|joint| matches!(joint, Joint::Source { .. }));
        source.map_or(0.0, |source| -x[numbers.first[source]])
    }

    fn fits(
        &self,
        x: &DVector<f64>,
        lossy: &[usize],
        second: &dyn Fn(usize) -> bool,
        numbers: &Numbers,
    ) -> Fit {
        let torques = numbers.by_joint(x);
        let powers: Vec<f64> = lossy
            .iter()
            .map(|&joint| self.driving_power(joint, second(joint), &torques[joint]))
            .collect();
        let largest = (0..self.joints.len())
            .flat_map(|joint| self.ports(joint).into_iter().zip(&torques[joint]))
            .map(|(end, torque)| (torque * self.speed(end)).abs())
            .fold(0.0, f64::max)
            .max(
                1e-3 * x.amax()
                    * self
                        .speeds
                        .iter()
                        .fold(0.0, |fastest, speed| speed.abs().max(fastest)),
            );
        let least = powers.iter().fold(0.0_f64, |least, power| least.min(*power));
        if least >= -1e-11 * largest {
            Fit::Yes
        } else if least >= -1e-8 * largest {
            Fit::Barely
        } else {
            Fit::No
        }
    }
}

enum Fit {
    Yes,
    Barely,
    No,
}

fn solved(system: &DMatrix<f64>, side: &DVector<f64>) -> DVector<f64> {
    if system.nrows() == 0 {
        side.clone()
    } else {
        system.clone().full_piv_lu().solve(side).expect("regular")
    }
}

fn regular(matrix: &DMatrix<f64>) -> bool {
    if matrix.nrows() == 0 {
        return true;
    }
    let values = matrix.singular_values();
    values.min() > 1e-9 * values.max()
}

/// Which column is which port, and the balance of every coordinate that carries anything.
struct Numbers {
    first: Vec<usize>,
    ports: Vec<usize>,
    count: usize,
    balances: Vec<(usize, DVector<f64>)>,
}

impl Numbers {
    fn of(question: &Question<'_>) -> Self {
        let mut numbers = Self {
            first: Vec::new(),
            ports: Vec::new(),
            count: 0,
            balances: Vec::new(),
        };
        for joint in 0..question.joints.len() {
            let ports = question.ports(joint).len();
            numbers.first.push(numbers.count);
            numbers.ports.push(ports);
            numbers.count += ports;
        }
        let mut balances = vec![None::<DVector<f64>>; question.speeds.len()];
        let mut put = |at: At, column: usize, factor: f64| {
            if let Some(at) = at {
                let row = balances[at].get_or_insert_with(|| DVector::<f64>::zeros(numbers.count));
                row[column] += factor;
            }
        };
        for (joint, kind) in question.joints.iter().enumerate() {
            for (port, at) in question.ports(joint).into_iter().enumerate() {
                put(at, numbers.first[joint] + port, 1.0);
                if let Joint::Wheels { body, radius, .. } = kind {
                    // The body is pushed by what the wheels take.
                    put(Some(*body), numbers.first[joint] + port, -1.0 / radius);
                }
            }
        }
        numbers.balances = balances
            .into_iter()
            .enumerate()
            .filter_map(|(at, row)| row.map(|row| (at, row)))
            .collect();
        numbers
    }

    fn by_joint(&self, x: &DVector<f64>) -> Torques {
        let of = |joint: usize| {
            (0..self.ports[joint])
                .map(|port| x[self.first[joint] + port])
                .collect()
        };
        (0..self.first.len()).map(of).collect()
    }
}
