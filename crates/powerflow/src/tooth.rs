//! Tooth-loss factor of involute gears: loss of a mesh is `f H`, efficiency `1 − f H`.
//!
//! `H = π (1/z1 ± 1/z2)(1 − e + e1² + e2²)`, plus for external, minus for internal pairs; `e1`, `e2` the tip contact
//! ratios, `e = e1 + e2`. Source: G. Niemann & H. Winter, Maschinenelemente II, 2nd ed. 1983, section 21.11 (after H.
//! Ohlendorf, 1958; from memory of the book). The polynomial holds for `e1, e2 ≤ 1 ≤ e ≤ 2`; outside it the sliding is
//! integrated along the path of contact with the load shared evenly by the pairs in contact.

use core::f64::consts::{PI, TAU};

use libm::{acos, atan, cos, sin, sqrt, tan};

use layshaft_quantity::Angle;

/// Form of the pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PairForm {
    /// Both toothed outside.
    External,
    /// The second is a ring gear.
    Internal,
    /// Straight bevel at right angles, taken as spur gears of the virtual tooth counts `z / cos δ`.
    Bevel,
}

/// A tooth-loss factor and how it was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToothLoss {
    /// The factor `H`.
    pub factor: f64,
    /// By integration, the polynomial being outside its range.
    pub integrated: bool,
    /// A gear of standard addendum would be undercut; the factor is for teeth that are not.
    pub undercut: bool,
}

/// Smallest efficiency that a friction is taken to leave: a pair that would not turn at all is kept at what the equation
/// of power flow can carry, and nearly nothing comes out.
pub(crate) const LEAST_EFFICIENCY: f64 = 1e-6;

impl ToothLoss {
    /// Efficiency of the pair at a coefficient of friction, `1 − f H`.
    #[must_use]
    pub fn efficiency(&self, friction: f64) -> f64 {
        (1.0 - friction * self.factor).max(LEAST_EFFICIENCY)
    }
}

/// A pair of standard addendum (1 module) as its path of contact sees it.
struct Contact {
    /// Tip contact ratios of pinion and wheel, in base pitches.
    tips: [f64; 2],
    /// `1/z1 ± 1/z2`.
    curvature: f64,
    undercut: bool,
}

impl Contact {
    fn new(teeth: [f64; 2], pressure: Angle, form: PairForm) -> Self {
        let slope = tan(pressure.to_radians());
        let z = match form {
            PairForm::Bevel => virtual_teeth(teeth),
            PairForm::External | PairForm::Internal => teeth,
        };
        let internal = form == PairForm::Internal;
        let tips = [
            outer_tip(z[0], pressure),
            if internal {
                inner_tip(z[1], pressure)
            } else {
                outer_tip(z[1], pressure)
            },
        ];
        // Contact beyond a base circle is impossible with standard teeth: that gear is undercut there. A ring has none.
        let reach = |z: f64| z * slope / TAU;
        Self {
            curvature: if internal {
                1.0 / z[0] - 1.0 / z[1]
            } else {
                1.0 / z[0] + 1.0 / z[1]
            },
            undercut: tips[1] > reach(z[0]) || (!internal && tips[0] > reach(z[1])),
            tips,
        }
    }

    /// Whether one or two pairs are in contact and the pitch point lies where one is, as the polynomial takes it.
    fn polynomial_holds(&self) -> bool {
        let [e1, e2] = self.tips;
        (0.0..=1.0).contains(&e1) && (0.0..=1.0).contains(&e2) && (1.0..=2.0).contains(&(e1 + e2))
    }

    fn polynomial(&self) -> f64 {
        let [e1, e2] = self.tips;
        PI * self.curvature * (1.0 - (e1 + e2) + e1 * e1 + e2 * e2)
    }

    fn integral(&self) -> f64 {
        TAU * self.curvature * shared_sliding(self.tips[0], self.tips[1])
    }
}

