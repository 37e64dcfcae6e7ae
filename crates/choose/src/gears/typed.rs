//! What people type for a search: exact numbers, tolerances, bins. Decimals are taken exactly.

use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{One, Signed, ToPrimitive, Zero};
use thiserror::Error;

use super::{Bin, BinEntry, MOST_TEETH};

/// Digits at most in a typed number.
const MOST_DIGITS: usize = 60;
/// Tooth counts at most that one range stands for.
const MOST_IN_RANGE: u32 = 500;
/// Powers of ten at most.
const MOST_POWER: i32 = 60;

/// Why a text is no number, or not the kind of number that is wanted.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum TypedProblem {
    /// Not a number.
    #[error("`{0}` is no number; write a fraction such as 1/12 or a decimal such as 0.0748")]
    NotANumber(String),
    /// More digits than anybody can mean.
    #[error("`{0}…` is too long for a number")]
    TooLong(String),
    /// Something over nothing.
    #[error("a fraction can't have 0 below the line")]
    OverNothing,
    /// The ratio is nothing.
    #[error("a ratio of 0 would not turn; write output turns per input turn, such as 1/12")]
    NoRatio,
    /// Builders read it both ways.
    #[error(
        "`{0}` is read both ways by builders, so it is refused here; write output turns per input turn as a fraction: \
         1/12 turns twelve times slower, 12 twelve times faster"
    )]
    BothWays(String),
    /// A tolerance below nothing.
    #[error("a tolerance can't be below 0; write a share such as 0.1% or 0.001")]
    BelowNothing,
    /// No tooth count.
    #[error(
        "`{0}` is no gear; write a tooth count such as 18, 18x2 for two such gears, or 8-80 for every tooth count between"
    )]
    NoGear(String),
    /// Not between 1 and the most.
    #[error("a gear has between 1 and {MOST_TEETH} teeth, got {0}")]
    Teeth(String),
    /// A range that runs downward or is too long.
    #[error(
        "`{0}` is no range of gears; write the smaller tooth count first, and {MOST_IN_RANGE} different ones at most, such as 8-80"
    )]
    Range(String),
    /// Nothing in it.
    #[error("no gears are given; write their tooth counts with commas between: 10, 12, 18x2, 30")]
    NoGears,
}

/// A number: a whole one, a decimal (`0.0748`, `7.48e-2`), or one of these over another; taken exactly.
///
/// # Errors
/// Where it is none.
pub fn number(text: &str) -> Result<BigRational, TypedProblem> {
    let text = text.trim();
    match text.split_once('/') {
        None => decimal(text),
        Some((above, below)) => {
            let (above, below) = (decimal(above.trim())?, decimal(below.trim())?);
            if below.is_zero() {
                return Err(TypedProblem::OverNothing);
            }
            Ok(above / below)
        }
    }
}

fn decimal(text: &str) -> Result<BigRational, TypedProblem> {
    let wrong = || TypedProblem::NotANumber(text.chars().take(40).collect());
    if text.len() > MOST_DIGITS + 10 {
        return Err(TypedProblem::TooLong(text.chars().take(12).collect()));
    }
    let (negative, plain) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let (digits, power) = match plain.split_once(['e', 'E']) {
        None => (plain, 0),
        Some((digits, power)) => (digits, power.parse::<i32>().map_err(|_| wrong())?),
    };
    let (whole, part) = digits.split_once(['.', ',']).unwrap_or((digits, ""));
    let all = format!("{whole}{part}");
    if all.is_empty()
        || !all.bytes().all(|byte| byte.is_ascii_digit())
        || power.unsigned_abs() > MOST_POWER.unsigned_abs()
    {
        return Err(wrong());
    }
    let value: BigInt = all.parse().map_err(|_| wrong())?;
    let shift = power - i32::try_from(part.len()).unwrap_or(0);
    let scale = BigInt::from(10).pow(shift.unsigned_abs());
    let value = if shift < 0 {
        BigRational::new(value, scale)
    } else {
        BigRational::from(value * scale)
    };
    Ok(if negative { -value } else { value })
}

/// A ratio, output turns per input turn, without its sign. `a:b` is refused, since builders read it both ways.
///
/// # Errors
/// Where it is no number, or nothing.
pub fn ratio(text: &str) -> Result<BigRational, TypedProblem> {
    if text.contains(':') {
        return Err(TypedProblem::BothWays(text.trim().chars().take(40).collect()));
    }
    let ratio = number(text)?.abs();
    if ratio.is_zero() {
        return Err(TypedProblem::NoRatio);
    }
    Ok(ratio)
}

/// A relative tolerance: `0.1%` or `0.001`.
///
/// # Errors
/// Where it is no number, or below nothing.
pub fn tolerance(text: &str) -> Result<BigRational, TypedProblem> {
    let text = text.trim();
    let tolerance = match text.strip_suffix('%') {
        None => number(text)?,
        Some(percent) => number(percent)? / BigRational::from(BigInt::from(100)),
    };
    if tolerance.is_negative() {
        return Err(TypedProblem::BelowNothing);
    }
    Ok(tolerance)
}

