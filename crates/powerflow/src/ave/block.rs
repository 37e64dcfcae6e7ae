//! One strong component of the absolute-value equation: a scalar by hand, larger ones by the test `ρ(|A⁻¹B|) < 1` and
//! Newton's method, and where the test fails by going through the signs.

use super::dense::Lu;
use super::{Losses, System};

/// Solutions of `a x + b |x| = r`, distinct ones: with `|b| < |a|` exactly one, else none or two (or, at r = 0, zero).
pub(super) fn scalar(a: f64, b: f64, r: f64) -> [Option<f64>; 2] {
    if r == 0.0 {
        return [Some(0.0), None];
    }
    let branch = |slope: f64, side: f64| {
        let x = r / slope;
        (x.is_finite() && x * side > 0.0).then_some(x)
    };
    [branch(a + b, 1.0), branch(a - b, -1.0)]
}

/// What was found in a block.
pub(super) struct Found {
    pub(super) solutions: Vec<Vec<f64>>,
    /// Whether these are certainly all.
    pub(super) complete: bool,
}

/// A block's dense matrices, row-major, with columns brought to one size.
pub(super) struct Block {
    size: usize,
    /// Per column: a power of two by which it was divided, so that nothing is rounded by it. Multipliers of belts count
    /// in the smallest decimal of their diameters and would look like nothing beside those of gears.
    units: Vec<f64>,
    linear: Vec<f64>,
    absolute: Vec<f64>,
}

/// Up to so many lossy columns every choice of signs is tried.
const ALL_SIGNS: usize = 16;
/// The most sign patterns that the pruned search looks at.
const MOST_TRIES: usize = 20_000;
/// Steps of Newton's method and of the fixed-point iteration.
const NEWTON_STEPS: usize = 60;
const PICARD_STEPS: usize = 5_000;
/// Relative closeness at which two solutions are one, and at which a solution is accepted.
const SAME: f64 = 1e-9;

impl Block {
    /// Cuts the block out of a system.
    pub(super) fn cut(system: &System, rows: &[u32], columns: &[u32], losses: Losses<'_>) -> Self {
        let size = rows.len();
        let mut place = rows.iter().copied().zip(0..).collect::<Vec<(u32, usize)>>();
        place.sort_unstable();
        let mut block = Self {
            size,
            units: vec![1.0; size],
            linear: vec![0.0; size * size],
            absolute: vec![0.0; size * size],
        };
        for (at, &column) in columns.iter().enumerate() {
            for entry in system.column(column as usize) {
                if let Ok(found) = place.binary_search_by_key(&entry.row, |&(row, _)| row) {
                    let cell = place[found].1 * size + at;
                    (block.linear[cell], block.absolute[cell]) = losses.of(entry, column);
                }
            }
        }
        block.level_columns();
        block
    }

    fn level_columns(&mut self) {
        for column in 0..self.size {
            let cells = (0..self.size).map(|row| row * self.size + column);
            let largest = cells
                .clone()
                .fold(0.0_f64, |largest, cell| largest.max(self.linear[cell].abs()));
            if largest > 0.0 {
                let unit = power_of_two_below(largest);
                self.units[column] = unit;
                for cell in cells {
                    self.linear[cell] /= unit;
                    self.absolute[cell] /= unit;
                }
            }
        }
    }

    /// All solutions for one right-hand side, as far as they can be found.
    pub(super) fn solve(&self, right_hand_side: &[f64]) -> Found {
        let mut found = self.solve_levelled(right_hand_side);
        for solution in &mut found.solutions {
            for (value, unit) in solution.iter_mut().zip(&self.units) {
                *value /= unit;
            }
        }
        found
    }

