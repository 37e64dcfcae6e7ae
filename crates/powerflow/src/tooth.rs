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

/// Tip contact ratios of pinion and wheel of standard addendum (1 module).
#[must_use]
fn tip_contact(z: [f64; 2], pressure: f64, form: PairForm) -> [f64; 2] {
    let tip = |z: f64, addendum: f64| {
        let tip_angle = acos((z * cos(pressure) / (z + 2.0 * addendum)).min(1.0));
        z / TAU * (tan(tip_angle) - tan(pressure))
    };
    let second = match form {
        // The ring's teeth point inward: its tip circle is the smaller one, and contact ends on the other side.
        PairForm::Internal => {
            let ratio = z[1] * cos(pressure) / (z[1] - 2.0);
            let tangent = if ratio < 1.0 {
                sqrt(1.0 / (ratio * ratio) - 1.0)
            } else {
                0.0
            };
            z[1] / TAU * (tan(pressure) - tangent)
        }
        PairForm::External | PairForm::Bevel => tip(z[1], 1.0),
    };
    [tip(z[0], 1.0), second]
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
    let pressure = pressure.to_radians();
    let mut z = teeth.map(f64::from);
    if form == PairForm::Bevel {
        let cone = atan(z[0] / z[1]);
        z = [z[0] / cos(cone), z[1] / sin(cone)];
    }
    let [e1, e2] = tip_contact(z, pressure, form);
    // Contact before the pinion's base circle is impossible with standard teeth: the pinion is undercut there.
    let reach = |z: f64| z * tan(pressure) / TAU;
    let undercut = e2 > reach(z[0]) || (form != PairForm::Internal && e1 > reach(z[1]));
    let curvature = match form {
        PairForm::Internal => 1.0 / z[0] - 1.0 / z[1],
        PairForm::External | PairForm::Bevel => 1.0 / z[0] + 1.0 / z[1],
    };
    let e = e1 + e2;
    let in_range = e1 <= 1.0 && e2 <= 1.0 && (1.0..=2.0).contains(&e) && e1 >= 0.0 && e2 >= 0.0;
    let factor = if in_range {
        PI * curvature * (1.0 - e + e1 * e1 + e2 * e2)
    } else {
        TAU * curvature * shared_sliding(e1, e2)
    };
    ToothLoss {
        factor,
        integrated: !in_range,
        undercut,
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
    fn an_internal_pair_by_the_integral() {
        check([20, 60], PairForm::Internal, 0.1046);
    }

    #[test]
    fn the_polynomial_is_the_integral_within_its_range() {
        let [e1, e2] = tip_contact([20.0, 60.0], 20.0_f64.to_radians(), PairForm::External);
        let e = e1 + e2;
        let polynomial = (1.0 - e + e1 * e1 + e2 * e2) / 2.0;
        assert!((shared_sliding(e1, e2) - polynomial).abs() < 1e-12);
    }

    #[test]
    fn eight_teeth_are_undercut() {
        assert!(tooth_loss([8, 24], Angle::degrees(20.0), PairForm::External).undercut);
        assert!(!tooth_loss([20, 60], Angle::degrees(20.0), PairForm::External).undercut);
    }
}
