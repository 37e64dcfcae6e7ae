//! Every way in which a train that lets go can stand, each as one linear system.
//!
//! Unknown are all shafts' speeds, the torques into every joint and source at their ends, and the friction of every shaft.
//! Equations: what each joint says of speeds and torques in its way of standing, and the balance of every shaft.

use nalgebra::DMatrix;

use super::bench::{Bench, Joint, LetsGo, Source};
use super::elimination::solved;

/// How a joint stands in one try.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// Holds, loss-free: nothing to lose, or it does not roll.
    Fast,
    /// Holds, and this end drives.
    Drives(usize),
    /// A one-way clutch that is overrun.
    Open,
    /// Slips, with this sign of the sum of its factors times speeds.
    Slips(f64),
}

/// How something that rubs stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Motion {
    Forward,
    Backward,
    Rest,
}

impl Motion {
    pub fn sign(self) -> f64 {
        match self {
            Self::Forward => 1.0,
            Self::Backward => -1.0,
            Self::Rest => 0.0,
        }
    }
}

/// One consistent state.
#[derive(Clone, Debug)]
pub struct State {
    pub ways: Vec<Way>,
    pub motors: Vec<Motion>,
    pub speeds: Vec<f64>,
    /// Torques into every joint.
    pub torques: Vec<Vec<f64>>,
    /// Torque into every source.
    pub sources: Vec<f64>,
}

/// All consistent states; nothing where floats can't tell, or one of them is not determined.
pub fn states(bench: &Bench) -> Option<Vec<State>> {
    let joints: Vec<Vec<Way>> = bench.joints.iter().map(ways).collect();
    let shafts: Vec<Vec<Motion>> = bench.friction.iter().map(|&friction| motions(friction)).collect();
    let motors: Vec<Vec<Motion>> = bench
        .sources
        .iter()
        .map(|(_, _, source)| match source {
            Source::Crank { .. } => vec![Motion::Forward],
            Source::Motor { .. } => motions(1.0),
        })
        .collect();
    let sizes: Vec<usize> = joints
        .iter()
        .map(Vec::len)
        .chain(shafts.iter().chain(&motors).map(Vec::len))
        .collect();
    let count: usize = sizes.iter().product();
    if count > MOST {
        return None;
    }
    let mut found: Vec<State> = Vec::new();
    for mut number in 0..count {
        let picks: Vec<usize> = sizes
            .iter()
            .map(|&size| {
                let pick = number % size;
                number /= size;
                pick
            })
            .collect();
        let (own, rest) = picks.split_at(joints.len());
        let (of_shafts, of_motors) = rest.split_at(shafts.len());
        let attempt = Attempt {
            bench,
            ways: joints.iter().zip(own).map(|(ways, &pick)| ways[pick]).collect(),
            shafts: shafts
                .iter()
                .zip(of_shafts)
                .map(|(ways, &pick)| ways[pick])
                .collect(),
            motors: motors
                .iter()
                .zip(of_motors)
                .map(|(ways, &pick)| ways[pick])
                .collect(),
        };
        match attempt.state() {
            Verdict::No => {}
            Verdict::Unclear => return None,
            Verdict::Yes(state) => {
                if found.iter().all(|other| !same(other, &state)) {
                    found.push(state);
                }
            }
        }
    }
    Some(found)
}

/// Most systems for one train.
const MOST: usize = 3_000;

fn ways(joint: &Joint) -> Vec<Way> {
    let mut ways = if joint.efficiency < 1.0 {
        vec![Way::Drives(0), Way::Drives(1), Way::Fast]
    } else {
        vec![Way::Fast]
    };
    match joint.lets_go {
        LetsGo::Never => {}
        LetsGo::OneWay(_) => ways.push(Way::Open),
        LetsGo::Slips(_) => ways.extend([Way::Slips(1.0), Way::Slips(-1.0)]),
    }
    ways
}

fn motions(friction: f64) -> Vec<Motion> {
    if friction > 0.0 {
        vec![Motion::Forward, Motion::Backward, Motion::Rest]
    } else {
        vec![Motion::Forward]
    }
}

fn same(one: &State, other: &State) -> bool {
    let close = |a: &[f64], b: &[f64]| {
        let size = a.iter().chain(b).fold(1e-9_f64, |size, x| size.max(x.abs()));
        a.iter().zip(b).all(|(a, b)| (a - b).abs() <= 1e-7 * size)
    };
    close(&one.speeds, &other.speeds)
        && close(&one.torques.concat(), &other.torques.concat())
        && close(&one.sources, &other.sources)
}

enum Verdict {
    No,
    Unclear,
    Yes(State),
}

/// A guess of how everything stands.
pub struct Attempt<'a> {
    pub bench: &'a Bench,
    pub ways: Vec<Way>,
    pub shafts: Vec<Motion>,
    pub motors: Vec<Motion>,
}

/// Speeds are counted in this many rad/s, so that they are as large as torques.
const UNIT_OF_SPEED: f64 = 10.0;

