//! Worm and wheel with sliding friction along the thread and, where given, at the thrust collar.
//!
//! Tooth normal force with friction `f` along the sliding, lead angle `g`, normal pressure angle `a`:
//! `d_w = −|c_w| f cos g / (cos a sin g) · sgn w_w`, `d_g = −|c_g| f sin g / (cos a cos g) · sgn w_g`. Worm driving
//! that gives `(cos a − f tan g)/(cos a + f cot g)`, wheel driving `(cos a − f cot g)/(cos a + f tan g)`.
//!
//! Source: J. E. Shigley & C. R. Mischke, Mechanical Engineering Design, 5th ed. 1989, sections 13-12 and 13-17
//! (force analysis and efficiency of worm gearing), for the collar section 8-2 (power screws); from memory of the book.

use layshaft_kinematics::Element;
use layshaft_quantity::Angle;
use libm::{cos, sin};

use super::Rotation;

/// Friction of a worm's thread and collar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WormFriction {
    /// Lead angle.
    pub lead: Angle,
    /// Coefficient of friction.
    pub friction: f64,
    /// Normal pressure angle.
    pub pressure: Angle,
    /// What takes the worm's thrust; none: without friction.
    pub collar: Option<Collar>,
    /// Whether the coefficients are those of surfaces at rest already.
    pub at_rest: bool,
}

/// The collar that takes a worm's thrust `F_ax = T_wheel / r_wheel`: friction torque `f r_t F_ax` on the worm, opposing
/// its rotation. Often the larger part of a worm's loss.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Collar {
    /// Coefficient of friction `f`.
    pub friction: f64,
    /// Mean radius of the collar over pitch radius of the wheel, `r_t / r_wheel`.
    pub arm_ratio: f64,
    /// Turns of the worm per turn of the wheel: teeth over starts.
    pub reduction: f64,
}

impl Collar {
    /// Collar torque over the worm's loss-free torque, for a wheel torque of the loss-free size.
    #[must_use]
    pub fn share(&self) -> f64 {
        self.friction * self.arm_ratio * self.reduction
    }
}

/// Static over kinetic friction where nothing else is said (common practice, no source: published ratios lie from 1 to 2).
pub const STATIC_OVER_KINETIC: f64 = 1.3;

impl WormFriction {
    /// Whether nothing rubs.
    #[must_use]
    pub fn is_none(&self) -> bool {
        self.friction == 0.0 && self.collar_share() == 0.0
    }

    fn collar_share(&self) -> f64 {
        self.collar.map_or(0.0, |collar| collar.share())
    }

    /// Friction torque of the thread over loss-free torque, at the worm and at the wheel.
    #[must_use]
    pub fn thread_shares(&self) -> [f64; 2] {
        let (lead, pressure) = (self.lead.to_radians(), self.pressure.to_radians());
        [
            self.friction * cos(lead) / (cos(pressure) * sin(lead)),
            self.friction * sin(lead) / (cos(pressure) * cos(lead)),
        ]
    }

    /// `|d_p / c_p|` at the worm and at the wheel: the friction torques, collar included, in the form `L c_p + |L| d_p`.
    ///
    /// A collar of share `κ` adds `κ` times the *real* wheel torque, thread friction `g` included, to the worm's: per unit
    /// of `|L|` that is `κ (1 + g)` one way and `κ |1 − g|` the other, which has no such form. But only the ratio of the two
    /// torques means anything, not the size of `L`; so each way gets its own measure of `L`, chosen so that half the sum
    /// of both ways is `c_p` again.
    #[must_use]
    pub fn shares(&self) -> [f64; 2] {
        let [worm, wheel] = self.thread_shares();
        let collar = self.collar_share();
        if collar == 0.0 {
            return [worm, wheel];
        }
        let (more, less) = (1.0 + wheel, 1.0 - wheel);
        let both = 2.0 * (worm + wheel) + collar * more * (less + less.abs());
        let plus = 2.0 * (worm + wheel + collar * less.abs()) / both;
        let minus = 2.0 * (worm + wheel + collar * more) / both;
        let driven = 1.0 - worm - collar * more;
        let driving = 1.0 + worm + collar * less.abs();
        [
            (minus * driving - plus * driven) / 2.0,
            (plus * more - minus * less) / 2.0,
        ]
    }

