//! A small dense matrix taken apart, in plain loops so that every machine gives the same bits.

pub(crate) struct Lu {
    rows: Vec<Vec<f64>>,
    order: Vec<usize>,
}

impl Lu {
    /// Takes a square matrix apart with the largest pivot of each column.
    pub(crate) fn new(mut rows: Vec<Vec<f64>>) -> Self {
        let n = rows.len();
        let mut order: Vec<usize> = (0..n).collect();
        for at in 0..n {
            let pivot = (at..n)
                .max_by(|&a, &b| rows[a][at].abs().total_cmp(&rows[b][at].abs()))
                .unwrap_or(at);
            rows.swap(at, pivot);
            order.swap(at, pivot);
            let (above, below) = rows.split_at_mut(at + 1);
            let own = &above[at];
            for row in below {
                row[at] /= own[at];
                let factor = row[at];
                for column in at + 1..n {
                    row[column] -= factor * own[column];
                }
            }
        }
        Self { rows, order }
    }

    /// Solves for one right-hand side.
    pub(crate) fn solve(&self, side: &[f64]) -> Vec<f64> {
        let n = self.rows.len();
        let mut x: Vec<f64> = self.order.iter().map(|&at| side[at]).collect();
        for row in 0..n {
            for column in 0..row {
                x[row] -= self.rows[row][column] * x[column];
            }
        }
        for row in (0..n).rev() {
            for column in row + 1..n {
                x[row] -= self.rows[row][column] * x[column];
            }
            x[row] /= self.rows[row][row];
        }
        x
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn solves_a_matrix_that_needs_pivoting() {
        let lu = Lu::new(vec![vec![0.0, 2.0], vec![3.0, 1.0]]);
        assert_eq!(lu.solve(&[4.0, 5.0]), [1.0, 2.0]);
    }
}
