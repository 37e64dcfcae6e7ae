//! Planetary sets, differentials and stepped planets of a basic efficiency `n0` (carrier held).
//!
//! The loss is charged on the *rolling* power, in the carrier's frame: `d_p = −k |c_p| sgn(w_p − w_c)` at the two central
//! members, and the carrier takes the balance of torque. A set that turns as one block loses nothing.
//!
//! Source: E. I. Radzimovsky, Machine Design 28 (1956) 101–110; R. H. Macmillan & P. B. Davies, J. Mech. Eng. Sci. 7
//! (1965) 40–47; E. Pennestrì & F. Freudenstein, ASME J. Mech. Des. 115 (1993) 645–651.

use layshaft_kinematics::Element;

use super::{Rotation, half_difference};

pub(super) fn absolute(efficiency: f64, element: &Element, rotation: &Rotation<'_>) -> [f64; 3] {
    let Some(gear) = element.as_carrier_gear() else {
        return [0.0; 3];
    };
    let k = half_difference(efficiency);
    let central = |port, coefficient: i128| {
        -k * (coefficient as f64).abs() * rotation.relative_sign(port, gear.carrier)
    };
    let first = central(gear.first, gear.coefficients[0]);
    let second = central(gear.second, gear.coefficients[1]);
    [first, second, -(first + second)]
}
