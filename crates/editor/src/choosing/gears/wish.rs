//! A wanted ratio as people type it, always said back in words, since a bare number is read both ways.

use layshaft_choose::gears::typed::{self, TypedProblem};
use layshaft_kinematics::Ratio;
use num_traits::{One, ToPrimitive};

use crate::numbers::{THIN_SPACE, significant};

/// Words that turn a number round.
const SLOWER: [&str; 5] = ["slower", "slow", "down", "reduction", "reduce"];
/// All words that may stand beside a number.
const WORDS: [&str; 13] = [
    "slower",
    "slow",
    "down",
    "reduction",
    "reduce",
    "faster",
    "fast",
    "up",
    "speed",
    "times",
    "x",
    "×",
    "by",
];

/// A wanted ratio.
#[derive(Clone, Debug, PartialEq)]
pub struct Wish {
    /// Output turns per input turn.
    pub ratio: Ratio,
}

impl Wish {
    /// Reads `13.36 times slower`, `1/12`, `0.0748`, `12:1` (turns in to turns out).
    ///
    /// # Errors
    /// Where it is no ratio.
    pub fn read(text: &str) -> Result<Self, TypedProblem> {
        let lower = text.to_lowercase();
        let is_number =
            |word: &&str| word.contains(|c: char| c.is_ascii_digit()) || matches!(*word, "/" | ":");
        let (number, words): (Vec<&str>, Vec<&str>) = lower.split_whitespace().partition(is_number);
        let number = number.concat();
        let number = number.trim_end_matches(['x', '×']);
        if number.is_empty() || !words.iter().all(|word| WORDS.contains(word)) {
            return Err(TypedProblem::NotANumber(text.trim().chars().take(40).collect()));
        }
        let read = match number.split_once(':') {
            Some((turns_in, turns_out)) => typed::ratio(turns_out)? / typed::ratio(turns_in)?,
            None => typed::ratio(number)?,
        };
        let slower = words.iter().any(|word| SLOWER.contains(word));
        Ok(Self {
            ratio: if slower { read.recip() } else { read },
        })
    }

    /// Of a number that was worked out, to five digits.
    #[must_use]
    pub fn text_of(ratio: f64) -> String {
        let (times, word) = if ratio.abs() < 1.0 {
            (1.0 / ratio.abs(), "slower")
        } else {
            (ratio.abs(), "faster")
        };
        let text = format!("{times:.4}");
        let tidy = text.trim_end_matches('0').trim_end_matches('.');
        format!("{tidy} times {word}")
    }

    /// In words: `13.36 turns in, 1 turn out: 13.36 times slower`.
    #[must_use]
    pub fn told(&self) -> String {
        if self.ratio.is_one() {
            return "1 turn in, 1 turn out".to_owned();
        }
        let times = shown(&self.times());
        if self.is_slower() {
            format!("{times} turns in, 1 turn out: {times} times slower")
        } else {
            format!("1 turn in, {times} turns out: {times} times faster")
        }
    }

    /// What to type for it: `13.36 times slower`.
    #[must_use]
    pub fn text(&self) -> String {
        let word = if self.is_slower() { "slower" } else { "faster" };
        format!("{} times {word}", exact(&self.times()))
    }

    /// What to type for the same the other way round.
    #[must_use]
    pub fn turned(&self) -> String {
        let word = if self.is_slower() { "faster" } else { "slower" };
        format!("{} times {word}", exact(&self.times()))
    }

    fn is_slower(&self) -> bool {
        self.ratio < Ratio::one()
    }

    fn times(&self) -> Ratio {
        if self.is_slower() {
            self.ratio.recip()
        } else {
            self.ratio.clone()
        }
    }
}

/// A decimal where that is exact and short, else a fraction.
fn exact(number: &Ratio) -> String {
    decimal(number).unwrap_or_else(|| typed::fraction(number))
}

/// A decimal where that is exact and short, else about.
fn shown(number: &Ratio) -> String {
    decimal(number).unwrap_or_else(|| {
        format!(
            "≈{THIN_SPACE}{}",
            number.to_f64().map_or_else(String::new, |size| if size < 1000.0 {
                format!("{size:.3}")
            } else {
                significant(size)
            })
        )
    })
}

fn decimal(number: &Ratio) -> Option<String> {
    let thousands = number * Ratio::from(num_bigint::BigInt::from(1_000_000));
    let whole = thousands
        .is_integer()
        .then(|| thousands.to_integer().to_u64())
        .flatten()?;
    let text = format!("{}.{:06}", whole / 1_000_000, whole % 1_000_000);
    Some(text.trim_end_matches('0').trim_end_matches('.').to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, told: &str) {
        assert_eq!(
            Wish::read(text).map(|wish| wish.told()).as_deref(),
            Ok(told),
            "{text}"
        );
    }

    #[test]
    fn what_is_typed_is_said_back() {
        let slower = "13.36 turns in, 1 turn out: 13.36 times slower";
        for text in [
            "13.36 times slower",
            "slow down 13.36 times",
            "13,36 slower",
            "13.36:1",
            "1/13.36",
            "13.36x slower",
            "25/334",
        ] {
            check(text, slower);
        }
        check("13.36", "1 turn in, 13.36 turns out: 13.36 times faster");
        check("1:12", "1 turn in, 12 turns out: 12 times faster");
        check(
            "0.0748",
            "≈\u{202F}13.369 turns in, 1 turn out: ≈\u{202F}13.369 times slower",
        );
        check("1", "1 turn in, 1 turn out");
    }

    #[test]
    fn turning_round_twice_comes_back() {
        for text in ["13.36 times slower", "1/3", "40/3", "0.0748", "7"] {
            let wish = Wish::read(text).expect("a ratio");
            let turned = Wish::read(&wish.turned()).expect("a ratio");
            assert_eq!(turned.ratio, wish.ratio.recip(), "{text}");
            assert_eq!(Wish::read(&wish.text()).as_ref(), Ok(&wish));
            assert_eq!(Wish::read(&turned.turned()), Ok(wish));
        }
    }

    #[test]
    fn what_is_no_ratio_is_refused() {
        for text in ["", "fast", "0", "12 apples", "1::2", "3:0", "slower"] {
            assert!(Wish::read(text).is_err(), "{text}");
        }
    }
}
