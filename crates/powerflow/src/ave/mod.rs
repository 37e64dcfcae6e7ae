//! The absolute-value equation `A x + B |x| = b` of a train's power flow, and how it is decided.
//!
//! Rows are equilibria (of shafts, and one of compliance per redundant loop); columns are the multipliers of elements
//! and the torques of sources. The pattern is first taken apart into strong components (`order`); in trees and in
//! trains that split and sum every component is a single equation, solved by hand. Bare floats live here: one vector
//! mixes N·m, N and W-free multipliers, and what each row and column is stands in `flow`.
//!
//! Source: O. L. Mangasarian & R. R. Meyer, "Absolute value equations", Linear Algebra Appl. 419 (2006) 359–367;
//! J. Rohn, "A theorem of the alternatives for the equation Ax + B|x| = b", Linear and Multilinear Algebra 52 (2004)
//! 421–426: `ρ(|A⁻¹B|) < 1` gives exactly one solution for every right-hand side.

mod block;
mod order;
mod signs;
mod sparse;

pub use order::Plan;
pub(crate) use signs::sign;
pub(crate) use sparse::Lu;

use block::Block;

/// One coefficient pair of a column.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Entry {
    /// Row.
    pub row: u32,
    /// Coefficient of `x`.
    pub linear: f64,
    /// Coefficient of `|x|`.
    pub absolute: f64,
}

/// The matrices, column by column.
#[derive(Clone, Debug, Default)]
pub struct System {
    rows: usize,
    starts: Vec<u32>,
    entries: Vec<Entry>,
}

impl System {
    /// A system of so many rows without columns.
    #[must_use]
    pub fn new(rows: usize) -> Self {
        Self {
            rows,
            starts: vec![0],
            entries: Vec::new(),
        }
    }

    /// Adds a column; entries on one row are added up.
    pub fn push(&mut self, column: impl IntoIterator<Item = Entry>) {
        let start = *self.starts.last().expect("starts with 0") as usize;
        for entry in column {
            match self.entries[start..]
                .iter_mut()
                .find(|other| other.row == entry.row)
            {
                Some(other) => {
                    other.linear += entry.linear;
                    other.absolute += entry.absolute;
                }
                None => self.entries.push(entry),
            }
        }
        self.starts
            .push(u32::try_from(self.entries.len()).expect("fewer than 2^32 entries"));
    }

    /// Number of rows.
    #[must_use]
    pub const fn rows(&self) -> usize {
        self.rows
    }

    /// Number of columns.
    #[must_use]
    pub fn columns(&self) -> usize {
        self.starts.len() - 1
    }

    /// The entries of a column.
    #[must_use]
    pub fn column(&self, column: usize) -> &[Entry] {
        &self.entries[self.starts[column] as usize..self.starts[column + 1] as usize]
    }
}

/// How the losses enter.
#[derive(Clone, Copy, Debug)]
pub enum Losses<'a> {
    /// As `B |x|`.
    Full,
    /// Not at all.
    Without,
    /// With the signs of `x` given: a linear equation.
    Signed(&'a [f64]),
}

impl Losses<'_> {
    /// Coefficients of `x` and of `|x|` of an entry in this column.
    fn of(self, entry: &Entry, column: u32) -> (f64, f64) {
        match self {
            Self::Full => (entry.linear, entry.absolute),
            Self::Without => (entry.linear, 0.0),
            Self::Signed(signs) => (entry.linear + entry.absolute * signs[column as usize], 0.0),
        }
    }
}

/// What came out.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// Consistent solutions, at least one.
    Solutions {
        /// Each a value per column.
        solutions: Vec<Vec<f64>>,
        /// Columns of a block too large to be searched whole; empty: all were.
        unproven: Vec<u32>,
    },
    /// No solution: these columns belong to the block that has none.
    None {
        /// Its columns.
        columns: Vec<u32>,
        /// Whether the search was complete.
        proven: bool,
    },
}

/// The most solutions that are followed at once.
const MOST_SOLUTIONS: usize = 64;

