//! Fractions near a ratio: the walk down the tree of fractions that A. Brocot took for clock trains.
//!
//! Between two neighbouring fractions the mediant, sum over sum, is the simplest; the walk keeps the half in which the ratio
//! lies (M. A. Stern, 1858; A. Brocot, 1861; told by B. Hayes, "On the Teeth of Wheels", American Scientist 88, 2000). The
//! fractions met are the convergents of the continued fraction and those between them.

use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{ToPrimitive, Zero};
use serde::{Deserialize, Serialize};

use super::GearTrain;

/// Rows at most.
const MOST_ROWS: usize = 200;

/// What a fraction is to the ratio.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RowKind {
    /// Nearer than every fraction of a smaller part below the line, in the strict sense of continued fractions.
    Convergent,
    /// Between two convergents.
    Intermediate,
}

/// A fraction near the ratio.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Approximation {
    /// Above the line.
    pub above: u64,
    /// Below the line.
    pub below: u64,
    /// Fraction over ratio, less 1.
    pub error: f64,
    /// What it is.
    pub kind: RowKind,
    /// A train of gears at hand that makes it exactly.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub train: Option<GearTrain>,
}

/// The fractions met on the way to a ratio above 0, neither part larger than `largest`, from the whole numbers on either side
/// (of its inverse, where it is below 1). The last one is the ratio itself where that is not too large.
#[must_use]
pub fn approximate(ratio: &BigRational, largest: u64) -> Vec<Approximation> {
    let one = BigRational::from(BigInt::from(1));
    if *ratio < one {
        let turned = approximate(&ratio.recip(), largest);
        return turned
            .into_iter()
            .map(|row| row_of(row.below, row.above, ratio, row.kind))
            .collect();
    }
    let Some(whole) = ratio
        .floor()
        .to_integer()
        .to_u64()
        .filter(|whole| *whole <= largest)
    else {
        return Vec::new();
    };
    let mut walk = Walk {
        ratio,
        low: (whole, 1),
        high: (whole.saturating_add(1), 1),
    };
    let mut rows = vec![row_of(whole, 1, ratio, RowKind::Convergent)];
    if !ratio.is_integer() && walk.high.0 <= largest {
        rows.push(row_of(walk.high.0, 1, ratio, RowKind::Intermediate));
        while let Some(row) = walk.step(largest).filter(|_| rows.len() < MOST_ROWS) {
            rows.push(row);
            if rows.last().is_some_and(|row| row.error == 0.0) {
                break;
            }
        }
    }
    mark_convergents(ratio, &mut rows);
    rows
}

struct Walk<'a> {
    ratio: &'a BigRational,
    low: (u64, u64),
    high: (u64, u64),
}

impl Walk<'_> {
    fn step(&mut self, largest: u64) -> Option<Approximation> {
        let above = self
            .low
            .0
            .checked_add(self.high.0)
            .filter(|sum| *sum <= largest)?;
        let below = self
            .low
            .1
            .checked_add(self.high.1)
            .filter(|sum| *sum <= largest)?;
        let mediant = fraction(above, below);
        if mediant <= *self.ratio {
            self.low = (above, below);
        } else {
            self.high = (above, below);
        }
        Some(row_of(above, below, self.ratio, RowKind::Intermediate))
    }
}

/// Convergents of the continued fraction, by Euclid's algorithm.
fn mark_convergents(ratio: &BigRational, rows: &mut [Approximation]) {
    let (mut above, mut below) = (ratio.numer().clone(), ratio.denom().clone());
    let (mut before, mut last) = (
        (BigInt::from(0), BigInt::from(1)),
        (BigInt::from(1), BigInt::from(0)),
    );
    while !below.is_zero() {
        let term = &above / &below;
        (above, below) = (below.clone(), &above - &term * &below);
        let next = (&term * &last.0 + &before.0, &term * &last.1 + &before.1);
        (before, last) = (last, next);
        let Some((p, q)) = last.0.to_u64().zip(last.1.to_u64()) else {
            return;
        };
        if let Some(row) = rows.iter_mut().find(|row| (row.above, row.below) == (p, q)) {
            row.kind = RowKind::Convergent;
        }
    }
}

fn fraction(above: u64, below: u64) -> BigRational {
    BigRational::new(above.into(), below.into())
}

fn row_of(above: u64, below: u64, ratio: &BigRational, kind: RowKind) -> Approximation {
    let error = (fraction(above, below) - ratio) / ratio;
    Approximation {
        above,
        below,
        error: if error.is_zero() {
            0.0
        } else {
            error.to_f64().unwrap_or(f64::MAX)
        },
        kind,
        train: None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::typed;
    use super::*;

    fn walk(ratio: &str, largest: u64) -> Vec<Approximation> {
        approximate(&typed::ratio(ratio).expect("a ratio"), largest)
    }

    fn texts(rows: &[Approximation], only: Option<RowKind>) -> String {
        let kept = rows.iter().filter(|row| only.is_none_or(|only| row.kind == only));
        let texts: Vec<String> = kept.map(|row| format!("{}/{}", row.above, row.below)).collect();
        texts.join(" ")
    }

    /// Brocot's own example, as told by B. Hayes, American Scientist 88 (2000): from 8 and 9 to 191/23.
    #[test]
    fn brocots_mediants() {
        let rows = walk("191/23", 1000);
        let expected = "8/1 9/1 17/2 25/3 33/4 58/7 83/10 108/13 191/23";
        assert_eq!(texts(&rows, None), expected);
        let errors = rows
            .iter()
            .map(|row| 23 * row.above as i64 - 191 * row.below as i64);
        assert_eq!(errors.collect::<Vec<_>>(), [-7, 16, 9, 2, -5, -3, -1, 1, 0]);
    }

    /// C. Huygens, Descriptio automati planetarii (1703), from memory: Saturn's wheel takes 206/7 for 77708431/2640858.
    #[test]
    fn huygens_saturn() {
        let rows = walk("77708431/2640858", 1200);
        assert_eq!(
            texts(&rows, Some(RowKind::Convergent)),
            "29/1 59/2 147/5 206/7 1177/40"
        );
    }

    #[test]
    fn a_ratio_below_one_is_walked_upside_down() {
        assert_eq!(
            texts(&walk("23/191", 1000), None),
            "1/8 1/9 2/17 3/25 4/33 7/58 10/83 13/108 23/191"
        );
        assert_eq!(texts(&walk("1/7", 10), None), "1/7");
    }

    #[test]
    fn parts_stay_within_the_largest() {
        for ratio in [
            "3.14159265358979",
            "0.0748",
            "29.530589",
            "1e-9",
            "1e9",
            "1.000001",
        ] {
            let rows = walk(ratio, 500);
            assert!(
                rows.iter().all(|row| row.above <= 500 && row.below <= 500),
                "{ratio}"
            );
        }
        assert_eq!(
            texts(&walk("3.14159265358979", 400), Some(RowKind::Convergent)),
            "3/1 22/7 333/106 355/113"
        );
    }
}