/// Spur gears that bevel gears at right angles are like: `z / cos δ`, by T. Tredgold's approximation.
pub(crate) fn virtual_teeth([a, b]: [f64; 2]) -> [f64; 2] {
    let cone = atan(a / b);
    [a / cos(cone), b / sin(cone)]
}

fn outer_tip(z: f64, pressure: Angle) -> f64 {
    let pressure = pressure.to_radians();
    let tip_angle = acos((z * cos(pressure) / (z + 2.0)).min(1.0));
    z / TAU * (tan(tip_angle) - tan(pressure))
}

/// A ring's teeth point inward: its tip circle is the smaller one, and contact ends on the other side of the pitch point.
fn inner_tip(z: f64, pressure: Angle) -> f64 {
    let pressure = pressure.to_radians();
    let ratio = z * cos(pressure) / (z - 2.0);
    let tangent = if ratio < 1.0 {
        sqrt(1.0 / (ratio * ratio) - 1.0)
    } else {
        0.0
    };
    z / TAU * (tan(pressure) - tangent)
}

/// Tooth-loss factor of a pair of standard gears.
///
/// `teeth`: tooth counts, for [`PairForm::Internal`] the ring second. Neglected: profile shift, load-dependent friction,
/// rolling and bearing losses.
///
/// ```
/// # use layshaft_powerflow::tooth::{PairForm, tooth_loss};
/// # use layshaft_quantity::Angle;
/// // 20 on 60 external, 20°: 0.1532.
/// let loss = tooth_loss([20, 60], Angle::degrees(20.0), PairForm::External);
/// assert!((loss.factor - 0.1532).abs() < 5e-5);
/// ```
#[must_use]
pub fn tooth_loss(teeth: [u32; 2], pressure: Angle, form: PairForm) -> ToothLoss {
    tooth_loss_of(teeth.map(f64::from), pressure, form)
}

/// The same for tooth counts that need not be whole, such as a planet's as sun and ring leave room for it.
#[must_use]
pub fn tooth_loss_of(teeth: [f64; 2], pressure: Angle, form: PairForm) -> ToothLoss {
    let contact = Contact::new(teeth, pressure, form);
    let integrated = !contact.polynomial_holds();
    ToothLoss {
        factor: if integrated {
            contact.integral()
        } else {
            contact.polynomial()
        },
        integrated,
        undercut: contact.undercut,
    }
}

/// The factor by the polynomial alone, also outside its range: to compare with values that others worked out so.
#[must_use]
pub fn tooth_loss_by_polynomial(teeth: [f64; 2], pressure: Angle, form: PairForm) -> ToothLoss {
    let contact = Contact::new(teeth, pressure, form);
    ToothLoss {
        factor: contact.polynomial(),
        integrated: false,
        undercut: contact.undercut,
    }
}

/// `∫ |s| / N ds` from `−e2` to `e1` in base pitches from the pitch point, `N` pairs in contact sharing evenly.
///
/// Within one base pitch the places of contact are `s, s ± 1, …`; the integral over the whole path equals that over one
/// pitch of the mean `|s|` of the pairs in contact. `N` is constant between the places where a pair enters or leaves, so
/// the pieces are integrated exactly.
fn shared_sliding(e1: f64, e2: f64) -> f64 {
    let (low, high) = (-e2, e1);
    if high - low < 1.0 {
        // Less than one pair on average: contact is lost for a while; each place carries the whole load while it lasts.
        return half_square(high) - half_square(low);
    }
    let mut cuts = vec![low, high, 0.0_f64.clamp(low, high)];
    let steps = libm::ceil(high - low) as i32 + 1;
    for step in 1..=steps {
        cuts.push(low + f64::from(step));
        cuts.push(high - f64::from(step));
    }
    cuts.retain(|cut| (low..=high).contains(cut));
    cuts.sort_by(f64::total_cmp);
    cuts.windows(2)
        .map(|piece| {
            let middle = (piece[0] + piece[1]) / 2.0;
            let pairs = (-steps..=steps)
                .filter(|&step| (low..=high).contains(&(middle + f64::from(step))))
                .count()
                .max(1);
            (half_square(piece[1]) - half_square(piece[0])) / pairs as f64
        })
        .sum()
}

