//! Size and direction of the force that teeth, chains and belts put on their shafts.
//!
//! Places are in a plane across the shafts in which positive rotation turns x toward y: on a screen with y downward,
//! positive is clockwise.

use layshaft_quantity::{Angle, Length};
use libm::{cos, hypot, sin, sqrt};

use super::PortPull;
use crate::tooth::PairForm;

/// Force on the bearings per unit of a mesh's multiplier, in N: torque is `L z`, the tangential force `2 L / m`, along the
/// line of action `2 L / (m cos a)`.
#[must_use]
pub fn tooth_force(module: Length, pressure: Angle) -> f64 {
    2.0 / (module.to_metres() * cos(pressure.to_radians()))
}

/// Force on the bearings of worm and wheel per unit of a worm's multiplier, in N: the wheel's torque is `L z`, its tangential
/// force `L z / r`, across the teeth `L z / (r cos a cos g)` at a lead angle `g`. A safe bound: the part along the worm's
/// axis is the collar's.
#[must_use]
pub fn worm_force(wheel_radius: Length, wheel_teeth: u32, lead: Angle, pressure: Angle) -> f64 {
    let tilt = cos(pressure.to_radians()) * cos(lead.to_radians());
    f64::from(wheel_teeth) / (wheel_radius.to_metres() * tilt)
}

/// Pull of a chain or toothed belt per unit of its multiplier, in N, from its pitch `p`: the pitch circle is `z p` round, so
/// `2 π L / p`. The slack strand is taken to pull nothing.
#[must_use]
pub fn chain_force(pitch: Length) -> f64 {
    core::f64::consts::TAU / pitch.to_metres()
}

/// Pull of both strands of a belt per unit of its multiplier, in N: `2 L` times `units_per_metre`, in which its diameters
/// are whole numbers, times `tension`, the pull of both strands over their difference (1: the slack strand pulls nothing;
/// plain belts are run at 1.5 to 3, common practice).
#[must_use]
pub fn belt_force(units_per_metre: f64, tension: f64) -> f64 {
    2.0 * units_per_metre * tension
}

/// How gears on axes at `a` and `b` pull their shafts; `b` is the ring of an internal pair. `None` for bevel gears, whose
/// shafts don't lie across one plane, and for axes in one place.
///
/// For a positive multiplier the torque on `a` is positive: its tangential force lies a quarter turn on from the direction
/// of the contact, and the teeth push `a` away from it.
#[must_use]
pub fn mesh_pull(a: [f64; 2], b: [f64; 2], pressure: Angle, form: PairForm) -> Option<[PortPull; 2]> {
    let (to_b, _) = direction(a, b)?;
    let contact = match form {
        PairForm::External => to_b,
        // Pinion and ring touch on the far side of the pinion.
        PairForm::Internal => scaled(to_b, -1.0),
        PairForm::Bevel => return None,
    };
    let pressure = pressure.to_radians();
    Some(opposite(PortPull {
        along: scaled(quarter_turn(contact), cos(pressure)),
        separating: scaled(contact, -sin(pressure)),
    }))
}

/// How a belt or chain round pulleys of these radii on axes at `a` and `b` pulls their shafts; `tension` as in
/// [`belt_force`]. `None` where the pulleys would overlap.
///
/// The strand that pulls makes an angle with the line of centres whose sine is `(r_a − r_b) / D`, crossed
/// `(r_a + r_b) / D`; which strand it is goes with the sign of the multiplier.
#[must_use]
pub fn belt_pull(
    a: [f64; 2],
    b: [f64; 2],
    radii: [Length; 2],
    crossed: bool,
    tension: f64,
) -> Option<[PortPull; 2]> {
    let (to_b, distance) = direction(a, b)?;
    let [r_a, r_b] = radii.map(Length::to_metres);
    let sine = (if crossed { r_a + r_b } else { r_a - r_b }) / distance;
    if sine.abs() >= 1.0 {
        return None;
    }
    Some(opposite(PortPull {
        along: scaled(quarter_turn(to_b), sine / tension),
        separating: scaled(to_b, sqrt(1.0 - sine * sine)),
    }))
}

/// What `b` feels is the contrary of what `a` feels.
fn opposite(on_a: PortPull) -> [PortPull; 2] {
    let on_b = PortPull {
        along: scaled(on_a.along, -1.0),
        separating: scaled(on_a.separating, -1.0),
    };
    [on_a, on_b]
}

/// Unit vector from one place to another, and their distance in metres if the places are.
fn direction(from: [f64; 2], to: [f64; 2]) -> Option<([f64; 2], f64)> {
    let [x, y] = [to[0] - from[0], to[1] - from[1]];
    let distance = hypot(x, y);
    (distance > 0.0 && distance.is_finite()).then(|| ([x / distance, y / distance], distance))
}