    /// Torque at the worm over its loss-free torque for what the wheel really carries: the least that keeps the wheel from
    /// running away and the most before the worm drives it; infinite where the worm cannot drive it.
    fn window(&self) -> [f64; 2] {
        let [worm, wheel] = self.thread_shares();
        let collar = self.collar_share();
        let most = if wheel < 1.0 {
            (1.0 + worm) / (1.0 - wheel) + collar
        } else {
            f64::INFINITY
        };
        [(1.0 - worm) / (1.0 + wheel) - collar, most]
    }

    /// Efficiency with the worm driving; 0: it cannot.
    ///
    /// With a collar of share `κ`: `1 / (1/η + κ)`, `η` the thread's own.
    #[must_use]
    pub fn driving(&self) -> f64 {
        1.0 / self.window()[1]
    }

    /// Efficiency with the wheel driving, `η' − κ`; 0 or less: self-locking.
    ///
    /// ```
    /// # use layshaft_powerflow::{Collar, WormFriction};
    /// # use layshaft_quantity::Angle;
    /// let mut worm = WormFriction {
    ///     lead: Angle::degrees(5.0), friction: 0.1, pressure: Angle::degrees(20.0), collar: None, at_rest: false,
    /// };
    /// assert!((worm.driving() - 0.446989).abs() < 1e-6 && (worm.back() + 0.214365).abs() < 1e-6);
    /// worm.collar = Some(Collar { friction: 0.1, arm_ratio: 0.2, reduction: 30.0 });
    /// assert!((worm.driving() - 1.0 / (1.0 / 0.446989 + 0.6)).abs() < 1e-6);
    /// ```
    #[must_use]
    pub fn back(&self) -> f64 {
        self.window()[0]
    }

    /// The same surfaces at rest; once they are, no more friction comes on top.
    #[must_use]
    pub fn at_rest(&self) -> Self {
        if self.at_rest {
            return *self;
        }
        let collar = |collar: Collar| Collar {
            friction: collar.friction * STATIC_OVER_KINETIC,
            ..collar
        };
        Self {
            friction: self.friction * STATIC_OVER_KINETIC,
            collar: self.collar.map(collar),
            at_rest: true,
            ..*self
        }
    }