    fn solve_levelled(&self, right_hand_side: &[f64]) -> Found {
        if right_hand_side.iter().all(|&value| value == 0.0) && self.is_contraction() {
            return Found {
                solutions: vec![vec![0.0; self.size]],
                complete: true,
            };
        }
        if self.is_contraction() {
            let solution = self
                .newton(right_hand_side)
                .or_else(|| self.picard(right_hand_side));
            return Found {
                complete: solution.is_some(),
                solutions: solution.into_iter().collect(),
            };
        }
        let lossy: Vec<usize> = (0..self.size)
            .filter(|&column| (0..self.size).any(|row| self.absolute[row * self.size + column] != 0.0))
            .collect();
        if lossy.len() <= ALL_SIGNS {
            Found {
                solutions: self.all_signs(right_hand_side, &lossy),
                complete: true,
            }
        } else {
            Found {
                solutions: self.some_signs(right_hand_side, &lossy),
                complete: false,
            }
        }
    }

    /// Whether `ρ(|A⁻¹B|) < 1` is proven, by L. Collatz's bound: for a non-negative `G` and any positive `v`,
    /// `ρ(G) ≤ max (G v)_i / v_i`; the power method makes `v` good.
    fn is_contraction(&self) -> bool {
        let Some(lu) = Lu::new(self.size, self.linear.clone()) else {
            return false;
        };
        let mut product = vec![0.0; self.size * self.size];
        for column in 0..self.size {
            let side: Vec<f64> = (0..self.size)
                .map(|row| self.absolute[row * self.size + column])
                .collect();
            for (row, value) in lu.solve(&side).into_iter().enumerate() {
                product[row * self.size + column] = value.abs();
            }
        }
        let mut v = vec![1.0; self.size];
        for _ in 0..100 {
            let image: Vec<f64> = product
                .chunks(self.size)
                .map(|row| row.iter().zip(&v).map(|(cell, value)| cell * value).sum::<f64>())
                .collect();
            if image.iter().zip(&v).all(|(image, v)| *image < *v * (1.0 - 1e-12)) {
                return true;
            }
            let largest = image.iter().fold(0.0_f64, |largest, value| largest.max(*value));
            if !(largest > 0.0 && largest.is_finite()) {
                return false;
            }
            // The small constant keeps every entry positive, which the bound needs.
            v = image.iter().map(|value| value / largest + 1e-6).collect();
        }
        false
    }

    fn with_signs(&self, signs: &[f64], right_hand_side: &[f64]) -> Option<Vec<f64>> {
        let cells = (0..self.size * self.size)
            .map(|cell| self.linear[cell] + self.absolute[cell] * signs[cell % self.size])
            .collect();
        let mut x = Lu::new(self.size, cells)?.solve(right_hand_side);
        self.drop_rounding(&mut x);
        x.iter().all(|value| value.is_finite()).then_some(x)
    }

    /// Sets to 0 what is rounding beside the block's largest term.
    fn drop_rounding(&self, x: &mut [f64]) {
        let weight = |column: usize, value: f64| {
            let cells = (0..self.size).map(|row| self.linear[row * self.size + column].abs());
            cells.fold(0.0_f64, f64::max) * value.abs()
        };
        let largest = x
            .iter()
            .enumerate()
            .fold(0.0_f64, |l, (column, &value)| l.max(weight(column, value)));
        for (column, value) in x.iter_mut().enumerate() {
            if weight(column, *value) <= super::ROUNDING * largest {
                *value = 0.0;
            }
        }
    }

    fn newton(&self, right_hand_side: &[f64]) -> Option<Vec<f64>> {
        let mut signs = vec![0.0; self.size];
        for _ in 0..NEWTON_STEPS {
            let x = self.with_signs(&signs, right_hand_side)?;
            let new: Vec<f64> = x.iter().map(|&value| sign(value)).collect();
            if new == signs {
                return Some(x);
            }
            signs = new;
        }
        None
    }

    fn picard(&self, right_hand_side: &[f64]) -> Option<Vec<f64>> {
        let lu = Lu::new(self.size, self.linear.clone())?;
        let mut x = lu.solve(right_hand_side);
        for _ in 0..PICARD_STEPS {
            let side: Vec<f64> = (0..self.size)
                .map(|row| {
                    let cells = &self.absolute[row * self.size..][..self.size];
                    let lost: f64 = cells.iter().zip(&x).map(|(cell, value)| cell * value.abs()).sum();
                    right_hand_side[row] - lost
                })
                .collect();
            let next = lu.solve(&side);
            let change = x
                .iter()
                .zip(&next)
                .fold(0.0_f64, |change, (a, b)| change.max((a - b).abs()));
            let size = next.iter().fold(0.0_f64, |size, value| size.max(value.abs()));
            x = next;
            if change <= 1e-15 * size {
                break;
            }
        }
        let signs: Vec<f64> = x.iter().map(|&value| sign(value)).collect();
        Some(self.with_signs(&signs, right_hand_side).unwrap_or(x))
    }

