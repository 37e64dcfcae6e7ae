//! Sources set turning: speeds and the exact signs of speeds that follow from theirs.

use std::cmp::Ordering;

use num_traits::Zero;

use crate::Ratio;
use crate::forest::to_float;
use crate::fraction::{product, quotient, sum};
use crate::motion::Motion;
use crate::train::{Port, ShaftIdx};

/// A difference above this share of its terms has the sign that floats give it: factors are products of at most some two
/// hundred thousand roundings. Nearer than that, fractions decide.
const CERTAIN: f64 = 1e-9;

/// Speeds of the drives; what nothing drives stands still.
#[derive(Clone, Debug)]
pub struct Turning {
    /// Class, its speed as a float and exact.
    parameters: Vec<(usize, f64, Ratio)>,
}

impl Turning {
    fn float(&self, parameter: usize) -> f64 {
        self.parameters
            .iter()
            .find(|(class, ..)| *class == parameter)
            .map_or(0.0, |&(_, speed, _)| speed)
    }
}

impl Motion {
    /// Sets the drives turning. Drives that the train does not leave free are passed over.
    #[must_use]
    pub fn turning(&self, drives: &[(ShaftIdx, Ratio)]) -> Turning {
        let entry = |(drive, speed): &(ShaftIdx, Ratio)| {
            self.parameter(*drive).map(|class| {
                let speed = quotient(speed, &self.forest.exact_factor(*drive));
                (class, to_float(&speed), speed)
            })
        };
        Turning {
            parameters: drives.iter().filter_map(entry).collect(),
        }
    }

    /// Speed of a shaft, in the unit of the drives' speeds.
    #[must_use]
    pub fn speed(&self, shaft: ShaftIdx, turning: &Turning) -> f64 {
        self.float_combination(shaft)
            .map(|(parameter, factor)| factor * turning.float(parameter))
            .sum()
    }

    /// Sign of a shaft's speed, exact.
    #[must_use]
    pub fn sign(&self, shaft: ShaftIdx, turning: &Turning) -> i8 {
        let mut terms = self.float_combination(shaft);
        match (terms.next(), terms.next()) {
            (None, _) => 0,
            // One product has no cancellation: floats are right about its sign.
            (Some((parameter, factor)), None) => sign_of(factor * turning.float(parameter)),
            _ => self.relative_sign(Port::Shaft(shaft), Port::Frame, turning),
        }
    }

    /// Sign of `w_a − w_b`, exact; the frame's speed is 0.
    #[must_use]
    pub fn relative_sign(&self, a: Port, b: Port, turning: &Turning) -> i8 {
        let ([speed_a, size_a], [speed_b, size_b]) = (self.rough(a, turning), self.rough(b, turning));
        let difference = speed_a - speed_b;
        if difference.abs() > CERTAIN * (size_a + size_b) {
            return sign_of(difference);
        }
        match self.exact_speed(a, turning).cmp(&self.exact_speed(b, turning)) {
            Ordering::Less => -1,
            Ordering::Equal => 0,
            Ordering::Greater => 1,
        }
    }

    /// Speed in floats, and the sum of the sizes of its terms, against which its error is small.
    fn rough(&self, port: Port, turning: &Turning) -> [f64; 2] {
        let Some(shaft) = port.shaft() else {
            return [0.0; 2];
        };
        let terms = self.float_combination(shaft);
        terms.fold([0.0; 2], |[sum, size], (parameter, factor)| {
            let term = factor * turning.float(parameter);
            [sum + term, size + term.abs()]
        })
    }

    fn exact_speed(&self, port: Port, turning: &Turning) -> Ratio {
        let Some(shaft) = port.shaft() else {
            return Ratio::zero();
        };
        let mut speed = Ratio::zero();
        for (parameter, factor) in self.combination(shaft) {
            if let Some((.., value)) = turning.parameters.iter().find(|(class, ..)| *class == parameter) {
                speed = sum(&speed, &product(&factor, value));
            }
        }
        speed
    }
}

fn sign_of(value: f64) -> i8 {
    if value > 0.0 {
        1
    } else if value < 0.0 {
        -1
    } else {
        0
    }
}
