//! The arithmetic of a ratio as data: one step per line, from tooth counts to the result.
//!
//! Speeds are handed on from the drive: through pairs by tooth counts, through elements with a carrier by Willis'
//! equation. Where no element alone gives a further speed, one shaft's speed is called `x` and carried along until an
//! element closes the circle and gives it. In the end only the steps that the asked-for shaft needs are kept.

mod derivation;

use std::collections::BTreeMap;

use num_traits::{One, Zero};

use crate::Ratio;
use crate::motion::Motion;
use crate::train::{ElementIdx, Port, ShaftIdx, Train};
use derivation::Derivation;

/// How one shaft's speed follows from the drive's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Working {
    /// The steps in order; each uses only what stands above it.
    pub steps: Vec<Step>,
    /// The ratio that comes out.
    pub result: Ratio,
}

/// One line of a working.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The element used.
    pub element: Option<ElementIdx>,
    /// What is done.
    pub content: StepContent,
}

/// A speed that may contain unknowns `x1, x2, …`: `constant + Σ factor·x`, in turns of the drive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expression {
    /// The part that is known.
    pub constant: Ratio,
    /// Unknowns by number with their factors.
    pub unknowns: BTreeMap<usize, Ratio>,
}

/// What a step does.
#[allow(
    clippy::large_enum_variant,
    reason = "a working has a few dozen steps at most"
)]
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StepContent {
    /// The drive turns once.
    Drive {
        /// The drive shaft.
        shaft: ShaftIdx,
    },
    /// A shaft is at rest.
    Hold {
        /// The shaft.
        shaft: ShaftIdx,
    },
    /// `speed(to) = ±(size_from / size_to) · speed(from)`.
    Pair {
        /// Known shaft.
        from: ShaftIdx,
        /// Shaft whose speed comes out.
        to: ShaftIdx,
        /// Tooth count, diameter or starts on `from`.
        size_from: i128,
        /// The same on `to`.
        size_to: i128,
        /// They turn opposite ways.
        reversed: bool,
        /// Speed of `from`.
        input: Expression,
        /// Speed of `to`.
        output: Expression,
    },
    /// `speed(to) = speed(from)`.
    Coupled {
        /// Known shaft.
        from: ShaftIdx,
        /// Shaft whose speed comes out.
        to: ShaftIdx,
        /// Their speed.
        output: Expression,
    },
    /// Willis' equation solved for one of its members.
    Willis {
        /// First, second, carrier.
        members: [Port; 3],
        /// Basic ratio, carrier held.
        basic_ratio: Ratio,
        /// Speeds put in, in the order of `members`; `None` for what is sought.
        speeds: [Option<Expression>; 3],
        /// The shaft sought.
        to: ShaftIdx,
        /// Its speed.
        output: Expression,
    },
    /// Nothing more follows from one element alone: call this shaft's speed an unknown.
    Assume {
        /// The shaft.
        shaft: ShaftIdx,
        /// Number of the unknown.
        unknown: usize,
    },
    /// An element whose ports are all expressed gives an unknown.
    Close {
        /// Terms of `Σ coefficient · speed = 0`.
        terms: Vec<(ShaftIdx, Ratio, Expression)>,
        /// Number of the unknown.
        unknown: usize,
        /// What it is.
        value: Expression,
    },
    /// The unknowns are put in.
    Substitute {
        /// The shaft.
        shaft: ShaftIdx,
        /// Its speed before.
        expression: Expression,
        /// Its speed.
        value: Ratio,
    },
}

/// The working of one shaft's ratio; `None` where the drive does not settle it.
#[must_use]
pub fn working(train: &Train, motion: &Motion, shaft: ShaftIdx) -> Option<Working> {
    let drive = motion.drive().filter(|_| !motion.is_jammed())?;
    let result = if motion.at_rest(shaft) {
        Ratio::zero()
    } else {
        motion.ratio(shaft)?
    };
    let mut derivation = Derivation::new(train);
    derivation.state(
        drive,
        Expression::number(Ratio::one()),
        None,
        StepContent::Drive { shaft: drive },
    );
    derivation.run(motion, shaft)?;
    Some(Working {
        steps: derivation.needed_for(shaft),
        result,
    })
}

