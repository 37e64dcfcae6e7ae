//! Steepest slopes by grip and by tipping, from the geometry of a vehicle.
//!
//! Moments about the contact points of a body at rest or in steady motion on a slope; rolling resistance acts at the
//! undriven axle. The same equations without rolling are a standard exercise (A. Bedford & W. Fowler, Engineering
//! Mechanics: Statics, chapter on friction; from memory of the book).

use layshaft_quantity::{Angle, Length};

/// Which axles are driven.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axles {
    /// All, rigidly joined.
    All,
    /// The rear axle.
    Rear,
    /// The front axle.
    Front,
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

/// Steepest slope by the grip of the tyres: all wheels `tan t = mu`, rear
/// `(mu a − c b) / (L − (mu + c) h)`, front `(mu b − c a) / (L + (mu + c) h)`, with `a`, `b` the distances of the centre
/// of gravity from front and rear axle. `None` where the geometry is needed and not known.
#[must_use]
pub fn traction_slope(axles: Axles, mu: f64, rolling: f64, geometry: Option<Geometry>) -> Option<Angle> {
    let tangent = match (axles, geometry) {
        (Axles::All, _) => mu,
        (_, None) => return None,
        (driven, Some(geometry)) => {
            let base = geometry.wheelbase.to_metres();
            let b = geometry.from_rear.to_metres();
            let a = base - b;
            let lift = (mu + rolling) * geometry.height.to_metres();
            if driven == Axles::Front {
                (mu * b - rolling * a) / (base + lift)
            } else if base > lift {
                (mu * a - rolling * b) / (base - lift)
            } else {
                // All weight has gone to the driven axle before it slips: the grip is that of one axle carrying all.
                f64::INFINITY
            }
        }
    };
    Some(Angle::radians(libm::atan(tangent)))
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

    #[test]
    fn rear_and_front_drive_with_rolling_resistance() {
        let degrees = |axles| traction_slope(axles, 0.5, 0.02, Some(car())).map(Angle::to_degrees);
        assert!((degrees(Axles::Rear).expect("known") - 9.390).abs() < 5e-4);
        assert!((degrees(Axles::Front).expect("known") - 16.805).abs() < 5e-4);
    }
}