    fn all_signs(&self, right_hand_side: &[f64], lossy: &[usize]) -> Vec<Vec<f64>> {
        let mut found = Vec::new();
        for pattern in 0_u32..1 << lossy.len() {
            let mut signs = vec![0.0; self.size];
            for (bit, &column) in lossy.iter().enumerate() {
                signs[column] = if pattern >> bit & 1 == 0 { 1.0 } else { -1.0 };
            }
            self.try_signs(&signs, right_hand_side, lossy, &mut found);
        }
        found
    }

    /// Solves with the given signs and keeps the solution if it has these signs and is new.
    fn try_signs(&self, signs: &[f64], right_hand_side: &[f64], lossy: &[usize], found: &mut Vec<Vec<f64>>) {
        let Some(x) = self.with_signs(signs, right_hand_side) else {
            return;
        };
        let consistent = lossy.iter().all(|&column| x[column] * signs[column] >= 0.0);
        let close = |other: &Vec<f64>| {
            let size = x.iter().fold(0.0_f64, |size, value| size.max(value.abs()));
            x.iter().zip(other).all(|(a, b)| (a - b).abs() <= SAME * size)
        };
        if consistent && !found.iter().any(close) {
            found.push(x);
        }
    }

    /// Too many signs to try all: start from the lossless solution's and from all alike, and follow Newton's flips.
    fn some_signs(&self, right_hand_side: &[f64], lossy: &[usize]) -> Vec<Vec<f64>> {
        let mut found = Vec::new();
        let mut starts = vec![vec![1.0; self.size], vec![-1.0; self.size]];
        if let Some(x) = self.with_signs(&vec![0.0; self.size], right_hand_side) {
            starts.push(
                x.iter()
                    .map(|&value| if value < 0.0 { -1.0 } else { 1.0 })
                    .collect(),
            );
        }
        let mut tried = std::collections::BTreeSet::new();
        while let Some(signs) = starts.pop() {
            let key: Vec<bool> = signs.iter().map(|&sign| sign < 0.0).collect();
            if tried.len() >= MOST_TRIES || !tried.insert(key) {
                continue;
            }
            self.try_signs(&signs, right_hand_side, lossy, &mut found);
            let Some(x) = self.with_signs(&signs, right_hand_side) else {
                continue;
            };
            let wrong: Vec<usize> = lossy
                .iter()
                .copied()
                .filter(|&column| x[column] * signs[column] < 0.0)
                .collect();
            for column in wrong.iter().copied().chain(lossy.iter().copied().take(2)) {
                let mut flipped = signs.clone();
                flipped[column] = -flipped[column];
                starts.push(flipped);
            }
            let mut newton = signs;
            for column in wrong {
                newton[column] = -newton[column];
            }
            starts.push(newton);
        }
        found
    }
}

/// The largest power of two that is not above a positive number: its exponent without its digits.
fn power_of_two_below(value: f64) -> f64 {
    f64::from_bits(value.to_bits() & 0x7ff0_0000_0000_0000)
}

fn sign(value: f64) -> f64 {
    if value > 0.0 {
        1.0
    } else if value < 0.0 {
        -1.0
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_scalar_with_small_loss_has_one_solution_either_way() {
        assert_eq!(scalar(2.0, 1.0, 3.0), [Some(1.0), None]);
        assert_eq!(scalar(2.0, 1.0, -3.0), [None, Some(-3.0)]);
    }

    #[test]
    fn a_scalar_that_locks_has_none_against_and_two_along() {
        assert_eq!(scalar(1.0, -2.0, 3.0), [None, None]);
        assert_eq!(scalar(1.0, -2.0, -3.0), [Some(3.0), Some(-1.0)]);
    }
}
