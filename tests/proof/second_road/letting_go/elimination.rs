//! Linear systems of which some may leave something open: dense elimination that says so.

use nalgebra::DMatrix;

/// Elimination with the largest pivot of all; the unknowns that nothing determines are put to 0, and it is said whether
/// there are any. Nothing where the equations contradict one another.
pub fn solved(mut matrix: DMatrix<f64>, mut side: Vec<f64>) -> Option<(Vec<f64>, bool)> {
    let n = side.len();
    let mut order: Vec<usize> = (0..n).collect();
    let mut rank = n;
    for at in 0..n {
        let mut pivot = (at, at, 0.0);
        for column in at..n {
            for row in at..n {
                let size = matrix[(row, column)].abs();
                if size > pivot.2 {
                    pivot = (row, column, size);
                }
            }
        }
        if pivot.2 < 1e-10 {
            rank = at;
            break;
        }
        matrix.swap_rows(at, pivot.0);
        side.swap(at, pivot.0);
        matrix.swap_columns(at, pivot.1);
        order.swap(at, pivot.1);
        for row in at + 1..n {
            let factor = matrix[(row, at)] / matrix[(at, at)];
            if factor != 0.0 {
                for column in at..n {
                    matrix[(row, column)] -= factor * matrix[(at, column)];
                }
                side[row] -= factor * side[at];
            }
        }
    }
    if side[rank..].iter().any(|left| left.abs() > 1e-8) {
        return None;
    }
    let mut x = vec![0.0; n];
    for at in (0..rank).rev() {
        let known: f64 = (at + 1..rank)
            .map(|column| matrix[(at, column)] * x[order[column]])
            .sum();
        x[order[at]] = (side[at] - known) / matrix[(at, at)];
    }
    Some((x, rank == n))
}