/// From x to y.
fn quarter_turn([x, y]: [f64; 2]) -> [f64; 2] {
    [-y, x]
}

fn scaled([x, y]: [f64; 2], by: f64) -> [f64; 2] {
    [x * by, y * by]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Moment about an axis of a force at a place seen from it.
    fn moment([x, y]: [f64; 2], [fx, fy]: [f64; 2]) -> f64 {
        x * fy - y * fx
    }

    const DIRECTION: [f64; 2] = [0.6, 0.8];

    /// Force on the wheel at a for L = 1 acts at the contact; its moments are the coefficients of the constraint.
    fn check_mesh(form: PairForm, distance: f64, contact: [f64; 2], moments: [f64; 2]) {
        let b = scaled(DIRECTION, distance);
        let pressure = Angle::degrees(20.0);
        let [on_a, on_b] = mesh_pull([0.0; 2], b, pressure, form).expect("axes apart");
        // Module 2: bearing force per multiplier.
        let force = tooth_force(Length::metres(2.0), pressure);
        let from_b = [contact[0] - b[0], contact[1] - b[1]];
        for (place, pull, expected) in [(contact, on_a, moments[0]), (from_b, on_b, moments[1])] {
            let total = moment(place, scaled(pull.at(1.0), force));
            assert!(
                (total - expected).abs() < 1e-12,
                "{form:?}: {total}, not {expected}"
            );
            assert!((hypot(pull.at(1.0)[0], pull.at(1.0)[1]) - 1.0).abs() < 1e-12);
            assert!((hypot(pull.at(-1.0)[0], pull.at(-1.0)[1]) - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn tooth_forces_have_the_moments_of_the_constraint() {
        // Module 2: radii are tooth counts.
        check_mesh(PairForm::External, 50.0, scaled(DIRECTION, 20.0), [20.0, 30.0]);
        check_mesh(PairForm::Internal, 30.0, scaled(DIRECTION, -20.0), [20.0, -50.0]);
    }

    /// A wheel of 30 teeth and 30 mm radius is of module 2 mm; at no lead its force is that of spur teeth.
    #[test]
    fn a_worm_of_no_lead_presses_as_spur_teeth_do() {
        let pressure = Angle::degrees(20.0);
        let worm = worm_force(Length::millimetres(30.0), 30, Angle::ZERO, pressure);
        assert!((worm / tooth_force(Length::millimetres(2.0), pressure) - 1.0).abs() < 1e-12);
    }

    /// A sprocket of 15 teeth of 12.7 mm pitch is 190.5 mm round: 1 N·m pulls with 32.983 N.
    #[test]
    fn a_chain_pulls_by_its_pitch_circle() {
        let force = chain_force(Length::millimetres(12.7)) / 15.0;
        assert!((force - core::f64::consts::TAU / 0.1905).abs() < 1e-9);
    }

    #[test]
    fn gears_push_one_another_away() {
        let [on_a, _] =
            mesh_pull([0.0; 2], [1.0, 0.0], Angle::degrees(20.0), PairForm::External).expect("apart");
        assert!(on_a.separating[0] < 0.0 && on_a.along[1] > 0.0);
        let [on_pinion, _] =
            mesh_pull([1.0, 0.0], [0.0; 2], Angle::degrees(20.0), PairForm::Internal).expect("apart");
        assert!(on_pinion.separating[0] < 0.0, "toward the ring's middle");
    }

    /// The strand that pulls is a common tangent: its moment about either axis is force times radius.
    #[test]
    fn strands_are_tangents() {
        let (r_a, r_b, distance) = (30.0, 12.0, 100.0);
        for (crossed, r_b_signed) in [(false, r_b), (true, -r_b)] {
            let radii = [Length::metres(r_a), Length::metres(r_b)];
            let [on_a, on_b] = belt_pull([0.0; 2], [distance, 0.0], radii, crossed, 1.0).expect("apart");
            let strand = on_a.at(1.0);
            assert!((hypot(strand[0], strand[1]) - 1.0).abs() < 1e-12);
            // Where it leaves a: a quarter turn back from the strand.
            let leaves = [strand[1] * r_a, -strand[0] * r_a];
            assert!((moment(leaves, strand) - r_a).abs() < 1e-12);
            let from_b = [leaves[0] - distance, leaves[1]];
            assert!((moment(from_b, on_b.at(1.0)) + r_b_signed).abs() < 1e-9);
        }
    }
}