/// A bin: tooth counts with commas, semicolons or spaces between; `18x2` is two such gears, no mark as many as wanted, and
/// `8-80` a gear of every tooth count from 8 to 80.
///
/// # Errors
/// The first thing in it that is no gear.
pub fn bin(text: &str) -> Result<Bin, TypedProblem> {
    let joined = text
        .replace(['×', '*', 'X'], "x")
        .replace(" x", "x")
        .replace("x ", "x")
        .replace(['–', '…'], "-")
        .replace(" - ", "-");
    let words = joined.split([',', ';', ' ', '\t', '\n']).map(str::trim);
    let entries: Vec<Vec<BinEntry>> = words
        .filter(|word| !word.is_empty())
        .map(entries)
        .collect::<Result<_, _>>()?;
    if entries.is_empty() {
        return Err(TypedProblem::NoGears);
    }
    Ok(Bin::tidy(entries.concat()))
}

/// What one word of a bin stands for.
fn entries(word: &str) -> Result<Vec<BinEntry>, TypedProblem> {
    let no_gear = || TypedProblem::NoGear(word.chars().take(40).collect());
    let (teeth_word, count) = match word.split_once('x') {
        None => (word, None),
        Some((teeth, count)) => (teeth, Some(count.parse().map_err(|_| no_gear())?)),
    };
    let (first, last) = teeth_word.split_once('-').unwrap_or((teeth_word, teeth_word));
    if ![first, last].iter().all(|part| is_whole(part)) {
        return Err(no_gear());
    }
    let (first, last) = (teeth(first)?, teeth(last)?);
    if last < first || last - first >= MOST_IN_RANGE {
        return Err(TypedProblem::Range(word.chars().take(40).collect()));
    }
    let entry = |teeth| BinEntry {
        teeth,
        count,
        material: None,
    };
    Ok((first..=last).map(entry).collect())
}

fn is_whole(word: &str) -> bool {
    !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_digit())
}

fn teeth(word: &str) -> Result<u32, TypedProblem> {
    let teeth = word.parse::<u32>().ok();
    teeth
        .filter(|teeth| (1..=MOST_TEETH).contains(teeth))
        .ok_or_else(|| TypedProblem::Teeth(word.chars().take(12).collect()))
}

/// The nearest float.
#[must_use]
pub fn to_float(number: &BigRational) -> f64 {
    number.to_f64().unwrap_or(f64::MAX)
}

/// A fraction as it is written: `1/12`, whole numbers plainly.
#[must_use]
pub fn fraction(ratio: &BigRational) -> String {
    if ratio.denom().is_one() {
        ratio.numer().to_string()
    } else {
        format!("{}/{}", ratio.numer(), ratio.denom())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: &str) {
        assert_eq!(
            number(text).map(|number| fraction(&number)).as_deref(),
            Ok(expected),
            "{text}"
        );
    }

    #[test]
    fn decimals_are_exact() {
        check("0.0748", "187/2500");
        check("13,36", "334/25");
        check("1/13.36", "25/334");
        check(" 7.48e-2 ", "187/2500");
        check("-1/12", "-1/12");
        check(".5", "1/2");
        check("1e3", "1000");
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for text in [
            "",
            "a",
            "1/0",
            "1/",
            "--1",
            "1.2.3",
            "0x10",
            "1e999",
            "1e-2147483648",
            "1e",
            ".",
        ] {
            assert!(number(text).is_err(), "{text}");
        }
        assert!(number(&"9".repeat(100)).is_err());
        assert!(matches!(ratio("1:12"), Err(TypedProblem::BothWays(_))));
        assert!(ratio("0").is_err() && ratio("0/5").is_err());
        assert!(tolerance("-1%").is_err());
    }

    #[test]
    fn tolerances_are_shares_or_percent() {
        assert_eq!(tolerance("0.1%"), tolerance("0.001"));
        assert_eq!(tolerance("0.1 %"), tolerance("1/1000"));
    }

    #[test]
    fn bins_are_read_with_counts() {
        let text = |typed: &str| bin(typed).map(|bin| bin.text());
        assert_eq!(text("30,10, 12x2 ;18 x 3").as_deref(), Ok("10, 12x2, 18x3, 30"));
        assert_eq!(text("12x2,12x3").as_deref(), Ok("12x5"));
        for wrong in ["", ",", "a", "12x", "x2", "0", "12.5", "99999", "-3", "12x-1"] {
            assert!(bin(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn a_range_stands_for_every_tooth_count_in_it() {
        let text = |typed: &str| bin(typed).map(|bin| bin.text());
        assert_eq!(bin("8-80").map(|bin| bin.0.len()), Ok(73));
        assert_eq!(text("10-12").as_deref(), Ok("10, 11, 12"));
        // A long run is written as a range again, gears that are counted by themselves.
        assert_eq!(
            text("8 – 14, 20x2, 30-33x1").as_deref(),
            Ok("8-14, 20x2, 30-33x1")
        );
        assert_eq!(text("8-14, 12x2").as_deref(), Ok("8-14"));
        assert_eq!(text("7, 9, 11, 13").as_deref(), Ok("7, 9, 11, 13"));
        for wrong in ["8-", "80-8", "1-9999", "8-80-9", "a-b"] {
            assert!(bin(wrong).is_err(), "{wrong}");
        }
    }
}