impl Attempt<'_> {
    fn state(self) -> Verdict {
        let n = self.bench.shafts.len();
        let starts = self.starts();
        let sources = starts.last().copied().unwrap_or(n);
        let friction = sources + self.bench.sources.len();
        let size = friction + n;
        let (matrix, side) = self.system(&starts, sources, friction, size);
        let Some((x, regular)) = solved(matrix, side) else {
            return Verdict::No;
        };
        let state = State {
            speeds: (0..n).map(|at| x[at] * UNIT_OF_SPEED).collect(),
            torques: self
                .bench
                .joints
                .iter()
                .zip(&starts)
                .map(|(joint, &start)| (0..joint.ends.len()).map(|end| x[start + end]).collect())
                .collect(),
            sources: (0..self.bench.sources.len()).map(|at| x[sources + at]).collect(),
            ways: self.ways.clone(),
            motors: self.motors.clone(),
        };
        let rubbing: Vec<f64> = (0..n).map(|at| x[friction + at]).collect();
        let checks = self.checks(&state, &rubbing, regular);
        if checks.broken {
            Verdict::No
        } else if checks.near || !regular {
            Verdict::Unclear
        } else {
            Verdict::Yes(state)
        }
    }

    /// The first torque of every joint, then the first of the sources.
    fn starts(&self) -> Vec<usize> {
        let mut next = self.bench.shafts.len();
        let mut starts = vec![next];
        for joint in &self.bench.joints {
            next += joint.ends.len();
            starts.push(next);
        }
        starts
    }

    fn system(
        &self,
        starts: &[usize],
        sources: usize,
        friction: usize,
        size: usize,
    ) -> (DMatrix<f64>, Vec<f64>) {
        let mut matrix = DMatrix::zeros(size, size);
        let mut side = vec![0.0; size];
        let mut row = 0;
        let mut put = |terms: &[(usize, f64)], value: f64| {
            let largest = terms
                .iter()
                .fold(1e-300_f64, |largest, term| largest.max(term.1.abs()));
            for &(column, factor) in terms {
                matrix[(row, column)] += factor / largest;
            }
            side[row] = value / largest;
            row += 1;
        };
        for ((joint, way), &start) in self.bench.joints.iter().zip(&self.ways).zip(starts) {
            rows_of(joint, *way, start, &mut put);
        }
        for (at, ((_, shaft, source), motion)) in self.bench.sources.iter().zip(&self.motors).enumerate() {
            let own = sources + at;
            match (source, motion) {
                (Source::Crank { speed }, _) => put(&[(*shaft, 1.0)], speed / UNIT_OF_SPEED),
                (Source::Motor { .. }, Motion::Rest) => put(&[(*shaft, 1.0)], 0.0),
                (
                    Source::Motor {
                        at_rest,
                        per_speed,
                        friction,
                    },
                    motion,
                ) => put(
                    &[(own, 1.0), (*shaft, -per_speed * UNIT_OF_SPEED)],
                    motion.sign() * friction - at_rest,
                ),
            }
        }
        for (shaft, motion) in self.shafts.iter().enumerate() {
            match motion {
                Motion::Rest => put(&[(shaft, 1.0)], 0.0),
                _ => put(
                    &[
                        (friction + shaft, 1.0),
                        (shaft, -self.bench.viscous[shaft] * UNIT_OF_SPEED),
                    ],
                    motion.sign() * self.bench.friction[shaft],
                ),
            }
        }
        for shaft in 0..self.bench.shafts.len() {
            let mut terms = vec![(friction + shaft, 1.0)];
            for (joint, &start) in self.bench.joints.iter().zip(starts) {
                let own = joint
                    .ends
                    .iter()
                    .enumerate()
                    .filter(|(_, end)| **end == Some(shaft));
                terms.extend(own.map(|(end, _)| (start + end, 1.0)));
            }
            let driving = self
                .bench
                .sources
                .iter()
                .enumerate()
                .filter(|(_, source)| source.1 == shaft);
            terms.extend(driving.map(|(at, _)| (sources + at, 1.0)));
            put(&terms, -self.bench.pull[shaft]);
        }
        (matrix, side)
    }
}

/// Takes an equation: terms by their columns, and their sum.
type Put<'a> = dyn FnMut(&[(usize, f64)], f64) + 'a;

/// What a joint says of speeds and torques.
fn rows_of(joint: &Joint, way: Way, start: usize, put: &mut Put<'_>) {
    let speeds: Vec<(usize, f64)> = joint
        .ends
        .iter()
        .zip(&joint.factors)
        .filter_map(|(end, factor)| end.map(|at| (at, *factor)))
        .collect();
    let ends = joint.ends.len();
    match way {
        Way::Open => (0..ends).for_each(|end| put(&[(start + end, 1.0)], 0.0)),
        Way::Slips(sign) => {
            let LetsGo::Slips(limit) = joint.lets_go else {
                panic!("only what slips slips")
            };
            let first = joint.factors[0].abs();
            (0..ends).for_each(|end| put(&[(start + end, 1.0)], sign * limit * joint.factors[end] / first));
        }
        Way::Fast | Way::Drives(_) => {
            put(&speeds, 0.0);
            if ends == 1 {
                return;
            }
            // Loss-free, torques are as the factors; of a lossy one the end that drives gets the more.
            let share = |end: usize| {
                if way == Way::Drives(end) {
                    joint.efficiency
                } else {
                    1.0
                }
            };
            put(
                &[
                    (start, joint.factors[1] * share(0)),
                    (start + 1, -joint.factors[0] * share(1)),
                ],
                0.0,
            );
            if ends == 3 {
                put(&[(start, 1.0), (start + 1, 1.0), (start + 2, 1.0)], 0.0);
            }
        }
    }
}
