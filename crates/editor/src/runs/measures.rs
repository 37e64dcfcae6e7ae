//! Quantities that only runs speak of: times, ways, energies.

use crate::numbers::Measure;

/// A time in s; what is shorter than a microsecond is none.
pub fn seconds(value: f64) -> Measure {
    let value = if value.abs() < 1e-6 { 0.0 } else { value };
    Measure::new(value, "s", "seconds")
}

/// A way in m or mm.
pub fn way(metres: f64) -> Measure {
    if metres.abs() < 0.1 && metres.abs() > 1e-9 {
        Measure::new(metres * 1e3, "mm", "millimetres").meaning(metres, "m")
    } else {
        Measure::new(metres, "m", "metres")
    }
}

/// An energy in J or kJ.
pub fn energy(joules: f64) -> Measure {
    if joules.abs() >= 1e4 {
        Measure::new(joules * 1e-3, "kJ", "kilojoules").meaning(joules, "J")
    } else if joules.abs() < 1e-9 {
        Measure::new(0.0, "J", "joules")
    } else {
        Measure::new(joules, "J", "joules")
    }
}
