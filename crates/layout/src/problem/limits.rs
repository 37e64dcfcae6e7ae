//! Limits of counts and numbers: one place for the validator, the schema and the sentences.

use std::fmt;

/// Things that are counted in whole numbers, with their limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counted {
    /// Teeth of a gear or sprocket.
    Teeth,
    /// Threads of a worm.
    Starts,
    /// Layers of rope on a drum.
    Layers,
    /// Planets of a set.
    Planets,
    /// A layer of the plan.
    Layer,
    /// Numerator or denominator of a basic ratio.
    RatioPart,
    /// The document's own counter.
    Counter,
}

impl Counted {
    /// Fewest and most.
    #[must_use]
    pub const fn limits(self) -> (i64, i64) {
        match self {
            Self::Teeth => (1, 1_000_000),
            Self::Starts | Self::Layers | Self::Planets | Self::Layer => (1, 1000),
            Self::RatioPart => (-1_000_000_000_000, 1_000_000_000_000),
            Self::Counter => (0, 1_000_000_000_000_000),
        }
    }

    /// Whether zero is left out of the limits.
    #[must_use]
    pub const fn excludes_zero(self) -> bool {
        matches!(self, Self::RatioPart)
    }

    /// The whole number that `value` is, where it is one within the limits.
    #[must_use]
    pub fn whole(self, value: f64) -> Option<i64> {
        let (least, most) = self.limits();
        #[expect(clippy::cast_precision_loss, reason = "all limits are below 2^53")]
        let within = value >= least as f64 && value <= most as f64;
        #[expect(
            clippy::cast_possible_truncation,
            reason = "within the limits, which are whole numbers of i64"
        )]
        let whole = value as i64;
        (within && value.fract() == 0.0 && !(self.excludes_zero() && whole == 0)).then_some(whole)
    }

    /// What is wrong with `got`, as a sentence.
    pub(super) fn sentence(self, got: f64, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (owner, one, many) = match self {
            Self::Teeth => ("a gear", "tooth", "teeth"),
            Self::Starts => ("a worm", "start", "starts"),
            Self::Layers => ("a rope", "layer", "layers"),
            Self::Planets => ("a set", "planet", "planets"),
            Self::Layer => {
                let (least, most) = self.limits();
                return write!(f, "layers are counted from {least} to {most}, got {got}");
            }
            Self::RatioPart => {
                let (_, most) = self.limits();
                return write!(
                    f,
                    "a basic ratio is made of whole numbers between -{most} and {most}, but not 0, got {got}"
                );
            }
            Self::Counter => return write!(f, "a whole number from 0 is wanted here, got {got}"),
        };
        let (least, most) = self.limits();
        #[expect(clippy::cast_precision_loss, reason = "all limits are below 2^53")]
        if got < least as f64 {
            write!(f, "{owner} needs at least {least} {one}, got {got}")
        } else if got > most as f64 {
            write!(f, "{owner} has at most {most} {many}, got {got}")
        } else {
            write!(f, "{owner} has a whole number of {many}, got {got}")
        }
    }
}

/// Limits of a number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Lower limit.
    pub low: f64,
    /// Whether the lower limit itself is outside.
    pub above_low: bool,
    /// Upper limit.
    pub high: f64,
    /// Whether the upper limit itself is outside.
    pub below_high: bool,
}

impl Range {
    /// From `low` to `high`, both inside.
    #[must_use]
    pub const fn closed(low: f64, high: f64) -> Self {
        Self {
            low,
            above_low: false,
            high,
            below_high: false,
        }
    }

    /// From `low`, outside, to `high`, inside.
    #[must_use]
    pub const fn above(low: f64, high: f64) -> Self {
        Self {
            low,
            above_low: true,
            high,
            below_high: false,
        }
    }

    /// From `low`, inside, to `high`, outside.
    #[must_use]
    pub const fn below(low: f64, high: f64) -> Self {
        Self {
            low,
            above_low: false,
            high,
            below_high: true,
        }
    }

    /// Between `low` and `high`, both outside.
    #[must_use]
    pub const fn between(low: f64, high: f64) -> Self {
        Self {
            low,
            above_low: true,
            high,
            below_high: true,
        }
    }

    /// Whether a number is inside; no NaN is.
    #[must_use]
    pub fn contains(&self, value: f64) -> bool {
        let low = if self.above_low {
            value > self.low
        } else {
            value >= self.low
        };
        let high = if self.below_high {
            value < self.high
        } else {
            value <= self.high
        };
        low && high
    }
}

impl fmt::Display for Range {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let low = if self.above_low { "above" } else { "at least" };
        let high = if self.below_high { "below" } else { "at most" };
        write!(f, "{low} {} and {high} {}", self.low, self.high)
    }
}
