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
        /// What it is a unit of, where it is one at all.
        of: Option<QuantityKind>,
        /// The units that would have been understood.
        known: Vec<&'static str>,
    },
}

/// A unit's symbol with how much of the SI unit it is. The first of several ways to write one is the usual one.
type Units = &'static [(&'static [&'static str], f64)];

const TURN: f64 = core::f64::consts::TAU;

/// Factors of foot, pound and ounce after NIST SP 811 (2008), appendix B.8: all exact.
const fn units(kind: QuantityKind) -> Units {
    match kind {
        QuantityKind::Plain => &[],
        QuantityKind::Torque => &[
            (&["N·m"], 1.0),
            (&["N·cm"], 0.01),
            (&["mN·m"], 0.001),
            (&["kgf·cm"], 0.098_066_5),
            (&["kgf·m"], 9.806_65),
            (&["gf·cm"], 9.806_65e-5),
            (&["oz·in", "ozf·in"], 0.028_349_523_125 * 9.80665 * 0.0254),
            (&["lbf·in", "lb·in", "in·lb"], 0.453_592_37 * 9.80665 * 0.0254),
        ],
        QuantityKind::AngularSpeed => &[
            (&["rpm", "1/min", "rev/min", "r/min", "min⁻¹"], TURN / 60.0),
            (&["rad/s"], 1.0),
            (&["rev/s", "1/s", "rps"], TURN),
        ],
        QuantityKind::Force => &[
            (&["N"], 1.0),
            (&["kN"], 1000.0),
            (&["kgf", "kp"], 9.80665),
            (&["gf"], 0.009_806_65),
            (&["lbf"], 0.453_592_37 * 9.80665),
        ],
        QuantityKind::Length => &[
            (&["mm"], 0.001),
            (&["cm"], 0.01),
            (&["m"], 1.0),
            (&["in", "\"", "″", "inch", "inches"], 0.0254),
            (&["ft"], 0.3048),
        ],
        QuantityKind::Mass => &[
            (&["kg"], 1.0),
            (&["g"], 0.001),
            (&["lb"], 0.453_592_37),
            (&["oz"], 0.028_349_523_125),
        ],
        QuantityKind::Voltage => &[(&["V"], 1.0), (&["mV"], 0.001)],
        QuantityKind::Current => &[(&["A"], 1.0), (&["mA"], 0.001)],
        QuantityKind::Resistance => &[(&["Ω", "ohm"], 1.0), (&["mΩ"], 0.001)],
        QuantityKind::Angle => &[(&["°", "deg"], TURN / 360.0), (&["rad"], 1.0)],
        QuantityKind::Share => &[(&["%"], 0.01)],
    }
}

impl QuantityKind {
    const ALL: [Self; 11] = [
        Self::Torque,
        Self::AngularSpeed,
        Self::Force,
        Self::Length,
        Self::Mass,
        Self::Voltage,
        Self::Current,
        Self::Resistance,
        Self::Angle,
        Self::Share,
        Self::Plain,
    ];

    /// What a unit measures; none where it is no unit that is known.
    #[must_use]
    pub fn of_unit(unit: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|kind| unit_factor(*kind, unit).is_some())
    }
}

/// A symbol without what people put between its parts: `N·m`, `N m`, `N-m` and `Nm` are one.
fn bare(symbol: &str) -> String {
    symbol
        .chars()
        .filter(|c| !matches!(c, '·' | '⋅' | '*' | '-' | '.' | '\u{202F}') && !c.is_whitespace())
        .collect()
}

/// SI units in one of the named unit of this kind, or `None` where the unit is unknown.
///
/// ```
/// # use layshaft_quantity::{QuantityKind, unit_factor};
/// assert_eq!(unit_factor(QuantityKind::Length, "mm"), Some(0.001));
/// ```
#[must_use]
pub fn unit_factor(kind: QuantityKind, unit: &str) -> Option<f64> {
    let wanted = bare(unit);
    let found = |same: fn(&str, &str) -> bool| {
        let mut all = units(kind).iter();
        let is_it = |(names, _): &&(&[&str], f64)| names.iter().any(|name| same(&bare(name), &wanted));
        all.find(is_it).map(|(_, factor)| *factor)
    };
    // People write RPM and nm too; where case tells units apart, it is heeded first.
    found(|one, other| one == other).or_else(|| found(str::eq_ignore_ascii_case))
}

/// Reads a typed number with an optional unit; without one, `default_unit` is meant. Gives the value in SI.
///
/// A decimal comma is a point, and fractions are understood: `1/4 in`, `1 1/4 in`.
///
/// ```
/// # use layshaft_quantity::{QuantityKind, parse_quantity};
/// let torque = parse_quantity("9,5 N·cm", QuantityKind::Torque, "N·m").unwrap();
/// assert!((torque - 0.095).abs() < 1e-15);
/// assert_eq!(parse_quantity("2", QuantityKind::Length, "mm"), Ok(0.002));
/// assert_eq!(parse_quantity("1/4 in", QuantityKind::Length, "mm"), Ok(0.00635));
/// ```
///
/// # Errors
/// [`UnitError::NotANumber`] when no finite number stands in front; [`UnitError::UnknownUnit`] when the rest is no unit of
/// this kind.
pub fn parse_quantity(text: &str, kind: QuantityKind, default_unit: &str) -> Result<f64, UnitError> {
    let typed = text.trim();
    let (value, rest) = leading_number(typed).ok_or_else(|| UnitError::NotANumber {
        text: typed.to_owned(),
    })?;
    let unit = if rest.is_empty() { default_unit } else { rest };
    if unit.is_empty() {
        return Ok(value);
    }
    unit_factor(kind, unit)
        .map(|factor| value * factor)
        .ok_or_else(|| UnitError::UnknownUnit {
            unit: unit.to_owned(),
            of: QuantityKind::of_unit(unit),
            known: units(kind).iter().map(|(names, _)| names[0]).collect(),
        })
}

