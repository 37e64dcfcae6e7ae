//! Steepest slopes by grip and by tipping, from the geometry of a vehicle.
//!
//! Moments about the contact points of a body at rest or in steady motion on a slope. Rolling resistance of a driven axle
//! is overcome within the axle and asks for no grip; that of the undriven axle does. The same equations without rolling
//! are a standard exercise (A. Bedford & W. Fowler, Engineering Mechanics: Statics, chapter on friction; from memory of
//! the book).

use layshaft_quantity::{Angle, Force, Length};

/// Which axles are driven.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Axles {
    /// All, rigidly joined.
    All,
    /// The rear axle.
    Rear,
    /// The front axle.
    Front,
    /// Both, through an open centre differential.
    Split {
        /// Share of the torque that goes to the rear axle, 0 to 1.
        rear_share: f64,
    },
}

impl Axles {
    /// Share of the torque that goes to the rear axle; none where the ground decides.
    const fn rear_share(self) -> Option<f64> {
        match self {
            Self::All => None,
            Self::Rear => Some(1.0),
            Self::Front => Some(0.0),
            Self::Split { rear_share } => Some(rear_share),
        }
    }
}

/// Where the weight sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Geometry {
    /// Distance between the axles.
    pub wheelbase: Length,
    /// Centre of gravity before the rear axle.
    pub from_rear: Length,
    /// Height of the centre of gravity.
    pub height: Length,
}

/// Steepest slope by the grip of the tyres: all wheels rigidly joined `tan t = mu`, rear
/// `(mu a − c b) / (L − (mu + c) h)`, front `(mu b − c a) / (L + (mu + c) h)`, with `a`, `b` the distances of the centre
/// of gravity from front and rear axle. `None` where the geometry is needed and not known.
///
/// With an open centre differential that gives the rear axle the share `s` of the torque, the axle that slips first decides:
/// `min( ((mu + c) b − (1−s) c L)/((1−s) L + (mu + c) h), ((mu + c) a − s c L)/(s L − (mu + c) h) )`, the second dropped
/// where `s L ≤ (mu + c) h`. It follows from `F = W (sin t + c cos t)` at the rims, of which each axle gets its share and
/// loses `c N` within itself: `s F − c N_r ≤ mu N_r`, `(1−s) F − c N_f ≤ mu N_f`. Rear and front drive are its cases
/// `s = 1` and `s = 0`.
#[must_use]
pub fn traction_slope(axles: Axles, mu: f64, rolling: f64, geometry: Option<Geometry>) -> Option<Angle> {
    let tangent = match (axles.rear_share(), geometry) {
        (None, _) => mu,
        (Some(_), None) => return None,
        (Some(share), Some(geometry)) => {
            let both = mu + rolling;
            let base = geometry.wheelbase.to_metres();
            let b = geometry.from_rear.to_metres();
            let a = base - b;
            let lift = both * geometry.height.to_metres();
            // An axle that gets no torque does not slip.
            let front = if share < 1.0 {
                (both * b - (1.0 - share) * rolling * base) / ((1.0 - share) * base + lift)
            } else {
                f64::INFINITY
            };
            let rear = if share * base > lift {
                (both * a - share * rolling * base) / (share * base - lift)
            } else {
                // Its load grows faster with the slope than what it has to push.
                f64::INFINITY
            };
            front.min(rear)
        }
    };
    Some(Angle::radians(libm::atan(tangent)))
}

/// Loads that front and rear axle press on the ground with, across it: `N_f = (W (b cos t − h sin t) − P h) / L`,
/// `N_r = (W (a cos t + h sin t) + P h) / L`.
///
/// `push` is a force `P` backward along the ground at the height of the centre of gravity, beyond the weight's: mass times
/// acceleration, or the pull of something towed. A negative load means that the vehicle would tip.
#[must_use]
pub fn axle_loads(geometry: Geometry, weight: Force, slope: Angle, push: Force) -> [Force; 2] {
    let t = slope.to_radians();
    let (along, across) = (weight * libm::sin(t), weight * libm::cos(t));
    let share = |arm: Length| arm / geometry.wheelbase;
    let shifted = (along + push) * share(geometry.height);
    [
        across * share(geometry.from_rear) - shifted,
        across * share(geometry.wheelbase - geometry.from_rear) + shifted,
    ]
}

