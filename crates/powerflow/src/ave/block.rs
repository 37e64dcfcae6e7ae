//! One strong component of the absolute-value equation: a scalar by hand, larger ones by Newton's method where
//! `ρ(|A⁻¹B|) < 1` proves that there is one solution, and else by going through the signs (`signs`).

use super::signs::{self, sign};
use super::sparse::Lu;
use super::{Losses, ROUNDING, System};

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

/// A block's matrices, with columns brought to one size.
pub(super) struct Block {
    size: usize,
    /// Per column: a power of two by which it was divided, so that nothing is rounded by it. Multipliers of belts count
    /// in the smallest decimal of their diameters and would look like nothing beside those of gears.
    units: Vec<f64>,
    cells: Vec<Cell>,
}

/// One place of both matrices.
#[derive(Clone, Copy)]
struct Cell {
    row: u32,
    column: u32,
    linear: f64,
    absolute: f64,
}

/// Steps of Newton's method and of the fixed-point iteration.
const NEWTON_STEPS: usize = 60;
const PICARD_STEPS: usize = 5_000;
/// Operations that the proof of uniqueness may take.
const PROOF_BUDGET: usize = 300_000_000;

impl Block {
    /// Cuts the block out of a system.
    pub(super) fn cut(system: &System, rows: &[u32], columns: &[u32], losses: Losses<'_>) -> Self {
        let mut place: Vec<(u32, u32)> = rows.iter().copied().zip(0..).collect();
        place.sort_unstable();
        let mut cells = Vec::new();
        let mut units = Vec::with_capacity(columns.len());
        for (at, &column) in (0..).zip(columns) {
            let start = cells.len();
            for entry in system.column(column as usize) {
                if let Ok(found) = place.binary_search_by_key(&entry.row, |&(row, _)| row) {
                    let (linear, absolute) = losses.of(entry, column);
                    cells.push(Cell {
                        row: place[found].1,
                        column: at,
                        linear,
                        absolute,
                    });
                }
            }
            let own = &mut cells[start..];
            let largest = own
                .iter()
                .fold(0.0_f64, |largest, cell| largest.max(cell.linear.abs()));
            let unit = if largest > 0.0 {
                power_of_two_below(largest)
            } else {
                1.0
            };
            for cell in own {
                cell.linear /= unit;
                cell.absolute /= unit;
            }
            units.push(unit);
        }
        Self {
            size: rows.len(),
            units,
            cells,
        }
    }

    pub(super) const fn size(&self) -> usize {
        self.size
    }

    /// Columns whose losses matter.
    pub(super) fn lossy(&self) -> Vec<usize> {
        let mut lossy: Vec<usize> = self
            .cells
            .iter()
            .filter(|cell| cell.absolute != 0.0)
            .map(|cell| cell.column as usize)
            .collect();
        lossy.dedup();
        lossy
    }

    /// All solutions for one right-hand side, as far as they can be found; `unique`: [`Self::is_contraction`] holds.
    pub(super) fn solve(&self, right_hand_side: &[f64], unique: bool) -> Found {
        let mut found = self.solve_levelled(right_hand_side, unique);
        for solution in &mut found.solutions {
            for (value, unit) in solution.iter_mut().zip(&self.units) {
                *value /= unit;
            }
        }
        found
    }

    fn solve_levelled(&self, right_hand_side: &[f64], unique: bool) -> Found {
        if !unique {
            return signs::search(self, right_hand_side);
        }
        let solution = self
            .newton(right_hand_side)
            .or_else(|| self.picard(right_hand_side));
        Found {
            complete: solution.is_some(),
            solutions: solution.into_iter().collect(),
        }
    }

    fn lu(&self, signs: &[f64]) -> Option<Lu> {
        let entry = |cell: &Cell| {
            (
                cell.row,
                cell.column,
                cell.linear + cell.absolute * signs[cell.column as usize],
            )
        };
        Lu::new(self.size, self.cells.iter().map(entry))
    }

    fn lossless(&self) -> Option<Lu> {
        self.lu(&vec![0.0; self.size])
    }

    /// Whether `ρ(|A⁻¹B|) < 1` is proven, by L. Collatz's bound: for a non-negative `G` and any positive `v`,
    /// `ρ(G) ≤ max (G v)_i / v_i`; the power method makes `v` good. `G` is not kept: it is full though its parts are not.
    pub(super) fn is_contraction(&self) -> bool {
        let lossy = self.lossy();
        if lossy.is_empty() {
            return true;
        }
        let Some(lu) = self.lossless() else { return false };
        let steps = (PROOF_BUDGET / (lossy.len() * (self.cells.len() + self.size))).clamp(3, 100);
        let mut v = vec![1.0; self.size];
        for _ in 0..steps {
            let image = self.image(&lu, &v);
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

    /// `|A⁻¹B| v`, column by column.
    fn image(&self, lu: &Lu, v: &[f64]) -> Vec<f64> {
        let mut image = vec![0.0; self.size];
        for cells in self.cells.chunk_by(|a, b| a.column == b.column) {
            if cells.iter().all(|cell| cell.absolute == 0.0) {
                continue;
            }
            let mut side = vec![0.0; self.size];
            for cell in cells {
                side[cell.row as usize] = cell.absolute;
            }
            let weight = v[cells[0].column as usize];
            for (sum, value) in image.iter_mut().zip(lu.solve(&side)) {
                *sum += value.abs() * weight;
            }
        }
        image
    }

    /// The solution of the linear equation with the given signs of `x`.
    pub(super) fn with_signs(&self, signs: &[f64], right_hand_side: &[f64]) -> Option<Vec<f64>> {
        let mut x = self.lu(signs)?.solve(right_hand_side);
        self.drop_rounding(&mut x);
        x.iter().all(|value| value.is_finite()).then_some(x)
    }

    /// Sets to 0 what is rounding beside the block's largest term; columns are of one size already.
    fn drop_rounding(&self, x: &mut [f64]) {
        let largest = x.iter().fold(0.0_f64, |largest, value| largest.max(value.abs()));
        for value in x {
            if value.abs() <= ROUNDING * largest {
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
        let lu = self.lossless()?;
        let mut x = lu.solve(right_hand_side);
        for _ in 0..PICARD_STEPS {
            let mut side = right_hand_side.to_vec();
            for cell in &self.cells {
                side[cell.row as usize] -= cell.absolute * x[cell.column as usize].abs();
            }
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
}

/// The largest power of two that is not above a positive number: its exponent without its digits.
fn power_of_two_below(value: f64) -> f64 {
    f64::from_bits(value.to_bits() & 0x7ff0_0000_0000_0000)
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
