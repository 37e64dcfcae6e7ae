//! Decimals as whole numbers: a float stands for the shortest decimal that reads back to it, so 0.1 is exactly 1/10.

use num_bigint::BigInt;

use layshaft_kinematics::Ratio;

/// Digits and power of ten: `digits · 10^power`.
fn digits_and_power(value: f64) -> (i128, i32) {
    let text = format!("{value:e}");
    let (mantissa, exponent) = text.split_once('e').unwrap_or((&text, "0"));
    let places = mantissa.split_once('.').map_or(0, |(_, places)| places.len());
    let digits: i128 = mantissa.replace('.', "").parse().unwrap_or(0);
    let exponent: i32 = exponent.parse().unwrap_or(0);
    (digits, exponent - i32::try_from(places).unwrap_or(0))
}

/// A decimal as the fraction that its shortest text says: 0.1 is exactly 1/10.
#[must_use]
pub fn exact(value: f64) -> Ratio {
    let (digits, power) = digits_and_power(value);
    let scale = BigInt::from(10).pow(power.unsigned_abs());
    if power >= 0 {
        Ratio::from_integer(digits * scale)
    } else {
        Ratio::new(digits.into(), scale)
    }
}

/// Two lengths as whole numbers of one common small unit, with the number of such units in the first's unit.
///
/// Lengths lie between a thousandth and a hundred thousand, so 17 digits at the finest common place stay below 10^26.
pub(super) fn common(values: [f64; 2]) -> ([i128; 2], f64) {
    let parts = values.map(digits_and_power);
    let finest = parts[0].1.min(parts[1].1).min(0);
    let whole = parts.map(|(digits, power)| digits * 10_i128.pow((power - finest).unsigned_abs()));
    (whole, libm::pow(10.0, f64::from(-finest)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tenth_is_a_tenth() {
        assert_eq!(exact(0.1), Ratio::new(1.into(), 10.into()));
        assert_eq!(exact(-1.5e6), Ratio::from_integer((-1_500_000).into()));
    }

    #[test]
    fn inch_pulleys_keep_their_ratio() {
        let ([a, b], unit) = common([12.7, 25.4]);
        assert_eq!((a * 2, unit), (b, 10.0));
    }
}
