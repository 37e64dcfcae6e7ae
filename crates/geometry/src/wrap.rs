//! Belts and chains round two wheels: lengths and pitch diameters.

use core::f64::consts::PI;

/// Pitch diameter of a sprocket, `p / sin(π / z)`.
///
/// # Source
/// ISO 606, chains and sprockets (from memory).
#[must_use]
pub fn sprocket_diameter_mm(pitch_mm: f64, teeth: u32) -> f64 {
    if teeth < 2 {
        return pitch_mm;
    }
    pitch_mm / libm::sin(PI / f64::from(teeth))
}

/// Length of an open belt along its pitch line: `2 C cos φ + π (R + r) + 2 φ (R − r)`, `sin φ = (R − r) / C`; none where one
/// wheel lies within the other. Exact.
///
/// ```
/// let length = layshaft_geometry::open_belt_mm([20.0, 20.0], 50.0).unwrap();
/// assert!((length - (100.0 + 20.0 * core::f64::consts::PI)).abs() < 1e-9);
/// ```
#[must_use]
pub fn open_belt_mm(diameters_mm: [f64; 2], distance_mm: f64) -> Option<f64> {
    let [one, other] = diameters_mm.map(|diameter| diameter / 2.0);
    let lean = lean((one - other).abs(), distance_mm)?;
    let straight = 2.0 * distance_mm * libm::cos(lean);
    Some(straight + PI * (one + other) + 2.0 * lean * (one - other).abs())
}

/// Length of a crossed belt: `2 C cos φ + (π + 2 φ)(R + r)`, `sin φ = (R + r) / C`; none where the wheels touch. Exact.
#[must_use]
pub fn crossed_belt_mm(diameters_mm: [f64; 2], distance_mm: f64) -> Option<f64> {
    let sum = (diameters_mm[0] + diameters_mm[1]) / 2.0;
    let lean = lean(sum, distance_mm)?;
    Some(2.0 * distance_mm * libm::cos(lean) + (PI + 2.0 * lean) * sum)
}

/// How many links a chain round two sprockets has, not rounded: `2 C/p + (z1 + z2)/2 + ((z2 − z1)/(2 π))² p/C`.
///
/// # Source
/// Common approximation of chain makers' handbooks (from memory); a few thousandths of a link too short for very unequal
/// sprockets close together.
#[must_use]
pub fn chain_links(pitch_mm: f64, teeth: [u32; 2], distance_mm: f64) -> Option<f64> {
    if distance_mm <= 0.0 || pitch_mm <= 0.0 {
        return None;
    }
    let [one, other] = teeth.map(f64::from);
    let unequal = (other - one) / (2.0 * PI);
    let spans = distance_mm / pitch_mm;
    Some(2.0 * spans + f64::midpoint(one, other) + unequal * unequal / spans)
}

fn lean(rise_mm: f64, distance_mm: f64) -> Option<f64> {
    (distance_mm > rise_mm).then(|| libm::asin(rise_mm / distance_mm))
}
