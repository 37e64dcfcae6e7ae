//! Quantities that only runs speak of: times, ways, energies.

use crate::numbers::{Measure, significant};

const fn measure(number: String, unit: &'static str, unit_spoken: &'static str) -> Measure {
    Measure {
        number,
        unit,
        unit_spoken,
    }
}

/// A time in s; what is shorter than a microsecond is none.
pub fn seconds(value: f64) -> Measure {
    let value = if value.abs() < 1e-6 { 0.0 } else { value };
    measure(significant(value), "s", "seconds")
}

/// A way in m or mm.
pub fn way(metres: f64) -> Measure {
    if metres.abs() < 0.1 && metres.abs() > 1e-9 {
        measure(significant(metres * 1e3), "mm", "millimetres")
    } else {
        measure(significant(metres), "m", "metres")
    }
}

/// An energy in J or kJ.
pub fn energy(joules: f64) -> Measure {
    if joules.abs() >= 1e4 {
        measure(significant(joules * 1e-3), "kJ", "kilojoules")
    } else if joules.abs() < 1e-9 {
        measure("0".to_owned(), "J", "joules")
    } else {
        measure(significant(joules), "J", "joules")
    }
}
