//! How numbers look and sound: three significant digits, a real minus sign, a thin space before the unit.
//!
//! Exact ratios keep their fraction; nothing is rounded before it is shown. Speeds, torques, forces and lengths, whose
//! unit a person chooses, are formatted by [`crate::units::Units`].

mod ratio;

pub use ratio::RatioText;

use layshaft_quantity::{Angle, Current, Power, Speed};

/// The minus sign.
pub const MINUS: char = '\u{2212}';
/// A thin space that does not break the line.
pub const THIN_SPACE: char = '\u{202F}';

/// A number with its unit, ready to be shown. Two are equal that read the same.
#[derive(Clone, Debug)]
pub struct Measure {
    /// The number.
    pub number: String,
    /// The unit's symbol, empty where there is none.
    pub unit: &'static str,
    /// The unit in words, plural.
    pub unit_spoken: &'static str,
    /// The number before it was rounded, in the unit in which such numbers are compared and saved.
    pub value: f64,
    /// That unit: N·m where mN·m is shown.
    pub plain_unit: &'static str,
}

impl PartialEq for Measure {
    fn eq(&self, other: &Self) -> bool {
        self.number == other.number && self.unit == other.unit
    }
}

impl Eq for Measure {}

impl Measure {
    pub(crate) fn new(value: f64, unit: &'static str, unit_spoken: &'static str) -> Self {
        Self {
            number: significant(value),
            unit,
            unit_spoken,
            value,
            plain_unit: unit,
        }
    }

    /// The same, compared and saved as this number of this unit.
    pub(crate) const fn meaning(mut self, value: f64, plain_unit: &'static str) -> Self {
        self.value = value;
        self.plain_unit = plain_unit;
        self
    }

    /// As one line: `66.2 rpm`.
    #[must_use]
    pub fn text(&self) -> String {
        if self.unit.is_empty() {
            self.number.clone()
        } else if self.unit == "°" {
            // The one unit that stands close to its number.
            format!("{}°", self.number)
        } else {
            format!("{}{THIN_SPACE}{}", self.number, self.unit)
        }
    }

    /// As a screen reader should say it: `minus 66.2 revolutions per minute`.
    #[must_use]
    pub fn spoken(&self) -> String {
        let number = self.number.replace(MINUS, "minus ");
        if self.unit_spoken.is_empty() {
            number
        } else {
            format!("{number} {}", self.unit_spoken)
        }
    }
}

/// A count in groups of three digits: `12 345 678`.
#[must_use]
pub fn grouped(count: u64) -> String {
    let digits = count.to_string();
    let first = (digits.len() - 1) % 3 + 1;
    let mut text = digits[..first].to_owned();
    for group in digits.as_bytes()[first..].chunks(3) {
        text.push(THIN_SPACE);
        text.extend(group.iter().map(|digit| char::from(*digit)));
    }
    text
}

/// Three significant digits, trailing zeros kept (`2.00`), no exponent between 0.001 and 10⁷.
#[must_use]
pub fn significant(value: f64) -> String {
    if !value.is_finite() {
        return "?".to_owned();
    }
    let size = value.abs();
    let text = if size < 1e-12 {
        return "0".to_owned();
    } else if (1e-3..1e7).contains(&size) {
        plain(size)
    } else {
        scientific(size)
    };
    if value < 0.0 {
        format!("{MINUS}{text}")
    } else {
        text
    }
}

/// Rounds by way of the scientific form, so that 0.99996 becomes 1.00 and not 1.000.
fn plain(size: f64) -> String {
    let scientific = format!("{size:.2e}");
    let exponent: i32 = scientific
        .split('e')
        .nth(1)
        .and_then(|digits| digits.parse().ok())
        .unwrap_or(0);
    let rounded: f64 = scientific.parse().unwrap_or(size);
    let decimals = usize::try_from(2 - exponent).unwrap_or(0);
    format!("{rounded:.decimals$}")
}

