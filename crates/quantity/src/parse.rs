//! Numbers as people type them: a decimal comma or point, a real minus sign, and a unit behind.

use thiserror::Error;

/// What a typed number is to be read as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum QuantityKind {
    /// A bare number.
    Plain,
    /// SI unit N·m.
    Torque,
    /// SI unit rad/s.
    AngularSpeed,
    /// SI unit N.
    Force,
    /// SI unit m.
    Length,
    /// SI unit kg.
    Mass,
    /// SI unit V.
    Voltage,
    /// SI unit A.
    Current,
    /// SI unit Ω.
    Resistance,
    /// SI unit rad.
    Angle,
    /// A fraction of one.
    Share,
}

/// Why a typed number was not understood.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum UnitError {
    /// No number at the front.
    #[error("{text:?} does not start with a number")]
    NotANumber {
        /// What was typed.
        text: String,
    },
    /// The unit is none of this quantity's.
    #[error("{unit:?} is none of {known:?}")]
    UnknownUnit {
        /// What stood behind the number.
        unit: String,
        /// The units that would have been understood.
        known: Vec<&'static str>,
    },
}

type Units = &'static [(&'static str, f64)];

const fn units(kind: QuantityKind) -> Units {
    match kind {
        QuantityKind::Plain => &[],
        QuantityKind::Torque => &[
            ("N·m", 1.0),
            ("Nm", 1.0),
            ("N·cm", 0.01),
            ("Ncm", 0.01),
            ("mN·m", 0.001),
            ("mNm", 0.001),
            ("kgf·cm", 0.098_066_5),
            ("kgfcm", 0.098_066_5),
            ("oz·in", 0.028_349_523_125 * 9.80665 * 0.0254),
            ("ozin", 0.028_349_523_125 * 9.80665 * 0.0254),
        ],
        QuantityKind::AngularSpeed => &[
            ("rpm", core::f64::consts::TAU / 60.0),
            ("rad/s", 1.0),
            ("1/min", core::f64::consts::TAU / 60.0),
        ],
        QuantityKind::Force => &[("N", 1.0), ("kN", 1000.0), ("kgf", 9.80665), ("gf", 0.009_806_65)],
        QuantityKind::Length => &[
            ("mm", 0.001),
            ("cm", 0.01),
            ("m", 1.0),
            ("in", 0.0254),
            ("\"", 0.0254),
        ],
        QuantityKind::Mass => &[
            ("kg", 1.0),
            ("g", 0.001),
            ("lb", 0.453_592_37),
            ("oz", 0.028_349_523_125),
        ],
        QuantityKind::Voltage => &[("V", 1.0), ("mV", 0.001)],
        QuantityKind::Current => &[("A", 1.0), ("mA", 0.001)],
        QuantityKind::Resistance => &[("Ω", 1.0), ("ohm", 1.0), ("mΩ", 0.001)],
        QuantityKind::Angle => &[
            ("°", core::f64::consts::PI / 180.0),
            ("deg", core::f64::consts::PI / 180.0),
            ("rad", 1.0),
        ],
        QuantityKind::Share => &[("%", 0.01)],
    }
}

/// SI units in one of the named unit of this kind, or `None` where the unit is unknown.
///
/// ```
/// # use layshaft_quantity::{QuantityKind, unit_factor};
/// assert_eq!(unit_factor(QuantityKind::Length, "mm"), Some(0.001));
/// ```
#[must_use]
pub fn unit_factor(kind: QuantityKind, unit: &str) -> Option<f64> {
    units(kind)
        .iter()
        .find(|(name, _)| *name == unit)
        .map(|(_, factor)| *factor)
}

/// Reads a typed number with an optional unit; without one, `default_unit` is meant. Gives the value in SI.
///
/// ```
/// # use layshaft_quantity::{QuantityKind, parse_quantity};
/// let torque = parse_quantity("9,5 N·cm", QuantityKind::Torque, "N·m").unwrap();
/// assert!((torque - 0.095).abs() < 1e-15);
/// assert_eq!(parse_quantity("2", QuantityKind::Length, "mm"), Ok(0.002));
/// ```
///
/// # Errors
/// [`UnitError::NotANumber`] when no finite number stands in front; [`UnitError::UnknownUnit`] when the rest is no unit of
/// this kind.
pub fn parse_quantity(text: &str, kind: QuantityKind, default_unit: &str) -> Result<f64, UnitError> {
    let typed = text.trim();
    let end = typed
        .char_indices()
        .find(|&(at, c)| {
            let exponent = matches!(c, 'e' | 'E')
                && typed[at + 1..]
                    .starts_with(|next: char| next.is_ascii_digit() || next == '-' || next == '+')
                && typed[..at].ends_with(|before: char| before.is_ascii_digit());
            !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | '\u{2212}') || exponent)
        })
        .map_or(typed.len(), |(at, _)| at);
    let number: String = typed[..end].replace(',', ".").replace('\u{2212}', "-");
    let value = number
        .parse::<f64>()
        .ok()
        .filter(|value| value.is_finite())
        .ok_or_else(|| UnitError::NotANumber {
            text: typed.to_owned(),
        })?;
    let rest = typed[end..].trim();
    let unit = if rest.is_empty() { default_unit } else { rest };
    if unit.is_empty() {
        return Ok(value);
    }
    unit_factor(kind, unit)
        .map(|factor| value * factor)
        .ok_or_else(|| UnitError::UnknownUnit {
            unit: unit.to_owned(),
            known: units(kind).iter().map(|(name, _)| *name).collect(),
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_foreign_unit_is_named_with_the_known_ones() {
        let error = parse_quantity("3 kg", QuantityKind::Torque, "N·m").unwrap_err();
        assert!(matches!(error, UnitError::UnknownUnit { ref unit, .. } if unit == "kg"));
    }

    #[test]
    fn a_real_minus_sign_and_an_exponent_are_read() {
        assert_eq!(
            parse_quantity("\u{2212}1e-3 m", QuantityKind::Length, "mm"),
            Ok(-0.001)
        );
    }

    #[test]
    fn words_are_not_numbers() {
        assert!(parse_quantity("fast", QuantityKind::AngularSpeed, "rpm").is_err());
    }
}
