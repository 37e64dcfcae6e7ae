//! The small exact system in which elements with three moving classes meet.
//!
//! Gauss–Jordan elimination over fractions, one row per junction, one column per class. Each row remembers which
//! junctions it was made of, so that a contradiction or a redundancy can name them. Columns of drives are taken as
//! pivots last, so that the drives stay the free parameters wherever the train leaves them free.

use std::collections::BTreeMap;

use num_traits::{One, Zero};

use crate::Ratio;
use crate::fraction::{product, sum};

/// A sparse vector of fractions.
pub(crate) type Sparse = BTreeMap<usize, Ratio>;

/// `to += factor · from`, dropping what cancels.
pub(crate) fn add_scaled(to: &mut Sparse, from: &Sparse, factor: &Ratio) {
    for (&key, value) in from {
        let more = product(value, factor);
        let total = match to.remove(&key) {
            None => more,
            Some(there) => sum(&there, &more),
        };
        if !total.is_zero() {
            to.insert(key, total);
        }
    }
}

/// A row of the system: `Σ speeds = 0`, made of `sources` (junction numbers with factors).
#[derive(Clone, Debug)]
pub(crate) struct Row {
    pub(crate) pivot: usize,
    pub(crate) speeds: Sparse,
    pub(crate) sources: Sparse,
}

/// The system after elimination.
#[derive(Clone, Debug, Default)]
pub(crate) struct Junctions {
    /// Rows in reduced form: the pivot's coefficient is 1 and no other row has that column.
    pub(crate) rows: Vec<Row>,
    /// Combinations of junctions whose speeds cancel: redundancies.
    pub(crate) cancelled: Vec<Sparse>,
    row_of: BTreeMap<usize, usize>,
}

impl Junctions {
    /// Adds the equation of junction `number`; `rank_of` tells which columns to keep free (higher: longer).
    pub(crate) fn add(&mut self, number: usize, mut speeds: Sparse, keep: impl Fn(usize) -> u32) {
        let mut sources = Sparse::from([(number, Ratio::one())]);
        self.reduce(&mut speeds, &mut sources);
        // A column that no row has yet costs no work there; of those the last, which lies farthest from the drive.
        let used = |column: usize| {
            self.rows
                .iter()
                .filter(|row| row.speeds.contains_key(&column))
                .count()
        };
        let order = |column: usize| (keep(column), used(column), std::cmp::Reverse(column));
        let Some(pivot) = speeds.keys().copied().min_by_key(|&column| order(column)) else {
            self.cancelled.push(sources);
            return;
        };
        let scale = speeds[&pivot].recip();
        for value in speeds.values_mut().chain(sources.values_mut()) {
            *value = product(value, &scale);
        }
        for row in &mut self.rows {
            if let Some(factor) = row.speeds.get(&pivot).map(|value| -value.clone()) {
                add_scaled(&mut row.speeds, &speeds, &factor);
                add_scaled(&mut row.sources, &sources, &factor);
            }
        }
        self.row_of.insert(pivot, self.rows.len());
        self.rows.push(Row {
            pivot,
            speeds,
            sources,
        });
    }

    /// Takes multiples of the rows away until no pivot column is left in `speeds`; notes them in `sources`.
    pub(crate) fn reduce(&self, speeds: &mut Sparse, sources: &mut Sparse) {
        let pivots: Vec<usize> = speeds
            .keys()
            .copied()
            .filter(|column| self.row_of.contains_key(column))
            .collect();
        for pivot in pivots {
            let row = &self.rows[self.row_of[&pivot]];
            let factor = -speeds[&pivot].clone();
            add_scaled(speeds, &row.speeds, &factor);
            add_scaled(sources, &row.sources, &factor);
        }
    }

    /// The row that expresses a class by others, if it is not free.
    pub(crate) fn row(&self, class: usize) -> Option<&Row> {
        self.row_of.get(&class).map(|&at| &self.rows[at])
    }
}