fn scientific(size: f64) -> String {
    let text = format!("{size:.2e}");
    let (digits, exponent) = text.split_once('e').unwrap_or((&text, "0"));
    let raised: String = exponent
        .chars()
        .map(|c| match c {
            '-' => '⁻',
            '1' => '¹',
            '2' => '²',
            '3' => '³',
            digit => char::from_u32('⁰' as u32 + (digit as u32 - '0' as u32)).unwrap_or(digit),
        })
        .collect();
    format!("{digits}{THIN_SPACE}×{THIN_SPACE}10{raised}")
}

/// A power in W or mW.
#[must_use]
pub fn power(power: Power) -> Measure {
    let value = power.to_watts();
    match value.abs() {
        size if size < 1e-9 => Measure::new(0.0, "W", "watts"),
        size if size < 0.1 => Measure::new(value * 1e3, "mW", "milliwatts").meaning(value, "W"),
        size if size >= 1e4 => Measure::new(value * 1e-3, "kW", "kilowatts").meaning(value, "W"),
        _ => Measure::new(value, "W", "watts"),
    }
}

/// An angle in degrees.
#[must_use]
pub fn angle(angle: Angle) -> Measure {
    Measure::new(angle.to_degrees(), "°", "degrees")
}

/// A speed along a line, in m/s or mm/s.
#[must_use]
pub fn line_speed(speed: Speed) -> Measure {
    let value = speed.to_metres_per_s();
    if value.abs() < 0.1 {
        Measure::new(value * 1e3, "mm/s", "millimetres per second").meaning(value, "m/s")
    } else {
        Measure::new(value, "m/s", "metres per second")
    }
}

/// An electric current in A or mA.
#[must_use]
pub fn current(current: Current) -> Measure {
    let value = current.to_amperes();
    if value.abs() < 0.1 {
        Measure::new(value * 1e3, "mA", "milliamperes").meaning(value, "A")
    } else {
        Measure::new(value, "A", "amperes")
    }
}

/// A share (0 to 1) in percent.
#[must_use]
pub fn percent(share: f64) -> Measure {
    Measure::new(share * 100.0, "%", "percent")
}

/// A multiple: `×3.50`.
#[must_use]
pub fn times(multiple: f64) -> String {
    format!("×{}", significant(multiple))
}

#[cfg(test)]
mod tests {
    use super::*;
    use layshaft_kinematics::Ratio;

    fn check(value: f64, expected: &str) {
        assert_eq!(significant(value), expected, "{value}");
    }

    #[test]
    fn three_digits_whatever_the_size() {
        check(0.0, "0");
        check(2.0, "2.00");
        check(198.597, "199");
        check(2530.4, "2530");
        check(0.999_96, "1.00");
        check(9.996, "10.0");
        check(0.001_234, "0.00123");
        check(-66.2, "\u{2212}66.2");
        check(1.5e9, "1.50\u{202F}×\u{202F}10⁹");
        check(2.5e-5, "2.50\u{202F}×\u{202F}10⁻⁵");
        check(f64::NAN, "?");
    }

    #[test]
    fn what_is_shown_can_be_said() {
        assert_eq!(power(Power::watts(-66.2)).spoken(), "minus 66.2 watts");
        assert_eq!(angle(Angle::degrees(16.5)).text(), "16.5°");
        assert_eq!(times(2.111), "×2.11");
    }

    fn ratio(n: i64, d: i64, shown: &str, spoken: &str) {
        let text = RatioText::new(&Ratio::new(n.into(), d.into()));
        assert_eq!(
            (
                text.text().replace(THIN_SPACE, "_").as_str(),
                text.spoken().as_str()
            ),
            (shown, spoken)
        );
    }

    #[test]
    fn ratios_are_exact_until_nobody_could_read_them() {
        ratio(-1, 3, "\u{2212}1/3", "minus one third");
        ratio(5, 12, "5/12", "five twelfths");
        ratio(3, 2, "3/2", "three halves");
        ratio(17, 24, "17/24", "17 over 24");
        ratio(3, 1, "3", "3");
        ratio(0, 1, "0", "0");
        ratio(1_234_567, 7_654_321, "≈_0.161", "about 0.161");
    }
}
