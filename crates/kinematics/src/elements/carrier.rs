//! Elements with a carrier: planetary sets, differentials, stepped planets. All obey Willis' equation.
//!
//! `w_1 − w_c = i0 (w_2 − w_c)` with `i0` the basic ratio, carrier held (R. Willis, Principles of Mechanism, 2nd ed.
//! 1870, part of "epicyclic trains"; today in every text on machine design).

use crate::train::{Constraint, Port};

/// What all elements with a carrier have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CarrierGear {
    /// First central member (side, sun, first gear).
    pub first: Port,
    /// Second central member (side, ring, second gear).
    pub second: Port,
    /// Carrier.
    pub carrier: Port,
    /// Coefficients of first, second and carrier; they add up to 0, and `i0 = −second / first`.
    pub coefficients: [i128; 3],
}

impl CarrierGear {
    fn new(ports: [Port; 3], first: i128, second: i128) -> Self {
        // Not reduced: for a planetary set the multiplier then stands for the tooth force at half a module, as in a mesh.
        Self {
            first: ports[0],
            second: ports[1],
            carrier: ports[2],
            coefficients: [first, second, -(first + second)],
        }
    }

    /// Its three ports: first, second, carrier.
    #[must_use]
    pub const fn ports(&self) -> [Port; 3] {
        [self.first, self.second, self.carrier]
    }

    pub(super) fn constraint(&self) -> Constraint {
        let [first, second, carrier] = self.coefficients;
        Constraint::new(&[
            (self.first, first),
            (self.second, second),
            (self.carrier, carrier),
        ])
    }
}

/// Bevel differential: `w_a + w_b − 2 w_c = 0`, basic ratio −1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Differential {
    /// The two sides.
    pub sides: [Port; 2],
    /// The carrier (cage).
    pub carrier: Port,
}

impl Differential {
    pub(super) fn as_carrier_gear(&self) -> CarrierGear {
        CarrierGear::new([self.sides[0], self.sides[1], self.carrier], 1, 1)
    }
}

/// Planets of a planetary set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Planets {
    /// One planet between sun and ring: basic ratio `−z_r / z_s`.
    Single,
    /// Two planets in mesh with one another: basic ratio `+z_r / z_s`.
    Double,
}

/// Planetary set: `w_s + R w_r − (1 + R) w_c = 0` with single planets, `w_s − R w_r − (1 − R) w_c = 0` with double ones,
/// `R = z_r / z_s`. The planets' own tooth counts don't matter for the central speeds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Planetary {
    /// Sun.
    pub sun: Port,
    /// Ring.
    pub ring: Port,
    /// Carrier.
    pub carrier: Port,
    /// Teeth of the sun.
    pub sun_teeth: u32,
    /// Teeth of the ring.
    pub ring_teeth: u32,
    /// Single or double.
    pub planets: Planets,
}

impl Planetary {
    pub(super) fn as_carrier_gear(&self) -> CarrierGear {
        let ring = i128::from(self.ring_teeth);
        let ring = match self.planets {
            Planets::Single => ring,
            Planets::Double => -ring,
        };
        CarrierGear::new(
            [self.sun, self.ring, self.carrier],
            i128::from(self.sun_teeth),
            ring,
        )
    }
}

/// Any two central gears through stepped planets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stepped {
    /// First central gear.
    pub first: Port,
    /// Second central gear.
    pub second: Port,
    /// Carrier.
    pub carrier: Port,
    /// Basic ratio `(w_first − w_c) / (w_second − w_c)` as numerator and denominator, signed.
    pub basic_ratio: [i128; 2],
}

impl Stepped {
    /// Basic ratio from tooth counts: `s1 s2 (z_p1 / z_1)(z_2 / z_p2)`, `s = −1` external, `+1` at a ring gear.
    ///
    /// Derivation: with the carrier held, gear 1 turns its planet by `s1 z_1 / z_p1`, the planet's other step turns gear
    /// 2 by `s2 z_p2 / z_2`; `i0` is the inverse of that product.
    ///
    /// ```
    /// # use layshaft_kinematics::elements::Stepped;
    /// // External 20 on 30, external 20 on 30: 9/4.
    /// assert_eq!(Stepped::ratio_from_teeth([20, 30], [20, 30], [false, false]), [900, 400]);
    /// ```
    #[must_use]
    pub fn ratio_from_teeth(first: [u32; 2], second: [u32; 2], ring: [bool; 2]) -> [i128; 2] {
        let sign = if ring[0] == ring[1] { 1 } else { -1 };
        let [first, first_planet] = first.map(i128::from);
        let [second_planet, second] = second.map(i128::from);
        [sign * first_planet * second, first * second_planet]
    }

    pub(super) fn as_carrier_gear(&self) -> CarrierGear {
        let [numerator, denominator] = self.basic_ratio;
        CarrierGear::new([self.first, self.second, self.carrier], denominator, -numerator)
    }
}
