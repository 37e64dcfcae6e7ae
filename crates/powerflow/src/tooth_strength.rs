//! How much torque a gear's teeth bear in bending, by the Lewis equation.
//!
//! Rough by design: one tooth carries all the load at its tip, no dynamic factor, no stress concentration. A measured
//! torque at which teeth skip or break is better.

use layshaft_quantity::{Force, Length, Torque};

use crate::tooth::PairForm;

/// Lewis form factors `Y` of full-depth teeth at 20°, load at the tip, by tooth count.
///
/// Source: J. E. Shigley & C. R. Mischke, Mechanical Engineering Design, 5th ed. 1989, table 14-2 (from memory; a
/// published curve fit gives 0.319 for 20 teeth).
const FORM_FACTORS: [(f64, f64); 24] = [
    (12.0, 0.245),
    (13.0, 0.261),
    (14.0, 0.277),
    (15.0, 0.290),
    (16.0, 0.296),
    (17.0, 0.303),
    (18.0, 0.309),
    (19.0, 0.314),
    (20.0, 0.322),
    (21.0, 0.328),
    (22.0, 0.331),
    (24.0, 0.337),
    (26.0, 0.346),
    (28.0, 0.353),
    (30.0, 0.359),
    (34.0, 0.371),
    (38.0, 0.384),
    (43.0, 0.397),
    (50.0, 0.409),
    (60.0, 0.422),
    (75.0, 0.435),
    (100.0, 0.447),
    (150.0, 0.460),
    (300.0, 0.472),
];

/// Form factor of a rack, the limit for many teeth.
const RACK: f64 = 0.485;

/// Lewis form factor `Y` (on the module) of a gear of full-depth teeth at 20°.
///
/// Between the rows of the table it is interpolated in `1/z`, in which it is nearly straight. Below 12 teeth, where such
/// teeth are undercut and no table goes, the line through the last two rows is followed, not below 0.1.
///
/// ```
/// # use layshaft_powerflow::tooth_strength::form_factor;
/// assert!((form_factor(20.0) - 0.322).abs() < 1e-12);
/// ```
#[must_use]
pub fn form_factor(teeth: f64) -> f64 {
    let above = FORM_FACTORS.partition_point(|&(z, _)| z < teeth);
    let row = |at: usize| {
        FORM_FACTORS
            .get(at)
            .map_or((0.0, RACK), |&(z, factor)| (1.0 / z, factor))
    };
    let (from, to) = if above == 0 {
        (row(0), row(1))
    } else {
        (row(above - 1), row(above))
    };
    let share = (1.0 / teeth - from.0) / (to.0 - from.0);
    (from.1 + share * (to.1 - from.1)).max(0.1)
}

/// Largest torque of a gear before its teeth exceed an allowable bending stress: `F_t = σ b m Y`, times `m z / 2`.
///
/// `sigma_mpa`: allowable stress in MPa; `width`: width of the face; `module`: transverse module; `teeth`: tooth count.
/// Source: W. Lewis, Proceedings of the Engineers' Club of Philadelphia 10 (1892) 16–23, in the metric form of any text on
/// machine design.
#[must_use]
pub fn bending_limit(sigma_mpa: f64, width: Length, module: Length, teeth: f64) -> Torque {
    tooth_force(sigma_mpa * form_factor(teeth), width, module) * (module * teeth / 2.0)
}

/// `σ Y` in MPa on a tooth of this width and module.
fn tooth_force(strength_mpa: f64, width: Length, module: Length) -> Force {
    Force::newtons(strength_mpa * 1e6 * width.to_metres() * module.to_metres())
}

