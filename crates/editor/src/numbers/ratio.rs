//! An exact ratio as a fraction, a decimal and spoken words.

use layshaft_kinematics::Ratio;

use super::{MINUS, significant};

/// Digits up to which a fraction is shown as one; longer ones are read as decimals.
const LONGEST_FRACTION: usize = 9;

/// An exact ratio, ready to be shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RatioText {
    /// Whether a minus sign stands in front.
    pub minus: bool,
    /// The numerator without sign.
    pub numerator: String,
    /// The denominator; none for a whole number.
    pub denominator: Option<String>,
    /// The value with three significant digits and its sign.
    pub decimal: String,
}

impl RatioText {
    /// Formats a ratio.
    #[must_use]
    pub fn new(ratio: &Ratio) -> Self {
        use num_traits::{Signed, ToPrimitive};
        let whole = ratio.is_integer();
        Self {
            minus: ratio.is_negative(),
            numerator: ratio.numer().magnitude().to_string(),
            denominator: (!whole).then(|| ratio.denom().to_string()),
            decimal: significant(ratio.to_f64().unwrap_or(f64::NAN)),
        }
    }

    /// Its value as far as a float holds it, for sorting.
    #[must_use]
    pub fn value(&self) -> f64 {
        let number = |digits: &str| digits.parse::<f64>().unwrap_or(f64::NAN);
        let size = number(&self.numerator) / self.denominator.as_deref().map_or(1.0, number);
        if self.minus { -size } else { size }
    }

    /// Whether the fraction is too long to be read as one, so that the decimal should stand for it.
    #[must_use]
    pub fn is_long(&self) -> bool {
        self.numerator.len() + self.denominator.as_ref().map_or(0, String::len) > LONGEST_FRACTION
    }

    /// On one line: `−1/3`, always exact.
    #[must_use]
    pub fn exact(&self) -> String {
        let sign = if self.minus {
            MINUS.to_string()
        } else {
            String::new()
        };
        match &self.denominator {
            Some(denominator) => format!("{sign}{}/{denominator}", self.numerator),
            None => format!("{sign}{}", self.numerator),
        }
    }

    /// On one line: exact where short, else the decimal with `≈`.
    #[must_use]
    pub fn text(&self) -> String {
        if self.is_long() {
            format!("≈{}{}", super::THIN_SPACE, self.decimal)
        } else {
            self.exact()
        }
    }

    /// As a screen reader should say it: `minus one third`, `5 over 12`.
    #[must_use]
    pub fn spoken(&self) -> String {
        let sign = if self.minus { "minus " } else { "" };
        if self.is_long() {
            return format!("about {}", self.decimal.replace(MINUS, "minus "));
        }
        match &self.denominator {
            None => format!("{sign}{}", self.numerator),
            Some(denominator) => format!("{sign}{}", spoken_fraction(&self.numerator, denominator)),
        }
    }
}

fn spoken_fraction(numerator: &str, denominator: &str) -> String {
    const NAMES: [&str; 11] = [
        "half", "third", "quarter", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
        "twelfth",
    ];
    const COUNTS: [&str; 12] = [
        "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    ];
    let name = denominator
        .parse::<usize>()
        .ok()
        .and_then(|d| NAMES.get(d.wrapping_sub(2)));
    let count = numerator
        .parse::<usize>()
        .ok()
        .and_then(|n| COUNTS.get(n.wrapping_sub(1)));
    match (count, name) {
        (Some(&"one"), Some(name)) => format!("one {name}"),
        (Some(count), Some(&"half")) => format!("{count} halves"),
        (Some(count), Some(name)) => format!("{count} {name}s"),
        _ => format!("{numerator} over {denominator}"),
    }
}