/// Slope at which it tips over backwards: `tan t = b / h`.
#[must_use]
pub fn tipping_slope(geometry: Geometry) -> Angle {
    Angle::radians(libm::atan2(
        geometry.from_rear.to_metres(),
        geometry.height.to_metres(),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn car() -> Geometry {
        Geometry {
            wheelbase: Length::metres(2.675),
            from_rear: Length::metres(1.8),
            height: Length::metres(0.475),
        }
    }

    fn check(axles: Axles, rolling: f64, degrees: f64) {
        let found = traction_slope(axles, 0.5, rolling, Some(car())).map(Angle::to_degrees);
        let found = found.expect("the geometry is known");
        assert!(
            (found - degrees).abs() < 5e-4,
            "{axles:?}: {found}°, not {degrees}°"
        );
    }

    /// 15 kN, 0.5, 2.675 m, 0.875 m behind the front axle, 0.475 m high: tangents 7/39, 72/233, 1/2 (a worked exercise in the
    /// manner of Bedford & Fowler).
    #[test]
    fn a_worked_exercise_without_rolling() {
        let degrees = |tangent: f64| Angle::radians(libm::atan(tangent)).to_degrees();
        check(Axles::Rear, 0.0, degrees(7.0 / 39.0));
        check(Axles::Front, 0.0, degrees(72.0 / 233.0));
        check(Axles::All, 0.0, degrees(0.5));
    }

    #[test]
    fn rear_and_front_drive_with_rolling_resistance() {
        check(Axles::Rear, 0.02, 9.390);
        check(Axles::Front, 0.02, 16.805);
    }

    /// Equal shares, computed independently.
    #[test]
    fn an_open_centre_differential() {
        check(Axles::Split { rear_share: 0.5 }, 0.0, 21.689);
        // The front axle alone decides where the rear one gets lighter work than load: 0.5·1.8 / (0.95·2.675 + 0.2375).
        let tangent: f64 = 0.9 / (0.95 * 2.675 + 0.2375);
        check(
            Axles::Split { rear_share: 0.05 },
            0.0,
            libm::atan(tangent).to_degrees(),
        );
    }

    /// At the limit by traction, the grip that each axle asks for is worked out anew from its load.
    #[test]
    fn at_the_limit_one_axle_uses_all_its_grip_and_none_more() {
        let (mu, c, weight) = (0.5, 0.03, Force::newtons(15_000.0));
        for share in [0.0, 0.2, 0.5, 0.7, 1.0] {
            let split = Axles::Split { rear_share: share };
            let slope = traction_slope(split, mu, c, Some(car())).expect("the geometry is known");
            let t = slope.to_radians();
            let force = weight * (libm::sin(t) + c * libm::cos(t));
            let [front, rear] = axle_loads(car(), weight, slope, Force::ZERO);
            let uses = [
                (force * (1.0 - share) - front * c) / front,
                (force * share - rear * c) / rear,
            ];
            assert!((uses[0].max(uses[1]) - mu).abs() < 1e-12, "{share}: {uses:?}");
            let sum = (front + rear).to_newtons();
            assert!((sum - weight.to_newtons() * libm::cos(t)).abs() < 1e-9);
        }
    }

    /// Where it tips, nothing is left on the front axle; a push does the same on the level.
    #[test]
    fn a_tipping_vehicle_stands_on_its_rear_axle() {
        let weight = Force::newtons(100.0);
        let [front, rear] = axle_loads(car(), weight, tipping_slope(car()), Force::ZERO);
        assert!(front.to_newtons().abs() < 1e-12 && rear.to_newtons() > 0.0);
        let push = weight * (car().from_rear / car().height);
        let [front, rear] = axle_loads(car(), weight, Angle::ZERO, push);
        assert!(front.to_newtons().abs() < 1e-12 && (rear - weight).to_newtons().abs() < 1e-12);
    }
}