    /// Whether it stays where it is with these torques put on the shafts of worm and wheel by everything else; `c` are the
    /// coefficients of its constraint.
    ///
    /// Thread and collar mobilise any share of their static friction, either way. What the thread hands the worm falls
    /// steadily from one limit to the other, so it holds when the worm's torque lies between the limits.
    #[must_use]
    pub fn holds(&self, c: [f64; 2], torques: [f64; 2]) -> bool {
        let [worm, wheel] = torques;
        // What the worm would have to take from the wheel's torque without friction.
        let balance = wheel * c[0] / c[1];
        if balance == 0.0 {
            return worm == 0.0;
        }
        let [least, most] = self.at_rest().window();
        let share = worm / balance;
        share >= least && share <= most
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
    use libm::tan;

    const LEAD: f64 = 5.0;
    const REDUCTION: f64 = 30.0;

    fn worm(lead: f64, friction: f64) -> WormFriction {
        WormFriction {
            lead: Angle::degrees(lead),
            friction,
            pressure: Angle::degrees(20.0),
            collar: None,
            at_rest: false,
        }
    }

    fn with_collar(friction: f64, collar_friction: f64, arm_ratio: f64) -> WormFriction {
        WormFriction {
            collar: Some(Collar {
                friction: collar_friction,
                arm_ratio,
                reduction: REDUCTION,
            }),
            ..worm(LEAD, friction)
        }
    }

    /// Torque that turns the worm over that without friction, from the forces on thread and collar; `way` +1: the worm drives.
    fn by_forces(worm: &WormFriction, way: f64) -> f64 {
        let (g, a, f) = (worm.lead.to_radians(), worm.pressure.to_radians(), worm.friction);
        let wheel_radius = 1.0;
        let worm_radius = wheel_radius / (REDUCTION * tan(g));
        let normal = 1.0;
        let round = normal * (cos(a) * sin(g) + way * f * cos(g));
        let along = normal * (cos(a) * cos(g) - way * f * sin(g));
        let collar = worm
            .collar
            .map_or(0.0, |c| c.friction * c.arm_ratio * wheel_radius * along);
        let wheel_torque = along * wheel_radius;
        (round * worm_radius + way * collar) * REDUCTION / wheel_torque
    }

    /// The same from the form `L c_p + |L| d_p`, `c = [1, −30]`, turning so that `w_w > 0`.
    fn by_shares(worm: &WormFriction, way: f64) -> f64 {
        let [c_worm, c_wheel] = [1.0, -REDUCTION];
        let [share_worm, share_wheel] = worm.shares();
        let [d_worm, d_wheel] = [-share_worm * c_worm, -share_wheel * REDUCTION];
        // The worm drives where the tooth load brakes it.
        let load = -way;
        let torque = |c: f64, d: f64| load * c + load.abs() * d;
        torque(c_worm, d_worm) / torque(c_wheel, d_wheel) * c_wheel / c_worm
    }

    fn check(worm: &WormFriction) {
        for way in [1.0, -1.0] {
            let (forces, shares) = (by_forces(worm, way), by_shares(worm, way));
            assert!(
                (forces - shares).abs() < 1e-13 * (1.0 + forces.abs()),
                "{worm:?}: {forces} and {shares}"
            );
        }
        assert!((worm.driving() * by_forces(worm, 1.0) - 1.0).abs() < 1e-13);
        assert!((worm.back() - by_forces(worm, -1.0)).abs() < 1e-13);
    }

    #[test]
    fn forces_on_thread_and_collar_give_the_same_torques() {
        check(&worm(LEAD, 0.1));
        check(&with_collar(0.1, 0.15, 0.2));
        check(&with_collar(0.0, 0.15, 0.2));
        check(&with_collar(0.02, 0.6, 0.9));
        check(&WormFriction {
            lead: Angle::degrees(40.0),
            ..with_collar(0.3, 0.2, 0.5)
        });
    }

    #[test]
    fn friction_at_rest_is_counted_once() {
        let rest = with_collar(0.1, 0.15, 0.2).at_rest();
        assert!((rest.friction - 0.13).abs() < 1e-15);
        assert_eq!(rest.at_rest(), rest);
    }

    #[test]
    fn a_collar_locks_a_worm_that_would_let_go() {
        assert!(worm(LEAD, 0.02).back() > 0.7);
        assert!(with_collar(0.02, 0.15, 0.2).back() < 0.0);
    }

    #[test]
    fn efficiencies_by_share_and_by_formula_agree() {
        let worm = worm(12.0, 0.07);
        let (f, g, a) = (0.07, worm.lead.to_radians(), worm.pressure.to_radians());
        let driving = (cos(a) - f * tan(g)) / (cos(a) + f / tan(g));
        assert!((worm.driving() - driving).abs() < 1e-14);
    }

    /// Shigley & Mischke's table of efficiencies at f = 0.05 and a normal pressure angle of 14.5° (from memory; its value at
    /// 5° does not recompute and is left out).
    #[test]
    fn published_efficiencies_by_lead_angle() {
        let rows = [
            (1.0, 25.2),
            (2.5, 45.7),
            (7.5, 71.3),
            (10.0, 76.6),
            (15.0, 82.7),
            (20.0, 85.9),
            (30.0, 89.1),
        ];
        for (lead, percent) in rows {
            let worm = WormFriction {
                pressure: Angle::degrees(14.5),
                ..worm(lead, 0.05)
            };
            assert!(
                (100.0 * worm.driving() - percent).abs() < 0.06,
                "{lead}° should give {percent}"
            );
        }
    }

    const C: [f64; 2] = [1.0, -REDUCTION];

    #[test]
    fn a_steep_thread_lets_go_and_a_flat_one_holds() {
        assert!(worm(5.0, 0.1).holds(C, [0.0, -1.0]));
        assert!(!worm(20.0, 0.1).holds(C, [0.0, -1.0]));
    }

    #[test]
    fn a_held_worm_is_moved_by_enough_torque_on_the_worm() {
        assert!(worm(5.0, 0.1).holds(C, [0.05, -1.0]));
        assert!(!worm(5.0, 0.1).holds(C, [0.20, -1.0]));
        // A collar of static share 1.3 · 0.9 takes another 0.039 N·m.
        let limit = worm(5.0, 0.1).at_rest().window()[1] / REDUCTION;
        let collared = with_collar(0.1, 0.15, 0.2);
        assert!(collared.holds(C, [limit + 0.038, -1.0]) && !collared.holds(C, [limit + 0.040, -1.0]));
    }

    #[test]
    fn a_collar_holds_what_the_thread_alone_would_let_go() {
        assert!(!worm(5.0, 0.02).holds(C, [0.0, -1.0]));
        assert!(with_collar(0.02, 0.15, 0.2).holds(C, [0.0, -1.0]));
        assert!(
            !with_collar(0.02, 0.15, 0.2).holds(C, [0.01, 0.0]),
            "nothing presses on thread or collar"
        );
    }
}