/// Solves `A x + B |x| = b` along a plan made for the same matrices.
#[must_use]
pub fn solve(system: &System, plan: &Plan, right_hand_side: &[f64], losses: Losses<'_>) -> Outcome {
    let mut partial = vec![Partial::start(system, right_hand_side)];
    let mut unproven = Vec::new();
    for (rows, columns, unique) in plan.blocks() {
        if let [only] = &mut partial[..]
            && only.settle_alone(system, rows, columns, losses)
        {
            continue;
        }
        let mut next = Vec::new();
        let mut proven = true;
        for start in partial {
            proven &= start.extend(system, (rows, columns, unique), losses, &mut next);
        }
        if next.is_empty() {
            return Outcome::None {
                columns: columns.to_vec(),
                proven,
            };
        }
        if !proven || next.len() > MOST_SOLUTIONS {
            unproven.extend_from_slice(columns);
        }
        next.truncate(MOST_SOLUTIONS);
        partial = next;
    }
    Outcome::Solutions {
        solutions: partial.into_iter().map(|partial| partial.x).collect(),
        unproven,
    }
}

/// A solution of the blocks so far: what is left of the right-hand side, and of what size its parts were.
#[derive(Clone)]
struct Partial {
    x: Vec<f64>,
    left: Vec<f64>,
    scale: Vec<f64>,
}

/// Below this share of the terms that made it up, a remainder is rounding.
const ROUNDING: f64 = 1e-12;

impl Partial {
    fn start(system: &System, right_hand_side: &[f64]) -> Self {
        Self {
            x: vec![0.0; system.columns()],
            left: right_hand_side.to_vec(),
            scale: right_hand_side.iter().map(|value| value.abs()).collect(),
        }
    }

    /// Settles a block of a single equation in place if it has exactly one solution; tells whether it had.
    fn settle_alone(&mut self, system: &System, rows: &[u32], columns: &[u32], losses: Losses<'_>) -> bool {
        let (&[row], &[column]) = (rows, columns) else {
            return false;
        };
        let ([Some(value), None] | [None, Some(value)]) = self.scalar(system, row, column, losses) else {
            return false;
        };
        self.set(system, column, value, losses);
        true
    }

    fn scalar(&self, system: &System, row: u32, column: u32, losses: Losses<'_>) -> [Option<f64>; 2] {
        let entry = system
            .column(column as usize)
            .iter()
            .find(|entry| entry.row == row);
        let (linear, absolute) = losses.of(entry.expect("a block's column reaches its row"), column);
        block::scalar(linear, absolute, self.remainder(row))
    }

    /// Appends to `next` what this becomes with each solution of a block; tells whether the search was complete.
    fn extend(
        self,
        system: &System,
        (rows, columns, unique): (&[u32], &[u32], bool),
        losses: Losses<'_>,
        next: &mut Vec<Self>,
    ) -> bool {
        if let (&[row], &[column]) = (rows, columns) {
            for value in self.scalar(system, row, column, losses).into_iter().flatten() {
                let mut branch = self.clone();
                branch.set(system, column, value, losses);
                next.push(branch);
            }
            return true;
        }
        let right_hand_side: Vec<f64> = rows.iter().map(|&row| self.remainder(row)).collect();
        let block = Block::cut(system, rows, columns, losses);
        let found = block.solve(&right_hand_side, unique || !matches!(losses, Losses::Full));
        for values in found.solutions {
            let mut branch = self.clone();
            for (&column, value) in columns.iter().zip(values) {
                branch.set(system, column, value, losses);
            }
            next.push(branch);
        }
        found.complete
    }

    fn remainder(&self, row: u32) -> f64 {
        let (left, scale) = (self.left[row as usize], self.scale[row as usize]);
        if left.abs() <= ROUNDING * scale { 0.0 } else { left }
    }

    fn set(&mut self, system: &System, column: u32, value: f64, losses: Losses<'_>) {
        self.x[column as usize] = value;
        for entry in system.column(column as usize) {
            let (linear, absolute) = losses.of(entry, column);
            let part = linear * value + absolute * value.abs();
            self.left[entry.row as usize] -= part;
            self.scale[entry.row as usize] += part.abs();
        }
    }
}
