//! What is asked of a run: the course's stretches, the lift, where and how it starts, when it ends; and what is typed.

use layshaft_layout::{Id, Layout};
use layshaft_quantity::QuantityKind;
use layshaft_report::{RunAim, RunRequest};

use crate::fields::number;
use crate::numbers::MINUS;

/// What is asked besides the course, which is part of the layout.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Setup {
    /// Position at the start; none: the first.
    pub position: Option<Id>,
    /// Speed at the start in m/s.
    pub from_speed: Option<f64>,
    /// Time limit in s.
    pub limit: Option<f64>,
    /// Height of a lift in m; negative lowers.
    pub lift: Option<f64>,
}

/// A field of the run sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunField {
    /// Length of stretch n, in m.
    Length(usize),
    /// Slope of stretch n, in degrees.
    Slope(usize),
    /// Speed at the start.
    FromSpeed,
    /// Time limit.
    Limit,
    /// Height of the lift.
    Lift,
}

/// A field as the page shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct RunEntry {
    /// Which.
    pub field: RunField,
    /// Its label.
    pub label: String,
    /// Its unit.
    pub unit: &'static str,
    /// What is in it.
    pub text: String,
    /// What is wrong with it.
    pub problem: Option<String>,
    /// What it means while it is empty.
    pub hint: &'static str,
}

/// A field being typed into.
#[derive(Clone, Debug, PartialEq)]
pub struct Typing {
    pub field: RunField,
    pub text: String,
    pub problem: Option<String>,
}

/// Samples that a run has at most: more could not be seen.
const MOST_SAMPLES: f64 = 3000.0;
/// Time between samples that short runs have, in s.
const FINEST_S: f64 = 0.02;
/// Longest run, in s.
const LONGEST_S: f64 = 3600.0;

impl Setup {
    /// The request for a layout; positions that are gone count as none.
    pub(crate) fn request(&self, layout: &Layout, lifts: bool) -> RunRequest {
        let positions = layout.effective_positions();
        let is_there = |id: &Id| positions.iter().any(|position| position.id == *id);
        RunRequest {
            aim: match self.lift {
                Some(metres) if lifts => RunAim::Lift(metres),
                _ => RunAim::AsTyped,
            },
            position: self.position.clone().filter(is_there),
            from_speed_m_s: self.from_speed.unwrap_or(0.0),
            until_s: self.limit,
            sample_every_s: self
                .limit
                .map(|limit| limit / MOST_SAMPLES)
                .filter(|every| *every > FINEST_S),
        }
    }
}

impl RunField {
    /// Its unit.
    pub(crate) const fn unit(self) -> &'static str {
        match self {
            Self::Length(_) | Self::Lift => "m",
            Self::Slope(_) => "°",
            Self::FromSpeed => "m/s",
            Self::Limit => "s",
        }
    }

    const fn kind(self) -> (QuantityKind, f64) {
        match self {
            Self::Length(_) | Self::Lift => (QuantityKind::Length, 0.1),
            Self::Slope(_) => (QuantityKind::Angle, 0.5),
            Self::FromSpeed => (QuantityKind::Plain, 0.05),
            Self::Limit => (QuantityKind::Plain, 1.0),
        }
    }

    /// The number that was typed; none where the field may be empty and is.
    ///
    /// # Errors
    /// A sentence that says what is wrong and what would be right.
    pub(crate) fn read(self, text: &str) -> Result<Option<f64>, String> {
        let text = text.trim();
        if text.is_empty() && matches!(self, Self::FromSpeed | Self::Limit | Self::Lift) {
            return Ok(None);
        }
        let (kind, step) = self.kind();
        let value: f64 = number(text, kind, self.unit(), step)?
            .parse()
            .map_err(|_| format!("“{text}” is no number."))?;
        self.fits(value).map(|()| Some(value))
    }

    fn fits(self, value: f64) -> Result<(), String> {
        let wrong = match self {
            Self::Length(_) if value <= 0.0 || value > 1e6 => "A stretch is longer than 0 m.",
            Self::Slope(_) if value.abs() > 89.0 => "A slope is between −89° and 89°.",
            Self::FromSpeed if value.abs() > 1000.0 => "Such a speed is out of reach.",
            Self::Limit if value <= 0.0 => "A run takes longer than 0 s.",
            Self::Limit if value > LONGEST_S => "A run takes at most an hour: 3600 s.",
            Self::Lift if value.abs() < 1e-6 => "A lift of 0 m is none. A negative height lowers.",
            Self::Lift if value.abs() > 1e6 => "Such a height is out of reach.",
            _ => return Ok(()),
        };
        Err(wrong.to_owned())
    }

    /// A number as it stands in the field.
    pub(crate) fn write(value: Option<f64>) -> String {
        value.map_or_else(String::new, |value| {
            format!("{value}").replace('-', &MINUS.to_string())
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_are_understood_and_nonsense_is_answered() {
        assert_eq!(RunField::Length(0).read("50 cm"), Ok(Some(0.5)));
        assert_eq!(RunField::Slope(0).read("−4,5°"), Ok(Some(-4.5)));
        assert_eq!(RunField::Limit.read("12 s"), Ok(Some(12.0)));
        assert_eq!(RunField::FromSpeed.read("0.4 m/s"), Ok(Some(0.4)));
        assert_eq!(RunField::Lift.read(""), Ok(None));
        assert!(RunField::Length(0).read("").is_err());
        assert!(RunField::Length(0).read("0").is_err());
        assert!(RunField::Slope(0).read("steep").is_err());
        assert!(RunField::Limit.read("1e9").is_err());
    }

    #[test]
    fn long_runs_are_sampled_more_coarsely() {
        let layout = Layout::new();
        let request = |limit| {
            Setup {
                limit: Some(limit),
                ..Setup::default()
            }
            .request(&layout, false)
        };
        assert_eq!(request(30.0).sample_every_s, None);
        assert_eq!(request(600.0).sample_every_s, Some(0.2));
    }
}