impl Expression {
    fn number(constant: Ratio) -> Self {
        Self {
            constant,
            unknowns: BTreeMap::new(),
        }
    }

    fn scaled(&self, factor: &Ratio) -> Self {
        let unknowns = self
            .unknowns
            .iter()
            .map(|(&unknown, value)| (unknown, value * factor))
            .collect();
        Self {
            constant: &self.constant * factor,
            unknowns,
        }
    }

    fn add(&mut self, other: &Self) {
        self.constant += &other.constant;
        for (&unknown, factor) in &other.unknowns {
            let sum = self.unknowns.remove(&unknown).unwrap_or_else(Ratio::zero) + factor;
            if !sum.is_zero() {
                self.unknowns.insert(unknown, sum);
            }
        }
    }

    fn put(&mut self, unknown: usize, value: &Self) {
        if let Some(factor) = self.unknowns.remove(&unknown) {
            self.add(&value.scaled(&factor));
        }
    }

    /// Whether it is a number.
    #[must_use]
    pub fn is_known(&self) -> bool {
        self.unknowns.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::derivation::output_of;
    use super::*;
    use crate::elements::{Differential, Element, Mesh};
    use crate::motion::solve;

    fn mesh(train: &mut Train, a: u32, b: u32, teeth: [u32; 2], reversing: bool) {
        let [a, b] = [a, b].map(|shaft| Port::Shaft(ShaftIdx(shaft)));
        train.add(Element::Mesh(Mesh {
            a,
            b,
            teeth,
            reversing,
        }));
    }

    fn differential(train: &mut Train, sides: [u32; 2], carrier: u32) {
        let port = |shaft| Port::Shaft(ShaftIdx(shaft));
        train.add(Element::Differential(Differential {
            sides: sides.map(port),
            carrier: port(carrier),
        }));
    }

    /// The last step that gives a speed must give the ratio that the solver found.
    fn check(train: &Train, shaft: u32, steps: usize) {
        let motion = solve(train, Some(ShaftIdx(0)), &[]);
        let working = working(train, &motion, ShaftIdx(shaft)).expect("settled");
        assert_eq!(working.steps.len(), steps, "{:#?}", working.steps);
        let last = match &working.steps.last().expect("at least one step").content {
            StepContent::Substitute { value, .. } => value.clone(),
            other => output_of(other).expect("a step with a speed").constant.clone(),
        };
        assert_eq!(last, working.result);
        assert_eq!(Some(working.result), motion.ratio(ShaftIdx(shaft)));
    }

    #[test]
    fn two_stages_take_three_lines() {
        let mut train = Train::new(4);
        mesh(&mut train, 0, 1, [14, 42], true);
        mesh(&mut train, 1, 2, [13, 52], true);
        mesh(&mut train, 1, 3, [20, 20], true);
        check(&train, 2, 3);
    }

    #[test]
    fn a_summing_train_ends_in_willis() {
        let mut train = Train::new(5);
        mesh(&mut train, 0, 1, [20, 20], true);
        mesh(&mut train, 0, 2, [15, 25], true);
        mesh(&mut train, 2, 3, [20, 20], true);
        differential(&mut train, [1, 3], 4);
        check(&train, 4, 5);
    }

    #[test]
    fn a_train_fed_back_needs_an_unknown() {
        // Out drives x, x drives y, and y with the drive makes out.
        let mut train = Train::new(4);
        mesh(&mut train, 1, 2, [24, 20], false);
        mesh(&mut train, 2, 3, [30, 30], true);
        differential(&mut train, [3, 0], 1);
        check(&train, 1, 6);
    }
}