/// Largest torque on the first gear of a pair before either gear's teeth exceed their allowable stress, given per gear.
///
/// A ring's teeth are thicker at the foot than a rack's; they are counted as a rack's.
#[must_use]
pub fn pair_limit(
    sigma_mpa: [f64; 2],
    width: Length,
    module: Length,
    teeth: [f64; 2],
    form: PairForm,
) -> Torque {
    let as_bent = match form {
        PairForm::Internal => [teeth[0], f64::INFINITY],
        PairForm::External => teeth,
        PairForm::Bevel => crate::tooth::virtual_teeth(teeth),
    };
    let strength = |gear: usize| sigma_mpa[gear] * form_factor(as_bent[gear]);
    let weaker = usize::from(strength(1) < strength(0));
    tooth_force(strength(weaker), width, module) * (module * teeth[0] / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(teeth: f64, expected: f64, tolerance: f64) {
        let found = form_factor(teeth);
        assert!(
            (found / expected - 1.0).abs() < tolerance,
            "{teeth} teeth: {found}, not {expected}"
        );
    }

    /// A curve fit of the same factors published on its own gives 0.3192 for 20 teeth.
    #[test]
    fn a_published_fit_agrees() {
        check(20.0, 0.3192, 0.015);
    }

    /// A table for plastic gears (engineersedge.com, "Plastic Helical Gears Design", table 1, 20° full depth), without its
    /// rows for 16 and 50 teeth, which are misprinted: 0.259 and 0.480 do not lie between their neighbours.
    #[test]
    fn a_published_table_agrees() {
        let rows = [
            (12.0, 0.245),
            (13.0, 0.261),
            (14.0, 0.276),
            (15.0, 0.289),
            (17.0, 0.302),
            (18.0, 0.308),
            (19.0, 0.314),
            (20.0, 0.320),
            (21.0, 0.327),
            (22.0, 0.330),
            (24.0, 0.336),
            (26.0, 0.346),
            (28.0, 0.352),
            (30.0, 0.358),
            (34.0, 0.371),
            (38.0, 0.383),
            (43.0, 0.396),
            (60.0, 0.421),
        ];
        for (teeth, factor) in rows {
            check(teeth, factor, 0.015);
        }
    }

    /// Rows left out one by one are found again from their neighbours.
    #[test]
    fn interpolation_in_the_inverse_count_finds_left_out_rows() {
        for window in FORM_FACTORS.windows(3) {
            let [(z0, y0), (z1, y1), (z2, y2)] = [window[0], window[1], window[2]];
            let share = (1.0 / z1 - 1.0 / z0) / (1.0 / z2 - 1.0 / z0);
            let found = y0 + share * (y2 - y0);
            assert!((found / y1 - 1.0).abs() < 0.015, "{z1} teeth: {found}, not {y1}");
        }
    }

    #[test]
    fn it_grows_from_few_teeth_to_the_rack() {
        let factors: Vec<f64> = (6..2000).map(|z| form_factor(f64::from(z))).collect();
        assert!(factors.windows(2).all(|pair| pair[0] <= pair[1]));
        check(1e9, RACK, 1e-6);
        check(8.0, 0.141, 0.01);
    }

    /// 17 teeth of module 8 mm (Y = 0.303), 30 mm wide, at 100 MPa: 7272 N at a radius of 68 mm.
    #[test]
    fn a_limit_worked_by_hand() {
        let limit = bending_limit(100.0, Length::millimetres(30.0), Length::millimetres(8.0), 17.0);
        assert!((limit.to_newton_metres() - 7272.0 * 0.068).abs() < 1e-9);
    }

    /// Of one material the pinion's teeth are the weaker; a weak wheel's are, though their form is better; a ring's hardly.
    #[test]
    fn the_weaker_teeth_of_a_pair_decide() {
        let (width, module) = (Length::millimetres(30.0), Length::millimetres(8.0));
        let limit = |sigma, form| pair_limit(sigma, width, module, [17.0, 60.0], form).to_newton_metres();
        let pinion = bending_limit(100.0, width, module, 17.0).to_newton_metres();
        assert!((limit([100.0, 100.0], PairForm::External) - pinion).abs() < 1e-9);
        let wheel = bending_limit(50.0, width, module, 60.0).to_newton_metres() * 17.0 / 60.0;
        assert!((limit([100.0, 50.0], PairForm::External) - wheel).abs() < 1e-9);
        let ring = pinion * 0.5 * 0.485 / 0.303;
        assert!((limit([100.0, 50.0], PairForm::Internal) - ring).abs() < 1e-9);
    }
}
