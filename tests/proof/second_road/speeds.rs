//! Speeds by dense floats: null spaces from singular values instead of exact contraction.

use nalgebra::{DMatrix, DVector};

use super::joints::{At, Bench, Joint};

/// Below this share of the largest a singular value, or a part of a motion, is none.
const NOTHING: f64 = 1e-10;

/// Linear conditions on the speeds.
#[derive(Clone, Debug)]
pub struct Conditions {
    coordinates: usize,
    rows: Vec<DVector<f64>>,
    values: Vec<f64>,
}

impl Conditions {
    pub fn of(bench: &Bench) -> Self {
        let mut conditions = Self {
            coordinates: bench.coordinates,
            rows: Vec::new(),
            values: Vec::new(),
        };
        for terms in bench.joints.iter().flat_map(Joint::conditions) {
            conditions.add(&terms, 0.0);
        }
        conditions
    }

    /// Adds `Σ terms = value`, scaled to length 1; a condition on the frame alone adds nothing.
    pub fn add(&mut self, terms: &[(At, f64)], value: f64) {
        let mut row = DVector::<f64>::zeros(self.coordinates);
        for &(at, factor) in terms {
            if let Some(at) = at {
                row[at] += factor;
            }
        }
        let largest = terms
            .iter()
            .fold(0.0_f64, |largest, (_, factor)| largest.max(factor.abs()));
        let length = row.norm();
        if length > 1e-12 * largest {
            self.rows.push(row / length);
            self.values.push(value / length);
        }
    }

    fn matrix(&self) -> DMatrix<f64> {
        let mut matrix = DMatrix::zeros(
            self.rows.len().max(self.coordinates).max(1),
            self.coordinates.max(1),
        );
        for (at, row) in self.rows.iter().enumerate() {
            matrix
                .row_mut(at)
                .columns_mut(0, self.coordinates)
                .copy_from(&row.transpose());
        }
        matrix
    }

    /// A basis of the motions that the conditions leave free (right-hand sides put to 0).
    pub fn motions(&self) -> Vec<DVector<f64>> {
        if self.coordinates == 0 {
            return Vec::new();
        }
        let svd = self.matrix().svd(false, true);
        let right = svd.v_t.expect("asked for");
        (0..self.coordinates)
            .filter(|&at| svd.singular_values[at] <= NOTHING)
            .map(|at| right.row(at).transpose())
            .collect()
    }

    /// The speeds of least size that meet the conditions; `None` where they contradict.
    pub fn speeds(&self) -> Option<DVector<f64>> {
        if self.coordinates == 0 {
            return Some(DVector::zeros(0));
        }
        let matrix = self.matrix();
        let mut side = DVector::<f64>::zeros(matrix.nrows());
        for (at, value) in self.values.iter().enumerate() {
            side[at] = *value;
        }
        let svd = matrix.clone().svd(true, true);
        let mut speeds = svd.solve(&side, NOTHING).ok()?;
        for _ in 0..3 {
            // Singular values come with more rounding than the train can bear; what is left over is solved for again.
            let left = &side - &matrix * &speeds;
            speeds += svd.solve(&left, NOTHING).ok()?;
        }
        let wrong = (&matrix * &speeds - &side).norm();
        (wrong <= 1e-7 * side.norm().max(1e-300)).then_some(speeds)
    }
}

/// Whether a coordinate stands still in all these motions.
pub fn still(motions: &[DVector<f64>], at: usize) -> bool {
    motions.iter().all(|motion| motion[at].abs() <= 1e-9)
}

/// Factor by which one coordinate follows another in all these motions.
pub fn follows(motions: &[DVector<f64>], leader: usize, at: usize) -> Option<f64> {
    let size: f64 = motions.iter().map(|motion| motion[leader] * motion[leader]).sum();
    let factor = motions
        .iter()
        .map(|motion| motion[leader] * motion[at])
        .sum::<f64>()
        / size;
    let fits = motions
        .iter()
        .all(|motion| (motion[at] - factor * motion[leader]).abs() <= 1e-6 * (1.0 + factor.abs()));
    (fits && factor.is_finite()).then_some(factor)
}

/// Numbers of connected parts, the frame joining nothing.
pub fn parts(bench: &Bench) -> Vec<usize> {
    let mut part: Vec<usize> = (0..bench.coordinates).collect();
    // As often as there are coordinates: numbers sink at least one step each time.
    for _ in 0..bench.coordinates {
        for joint in &bench.joints {
            let ties: Vec<usize> = joint.ties().into_iter().flatten().collect();
            let Some(least) = ties.iter().map(|&at| part[at]).min() else {
                continue;
            };
            for at in ties {
                part[at] = least;
            }
        }
    }
    part
}

/// The number of independent motions of one connected part.
pub fn mobility(bench: &Bench, part_of: &[usize], part: usize) -> usize {
    let mut conditions = Conditions::of(bench);
    for at in (0..bench.coordinates).filter(|&at| part_of[at] != part) {
        conditions.add(&[(Some(at), 1.0)], 0.0);
    }
    conditions.motions().len()
}
