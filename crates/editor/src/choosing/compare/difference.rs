//! How two values differ: a sign and words, never a colour alone.

use crate::numbers::{self, MINUS, significant};
use crate::wording::{DifferenceWords, difference_words};

/// Which way a value goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trend {
    /// Upwards.
    More,
    /// Downwards.
    Less,
    /// As much.
    Same,
    /// Otherwise, without more or less.
    Other,
}

impl Trend {
    /// Its sign.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Self::More => "▲",
            Self::Less => "▼",
            Self::Same => "=",
            Self::Other => "≠",
        }
    }
}

/// How a value differs from another.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Which way.
    pub trend: Trend,
    /// How much, to stand behind the sign: `+12 %`.
    pub text: String,
    /// The same as a sentence says it: `12 percent more than A`.
    pub spoken: String,
}

/// What is compared of a value.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// Nothing can be said.
    None,
    /// A size; only sizes of the same sort are compared.
    Size(&'static str, f64),
    /// A share of something, 0 to 1.
    Share(f64),
    /// So many.
    Count(usize),
    /// Words, which are the same or not.
    Words(String),
}

/// Sizes that differ by less than this share of the other are as large.
const SAME: f64 = 5e-4;
/// From here on a size is said to be a multiple of the other.
const MULTIPLE: f64 = 2.0;

impl Difference {
    /// How `this` differs from `base`, which goes by a letter; none where they can't be compared.
    pub fn between(base: &Amount, this: &Amount, letter: &str) -> Option<Self> {
        match (base, this) {
            (Amount::Size(one, from), Amount::Size(other, to)) if one == other => {
                Self::of_sizes(*from, *to, letter)
            }
            (Amount::Share(from), Amount::Share(to)) => Some(Self::of_shares(*from, *to, letter)),
            (Amount::Count(from), Amount::Count(to)) => Some(Self::of_counts(*from, *to, letter)),
            (Amount::Words(one), Amount::Words(other)) => Some(Self::new(
                if one == other { Trend::Same } else { Trend::Other },
                DifferenceWords::Plain,
                letter,
            )),
            _ => None,
        }
    }

    fn new(trend: Trend, words: DifferenceWords, letter: &str) -> Self {
        let (text, spoken) = difference_words(trend, &words, letter);
        Self { trend, text, spoken }
    }

    fn of_sizes(from: f64, to: f64, letter: &str) -> Option<Self> {
        if !from.is_finite() || !to.is_finite() {
            return None;
        }
        if (to - from).abs() <= SAME * from.abs() {
            return Some(Self::new(Trend::Same, DifferenceWords::Plain, letter));
        }
        if from * to < 0.0 {
            return Some(Self::new(Trend::Other, DifferenceWords::OtherWay, letter));
        }
        let trend = trend(from.abs(), to.abs());
        // From nothing, there is no share of it.
        let words = if from.abs() < 1e-12 {
            DifferenceWords::FromNothing
        } else if to / from >= MULTIPLE {
            DifferenceWords::Times(significant(to / from))
        } else {
            DifferenceWords::Percent(rounded((to / from - 1.0) * 100.0))
        };
        Some(Self::new(trend, words, letter))
    }

    fn of_shares(from: f64, to: f64, letter: &str) -> Self {
        let points = (to - from) * 100.0;
        let trend = if points.abs() < 0.05 {
            Trend::Same
        } else {
            trend(from, to)
        };
        let words = match trend {
            Trend::Same => DifferenceWords::Plain,
            _ => DifferenceWords::Points(rounded(points)),
        };
        Self::new(trend, words, letter)
    }

    fn of_counts(from: usize, to: usize, letter: &str) -> Self {
        #[expect(clippy::cast_precision_loss, reason = "counts of parts")]
        let trend = trend(from as f64, to as f64);
        let words = match trend {
            Trend::Same => DifferenceWords::Plain,
            _ => DifferenceWords::Count(from.abs_diff(to)),
        };
        Self::new(trend, words, letter)
    }
}

fn trend(from: f64, to: f64) -> Trend {
    match from.total_cmp(&to) {
        std::cmp::Ordering::Less => Trend::More,
        std::cmp::Ordering::Equal => Trend::Same,
        std::cmp::Ordering::Greater => Trend::Less,
    }
}

/// With its sign; whole from ten on, one place below, since a difference needs no more.
fn rounded(percent: f64) -> String {
    let size = percent.abs();
    let sign = if percent < 0.0 { MINUS } else { '+' };
    if size >= 9.95 {
        format!("{sign}{size:.0}")
    } else if size >= 0.05 {
        format!("{sign}{size:.1}")
    } else {
        format!("{sign}{}", numbers::significant(size))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numbers::THIN_SPACE;

    fn check(base: Amount, this: Amount, trend: Trend, text: &str) {
        let found = Difference::between(&base, &this, "A").expect("comparable");
        assert_eq!(
            (found.trend, found.text.replace(THIN_SPACE, "_").as_str()),
            (trend, text)
        );
    }

    #[test]
    fn sizes_differ_in_percent_or_by_a_multiple() {
        let size = |value| Amount::Size("N", value);
        check(size(10.0), size(11.2), Trend::More, "+12_%");
        check(size(10.0), size(9.7), Trend::Less, "\u{2212}3.0_%");
        check(size(10.0), size(10.001), Trend::Same, "same");
        check(size(10.0), size(35.0), Trend::More, "×3.50");
        check(size(0.0), size(1.0), Trend::More, "none in A");
        check(size(1.0), size(-1.0), Trend::Other, "other way round");
        check(size(-2.0), size(-3.0), Trend::More, "+50_%");
        check(size(2.0), size(0.0), Trend::Less, "\u{2212}100_%");
    }

    #[test]
    fn shares_differ_in_points_and_counts_in_pieces() {
        check(
            Amount::Share(0.5),
            Amount::Share(0.631),
            Trend::More,
            "+13 points",
        );
        check(Amount::Share(0.5), Amount::Share(0.5001), Trend::Same, "same");
        check(Amount::Count(3), Amount::Count(1), Trend::Less, "2 fewer");
        check(Amount::Count(3), Amount::Count(4), Trend::More, "1 more");
    }

    #[test]
    fn what_is_not_of_the_same_sort_is_not_compared() {
        let base = Amount::Size("N", 1.0);
        assert_eq!(Difference::between(&base, &Amount::Size("N·m", 1.0), "A"), None);
        assert_eq!(Difference::between(&base, &Amount::None, "A"), None);
    }

    #[test]
    fn a_difference_can_be_said() {
        let found = Difference::between(&Amount::Size("N", 10.0), &Amount::Size("N", 9.0), "A");
        assert_eq!(found.expect("comparable").spoken, "10 percent less than A");
    }
}