/// The number at the front, which may be a fraction, and the rest of the text.
fn leading_number(text: &str) -> Option<(f64, &str)> {
    let (whole, rest) = decimal(text)?;
    if let Some((below, rest)) = rest
        .strip_prefix('/')
        .and_then(|rest| unsigned(rest.trim_start()))
    {
        return finite(whole / below, rest);
    }
    let mixed = unsigned(rest.trim_start()).and_then(|(above, rest)| {
        let (below, rest) = unsigned(rest.strip_prefix('/')?)?;
        Some((above / below, rest))
    });
    match mixed.filter(|_| whole.fract() == 0.0 && rest.starts_with(char::is_whitespace)) {
        Some((part, rest)) => finite(if whole < 0.0 { whole - part } else { whole + part }, rest),
        None => finite(whole, rest),
    }
}

fn finite(value: f64, rest: &str) -> Option<(f64, &str)> {
    value.is_finite().then(|| (value, rest.trim()))
}

fn unsigned(text: &str) -> Option<(f64, &str)> {
    decimal(text).filter(|_| text.starts_with(|c: char| c.is_ascii_digit()))
}

fn decimal(text: &str) -> Option<(f64, &str)> {
    let end = text
        .char_indices()
        .find(|&(at, c)| {
            let exponent = matches!(c, 'e' | 'E')
                && text[at + 1..]
                    .starts_with(|next: char| next.is_ascii_digit() || next == '-' || next == '+')
                && text[..at].ends_with(|before: char| before.is_ascii_digit());
            let sign = matches!(c, '-' | '+' | '\u{2212}') && (at == 0 || text[..at].ends_with(['e', 'E']));
            !(c.is_ascii_digit() || matches!(c, '.' | ',') || sign || exponent)
        })
        .map_or(text.len(), |(at, _)| at);
    let number = text[..end].replace(',', ".").replace('\u{2212}', "-");
    Some((number.parse().ok()?, &text[end..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_foreign_unit_is_named_with_the_known_ones() {
        let error = parse_quantity("3 kg", QuantityKind::Torque, "N·m").unwrap_err();
        assert_eq!(
            error,
            UnitError::UnknownUnit {
                unit: "kg".to_owned(),
                of: Some(QuantityKind::Mass),
                known: vec![
                    "N·m", "N·cm", "mN·m", "kgf·cm", "kgf·m", "gf·cm", "oz·in", "lbf·in"
                ],
            }
        );
    }

    #[test]
    fn a_real_minus_sign_and_an_exponent_are_read() {
        assert_eq!(
            parse_quantity("\u{2212}1e-3 m", QuantityKind::Length, "mm"),
            Ok(-0.001)
        );
    }

    fn check(text: &str, kind: QuantityKind, si: f64) {
        let found = parse_quantity(text, kind, "").expect(text);
        assert!((found - si).abs() <= si.abs() * 1e-12, "{text}: {found} {si}");
    }

    #[test]
    fn symbols_are_understood_as_people_write_them() {
        for text in ["2 N·m", "2Nm", "2 N m", "2 N-m", "2 nm", "2 N*m"] {
            check(text, QuantityKind::Torque, 2.0);
        }
        check("120 RPM", QuantityKind::AngularSpeed, 4.0 * core::f64::consts::PI);
        check(
            "120 1/min",
            QuantityKind::AngularSpeed,
            4.0 * core::f64::consts::PI,
        );
        check("2 kgf cm", QuantityKind::Torque, 0.196_133);
        check("2 kgf", QuantityKind::Force, 19.6133);
    }

    #[test]
    fn fractions_of_an_inch_are_read() {
        check("1/4 in", QuantityKind::Length, 0.00635);
        check("1 1/4 in", QuantityKind::Length, 0.03175);
        check("-1 1/2 in", QuantityKind::Length, -0.0381);
        check("3/8\"", QuantityKind::Length, 0.009_525);
        assert!(parse_quantity("1/0 in", QuantityKind::Length, "mm").is_err());
        assert!(parse_quantity("1.5 1/4 in", QuantityKind::Length, "mm").is_err());
        assert!(parse_quantity("3-4 mm", QuantityKind::Length, "mm").is_err());
    }

    /// NIST SP 811 (2008), appendix B.8.
    #[test]
    fn published_factors_are_met() {
        let close = |kind, unit, si: f64| {
            let factor = unit_factor(kind, unit).expect(unit);
            assert!((factor / si - 1.0).abs() < 5e-7, "{unit} {factor}");
        };
        close(QuantityKind::Torque, "kgf·m", 9.806_65);
        close(QuantityKind::Torque, "ozf·in", 7.061_552e-3);
        close(QuantityKind::Torque, "lbf·in", 0.112_984_8);
        close(QuantityKind::Force, "lbf", 4.448_222);
        close(QuantityKind::Length, "ft", 0.3048);
        close(QuantityKind::Mass, "oz", 2.834_952e-2);
        close(QuantityKind::AngularSpeed, "rpm", 0.104_719_8);
    }

    #[test]
    fn words_are_not_numbers() {
        assert!(parse_quantity("fast", QuantityKind::AngularSpeed, "rpm").is_err());
    }
}
