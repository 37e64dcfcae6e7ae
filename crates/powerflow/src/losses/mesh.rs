//! Gears, chains and belts of a given efficiency `n`.
//!
//! With `k = (1 − n)/(1 + n)` the driving side carries `(1 + k)`, the driven side `(1 − k)` times the mean tooth load, so
//! that power out over power in is `n` whichever side drives: `d_p = −k |c_p| sgn w_p`.

use layshaft_kinematics::Element;

use super::{Rotation, half_difference};

pub(super) fn absolute(efficiency: f64, element: &Element, rotation: &Rotation<'_>) -> [f64; 3] {
    let k = half_difference(efficiency);
    let mut d = [0.0; 3];
    for (d, term) in d.iter_mut().zip(element.constraint().terms()) {
        *d = -k * term.weight().abs() * rotation.sign(term.port);
    }
    d
}