/// `∫ |s| ds` from 0.
fn half_square(s: f64) -> f64 {
    s * s.abs() / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(teeth: [u32; 2], form: PairForm, expected: f64) {
        let loss = tooth_loss(teeth, Angle::degrees(20.0), form);
        assert!(
            (loss.factor - expected).abs() < 5e-5,
            "{loss:?} should be {expected}"
        );
    }

    #[test]
    fn external_pairs_by_the_polynomial() {
        check([20, 60], PairForm::External, 0.1532);
        check([20, 20], PairForm::External, 0.2058);
    }

    #[test]
    fn an_internal_pair_by_the_integral_and_by_the_polynomial() {
        check([20, 60], PairForm::Internal, 0.1046);
        let pressure = Angle::degrees(20.0);
        assert!(tooth_loss([20, 60], pressure, PairForm::Internal).integrated);
        let polynomial = tooth_loss_by_polynomial([20.0, 60.0], pressure, PairForm::Internal);
        assert!((polynomial.factor - 0.1077).abs() < 5e-5);
    }

    #[test]
    fn the_polynomial_is_the_integral_within_its_range() {
        for (teeth, degrees) in [([20.0, 60.0], 20.0), ([17.0, 17.5], 25.0), ([40.0, 90.0], 20.0)] {
            let contact = Contact::new(teeth, Angle::degrees(degrees), PairForm::External);
            assert!(contact.polynomial_holds());
            assert!((contact.integral() - contact.polynomial()).abs() < 1e-13);
        }
    }

    /// At 14.5° a pair of long contact has a tip contact ratio above 1 though the sum is below 2.3: the polynomial no
    /// longer holds, and the integral, summed in small steps, does.
    #[test]
    fn long_contact_is_integrated() {
        let (teeth, pressure) = ([60.0, 90.0], Angle::degrees(14.5));
        let loss = tooth_loss_of(teeth, pressure, PairForm::External);
        assert!(loss.integrated && !loss.undercut);
        let contact = Contact::new(teeth, pressure, PairForm::External);
        let [high, low] = [contact.tips[0], -contact.tips[1]];
        let steps = 200_000;
        let width = (high - low) / f64::from(steps);
        let sum: f64 = (0..steps)
            .map(|step| {
                let s = low + (f64::from(step) + 0.5) * width;
                let pairs = (-4..=4)
                    .filter(|&k| (low..=high).contains(&(s + f64::from(k))))
                    .count();
                s.abs() / pairs as f64 * width
            })
            .sum();
        assert!((loss.factor - TAU * contact.curvature * sum).abs() < 1e-5 * loss.factor);
    }

    /// Mitre gears of 20 teeth are like spur gears of 28.28.
    #[test]
    fn bevel_gears_by_virtual_teeth() {
        let pressure = Angle::degrees(20.0);
        let bevel = tooth_loss([20, 20], pressure, PairForm::Bevel);
        let spur = tooth_loss_of(
            [20.0 * core::f64::consts::SQRT_2; 2],
            pressure,
            PairForm::External,
        );
        assert!((bevel.factor - spur.factor).abs() < 1e-12);
    }

    /// Contact ratios of standard 20° gears: 17 on 17 1.515, 20 on 40 1.635 (worked by hand).
    #[test]
    fn contact_ratios() {
        for (teeth, expected) in [([17.0, 17.0], 1.515), ([20.0, 40.0], 1.635)] {
            let [e1, e2] = Contact::new(teeth, Angle::degrees(20.0), PairForm::External).tips;
            assert!((e1 + e2 - expected).abs() < 5e-4);
        }
    }

    #[test]
    fn eight_teeth_are_undercut() {
        assert!(tooth_loss([8, 24], Angle::degrees(20.0), PairForm::External).undercut);
        assert!(!tooth_loss([20, 60], Angle::degrees(20.0), PairForm::External).undercut);
    }
}
