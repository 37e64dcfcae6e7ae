//! A sparse linear solver: Gauss' elimination that takes the shortest row first, in plain loops, so that every machine
//! gives the same bits.
//!
//! The pivot within a row is an entry near its largest, and of those the one with the fewest others in its column
//! (H. M. Markowitz, Management Science 3 (1957) 255–269, with the search for it cut short). Rings and ladders of a train
//! fill in hardly at all that way, so that the time grows nearly with the number of their elements.

use std::collections::{BTreeMap, BTreeSet};

/// A pivot may be smaller than its row's largest entry by this.
const NEAR_LARGEST: f64 = 0.1;
/// Rows whose entries have all shrunk below this share of what they were are taken as none.
const SINGULAR: f64 = 1e-13;

/// A square matrix taken apart.
#[derive(Clone, Debug)]
pub(crate) struct Lu {
    steps: Vec<Step>,
}

/// One pivot: what is taken from the other rows, and what is left in its own beside the pivot.
#[derive(Clone, Debug)]
struct Step {
    row: u32,
    column: u32,
    pivot: f64,
    taken: Vec<(u32, f64)>,
    rest: Vec<(u32, f64)>,
}

struct Elimination {
    rows: Vec<BTreeMap<u32, f64>>,
    /// Rows that still have an entry in the column.
    columns: Vec<BTreeSet<u32>>,
    by_length: BTreeSet<(usize, u32)>,
    scale: Vec<f64>,
}

impl Lu {
    /// Takes a matrix apart that is given by its entries (row, column, value); `None` when it is singular to working
    /// precision.
    pub(crate) fn new(size: usize, entries: impl IntoIterator<Item = (u32, u32, f64)>) -> Option<Self> {
        let mut work = Elimination::new(size, entries);
        let mut steps = Vec::with_capacity(size);
        while let Some((_, row)) = work.by_length.pop_first() {
            steps.push(work.eliminate(row)?);
        }
        Some(Self { steps })
    }

    /// Solves for one right-hand side.
    pub(crate) fn solve(&self, right_hand_side: &[f64]) -> Vec<f64> {
        let mut side = right_hand_side.to_vec();
        for step in &self.steps {
            let own = side[step.row as usize];
            if own != 0.0 {
                for &(row, factor) in &step.taken {
                    side[row as usize] -= factor * own;
                }
            }
        }
        let mut x = vec![0.0; side.len()];
        for step in self.steps.iter().rev() {
            let known: f64 = step
                .rest
                .iter()
                .map(|&(column, value)| value * x[column as usize])
                .sum();
            x[step.column as usize] = (side[step.row as usize] - known) / step.pivot;
        }
        x
    }
}

impl Elimination {
    fn new(size: usize, entries: impl IntoIterator<Item = (u32, u32, f64)>) -> Self {
        let mut rows = vec![BTreeMap::new(); size];
        let mut columns = vec![BTreeSet::new(); size];
        for (row, column, value) in entries {
            if value != 0.0 {
                rows[row as usize].insert(column, value);
                columns[column as usize].insert(row);
            }
        }
        let scale = rows.iter().map(largest).collect();
        let by_length = rows.iter().zip(0..).map(|(row, at)| (row.len(), at)).collect();
        Self {
            rows,
            columns,
            by_length,
            scale,
        }
    }

    /// Takes a row out and its pivot's column out of all other rows.
    fn eliminate(&mut self, row: u32) -> Option<Step> {
        let entries = std::mem::take(&mut self.rows[row as usize]);
        let bound = largest(&entries);
        if bound.is_nan() || bound <= SINGULAR * self.scale[row as usize] {
            return None;
        }
        let candidates = entries
            .iter()
            .filter(|(_, value)| value.abs() >= NEAR_LARGEST * bound);
        let (&column, &pivot) = candidates.min_by_key(|(column, _)| self.columns[**column as usize].len())?;
        for other in entries.keys() {
            self.columns[*other as usize].remove(&row);
        }
        let rest: Vec<(u32, f64)> = entries
            .iter()
            .filter(|(other, _)| **other != column)
            .map(|(&other, &value)| (other, value))
            .collect();
        let others: Vec<u32> = std::mem::take(&mut self.columns[column as usize])
            .into_iter()
            .collect();
        let taken = others
            .into_iter()
            .map(|other| (other, self.subtract(other, column, pivot, &rest)))
            .collect();
        Some(Step {
            row,
            column,
            pivot,
            taken,
            rest,
        })
    }

    /// Takes so much of the pivot's row from another that its entry in the pivot's column goes; gives that factor.
    fn subtract(&mut self, row: u32, column: u32, pivot: f64, rest: &[(u32, f64)]) -> f64 {
        let entries = &mut self.rows[row as usize];
        self.by_length.remove(&(entries.len(), row));
        let factor = entries.remove(&column).unwrap_or(0.0) / pivot;
        for &(other, value) in rest {
            *entries.entry(other).or_insert_with(|| {
                self.columns[other as usize].insert(row);
                0.0
            }) -= factor * value;
        }
        self.by_length.insert((entries.len(), row));
        factor
    }
}

fn largest(row: &BTreeMap<u32, f64>) -> f64 {
    row.values()
        .fold(0.0_f64, |largest, value| largest.max(value.abs()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn solves_a_matrix_that_needs_pivoting() {
        let lu = Lu::new(2, [(0, 1, 2.0), (1, 0, 3.0), (1, 1, 1.0)]).expect("regular");
        assert_eq!(lu.solve(&[4.0, 5.0]), [1.0, 2.0]);
    }

    #[test]
    fn a_singular_matrix_is_refused() {
        assert!(Lu::new(2, [(0, 0, 1.0), (0, 1, 2.0), (1, 0, 2.0), (1, 1, 4.0)]).is_none());
    }

    #[test]
    fn a_ring_of_ten_thousand_is_quick_and_right() {
        let size = 10_000_u32;
        let ring = (0..size).flat_map(|at| [(at, at, 2.0), (at, (at + 1) % size, 1.0)]);
        let lu = Lu::new(size as usize, ring).expect("regular");
        let x = lu.solve(&vec![3.0; size as usize]);
        assert!(x.iter().all(|value| (value - 1.0).abs() < 1e-12));
    }
}
