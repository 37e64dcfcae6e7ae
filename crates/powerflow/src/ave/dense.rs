//! A small dense linear solver: LU with partial pivoting, plain loops, so that every machine gives the same bits.

/// A square matrix taken apart.
#[derive(Clone, Debug)]
pub(super) struct Lu {
    size: usize,
    cells: Vec<f64>,
    order: Vec<usize>,
}

/// Pivots smaller than this share of their row's largest entry count as none.
const SINGULAR: f64 = 1e-13;

impl Lu {
    /// Takes a row-major matrix apart; `None` when it is singular to working precision.
    pub(super) fn new(size: usize, mut cells: Vec<f64>) -> Option<Self> {
        let scale: Vec<f64> = cells
            .chunks(size)
            .map(|row| row.iter().fold(0.0_f64, |largest, cell| largest.max(cell.abs())))
            .collect();
        let mut order: Vec<usize> = (0..size).collect();
        for step in 0..size {
            let weight = |at: usize| cells[order[at] * size + step].abs() / scale[order[at]];
            let best = (step..size).max_by(|&a, &b| weight(a).total_cmp(&weight(b)))?;
            let pivot = weight(best);
            if pivot.is_nan() || pivot <= SINGULAR {
                return None;
            }
            order.swap(step, best);
            let pivot_row = order[step];
            for &row in &order[step + 1..] {
                let factor = cells[row * size + step] / cells[pivot_row * size + step];
                cells[row * size + step] = factor;
                if factor != 0.0 {
                    for column in step + 1..size {
                        cells[row * size + column] -= factor * cells[pivot_row * size + column];
                    }
                }
            }
        }
        Some(Self { size, cells, order })
    }

    /// Solves for one right-hand side.
    pub(super) fn solve(&self, right_hand_side: &[f64]) -> Vec<f64> {
        let mut x = vec![0.0; self.size];
        for step in 0..self.size {
            let row = &self.cells[self.order[step] * self.size..][..self.size];
            let known: f64 = row[..step].iter().zip(&x).map(|(cell, value)| cell * value).sum();
            x[step] = right_hand_side[self.order[step]] - known;
        }
        for step in (0..self.size).rev() {
            let row = &self.cells[self.order[step] * self.size..][..self.size];
            let known: f64 = row[step + 1..]
                .iter()
                .zip(&x[step + 1..])
                .map(|(cell, value)| cell * value)
                .sum();
            x[step] = (x[step] - known) / row[step];
        }
        x
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn solves_a_matrix_that_needs_pivoting() {
        let lu = Lu::new(2, vec![0.0, 2.0, 3.0, 1.0]).expect("regular");
        assert_eq!(lu.solve(&[4.0, 5.0]), [1.0, 2.0]);
    }

    #[test]
    fn a_singular_matrix_is_refused() {
        assert!(Lu::new(2, vec![1.0, 2.0, 2.0, 4.0]).is_none());
    }
}
