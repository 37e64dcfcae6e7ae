//! Worm and wheel with sliding friction along the thread.
//!
//! Tooth normal force with friction `f` along the sliding, lead angle `g`, normal pressure angle `a`:
//! `d_w = −|c_w| f cos g / (cos a sin g) · sgn w_w`, `d_g = −|c_g| f sin g / (cos a cos g) · sgn w_g`. Worm driving
//! that gives `(cos a − f tan g)/(cos a + f cot g)`, wheel driving `(cos a − f cot g)/(cos a + f tan g)`.
//!
//! Source: J. E. Shigley & C. R. Mischke, Mechanical Engineering Design, 5th ed. 1989, sections 13-12 and 13-17
//! (force analysis and efficiency of worm gearing; from memory of the book).

use layshaft_kinematics::Element;
use layshaft_quantity::Angle;
use libm::{cos, sin, tan};

use super::Rotation;

/// Friction of a worm's thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WormFriction {
    /// Lead angle.
    pub lead: Angle,
    /// Coefficient of friction.
    pub friction: f64,
    /// Normal pressure angle.
    pub pressure: Angle,
}

/// Static over kinetic friction where nothing else is said.
pub const STATIC_OVER_KINETIC: f64 = 1.3;

impl WormFriction {
    /// Friction torque over loss-free torque, at the worm and at the wheel.
    #[must_use]
    pub fn shares(&self) -> [f64; 2] {
        let (lead, pressure) = (self.lead.to_radians(), self.pressure.to_radians());
        [
            self.friction * cos(lead) / (cos(pressure) * sin(lead)),
            self.friction * sin(lead) / (cos(pressure) * cos(lead)),
        ]
    }

    /// Efficiency with the worm driving.
    #[must_use]
    pub fn driving(&self) -> f64 {
        let [worm, wheel] = self.shares();
        (1.0 - wheel) / (1.0 + worm)
    }

    /// Efficiency with the wheel driving; 0 or less: self-locking.
    ///
    /// ```
    /// # use layshaft_powerflow::WormFriction;
    /// # use layshaft_quantity::Angle;
    /// let worm = WormFriction { lead: Angle::degrees(5.0), friction: 0.1, pressure: Angle::degrees(20.0) };
    /// assert!((worm.driving() - 0.446989).abs() < 1e-6 && (worm.back() + 0.214365).abs() < 1e-6);
    /// ```
    #[must_use]
    pub fn back(&self) -> f64 {
        let friction = self.friction / cos(self.pressure.to_radians());
        let lead = tan(self.lead.to_radians());
        (1.0 - friction / lead) / (1.0 + friction * lead)
    }

    /// The same surfaces at rest.
    #[must_use]
    pub fn at_rest(&self) -> Self {
        Self {
            friction: self.friction * STATIC_OVER_KINETIC,
            ..*self
        }
    }

    /// Whether it stays where it is with these torques put on the shafts of worm and wheel by everything else; `c` are the
    /// coefficients of its constraint.
    ///
    /// The tooth load `L` and the mobilised share `φ` of static friction follow from the two torques; it holds when
    /// `|φ| ≤ 1`.
    #[must_use]
    pub fn holds(&self, c: [f64; 2], torques: [f64; 2]) -> bool {
        if torques == [0.0; 2] {
            return true;
        }
        // The worm's own torques on the shafts balance those of everything else.
        let [worm, wheel] = torques.map(|torque| -torque);
        let [share_worm, share_wheel] = self.at_rest().shares();
        let turn = -(c[0] * c[1]).signum();
        [1.0, -1.0].into_iter().any(|side: f64| {
            let over = side * (wheel * c[0] - worm * c[1]);
            let under = wheel * c[0].abs() * share_worm - worm * c[1].abs() * share_wheel * turn;
            let phi = over / under;
            let size = (side * c[1] - c[1].abs() * share_wheel * turn * phi) * wheel
                + (side * c[0] - c[0].abs() * share_worm * phi) * worm;
            phi.abs() <= 1.0 && size >= 0.0
        })
    }
}

pub(super) fn absolute(friction: &WormFriction, element: &Element, rotation: &Rotation<'_>) -> [f64; 3] {
    let mut d = [0.0; 3];
    for ((d, share), term) in d
        .iter_mut()
        .zip(friction.shares())
        .zip(element.constraint().terms())
    {
        *d = -share * term.weight().abs() * rotation.sign(term.port);
    }
    d
}

#[cfg(test)]
mod tests {
    use super::*;

    fn worm(lead: f64, friction: f64) -> WormFriction {
        WormFriction {
            lead: Angle::degrees(lead),
            friction,
            pressure: Angle::degrees(20.0),
        }
    }

    #[test]
    fn efficiencies_by_share_and_by_formula_agree() {
        let worm = worm(12.0, 0.07);
        let (f, g, a) = (0.07, worm.lead.to_radians(), worm.pressure.to_radians());
        let driving = (cos(a) - f * tan(g)) / (cos(a) + f / tan(g));
        assert!((worm.driving() - driving).abs() < 1e-14);
    }

    #[test]
    fn a_steep_thread_lets_go_and_a_flat_one_holds() {
        let c = [1.0, -30.0];
        assert!(worm(5.0, 0.1).holds(c, [0.0, -1.0]));
        assert!(!worm(20.0, 0.1).holds(c, [0.0, -1.0]));
    }

    #[test]
    fn a_held_worm_is_moved_by_enough_torque_on_the_worm() {
        let c = [1.0, -30.0];
        assert!(worm(5.0, 0.1).holds(c, [0.05, -1.0]));
        assert!(!worm(5.0, 0.1).holds(c, [0.20, -1.0]));
    }
}
