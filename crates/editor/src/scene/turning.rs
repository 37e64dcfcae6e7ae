//! How fast markers turn on the screen: true to one another, slowed so that the eye can follow.

use layshaft_report::{PositionReport, ShaftResult, State};
use num_traits::ToPrimitive;

use super::items::Standing;
use super::ribbon::round_up;
use crate::numbers::significant;

/// Speed in rpm that the fastest marker turns with at most: half a turn a second.
const FASTEST_RPM: f64 = 30.0;
/// Period in seconds above which a marker is not moved at all.
const LONGEST_PERIOD: f64 = 1000.0;

/// How shaft speeds become speeds on the screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Turning {
    /// Speeds are known: slowed by this factor (below 1: made faster).
    Slowed(f64),
    /// Only ratios are known: the drive turns at this speed in rpm.
    Relative(f64),
    /// Nothing turns.
    Still,
}

impl Turning {
    /// Of a position.
    #[must_use]
    pub fn of(position: &PositionReport) -> Self {
        if !matches!(position.state, State::Runs | State::Held | State::Undetermined) {
            return Self::Still;
        }
        let fastest = position
            .shafts
            .iter()
            .filter_map(rpm)
            .map(f64::abs)
            .fold(0.0, f64::max);
        if fastest > 1e-9 {
            return Self::Slowed(round_up(fastest / FASTEST_RPM));
        }
        if position.shafts.iter().any(|shaft| shaft.speed.is_some()) {
            return Self::Still;
        }
        let greatest = position
            .shafts
            .iter()
            .filter_map(ratio)
            .map(f64::abs)
            .fold(0.0, f64::max);
        if greatest > 1e-9 {
            Self::Relative(FASTEST_RPM / greatest.max(1.0) / 2.0)
        } else {
            Self::Still
        }
    }

    /// Time of one turn on the screen in seconds, and whether it goes clockwise; none where it does not turn.
    #[must_use]
    pub fn period(self, shaft: &ShaftResult) -> Option<(f64, bool)> {
        let shown = match self {
            Self::Slowed(factor) => rpm(shaft)? / factor,
            Self::Relative(drive) => ratio(shaft)? * drive,
            Self::Still => return None,
        };
        let period = 60.0 / shown.abs();
        (period < LONGEST_PERIOD).then(|| ((period * 1000.0).round() / 1000.0, shown > 0.0))
    }

    /// The line of the legend.
    #[must_use]
    pub fn legend(self) -> Option<String> {
        match self {
            Self::Slowed(factor) if factor > 1.0 => {
                Some(format!("Turning is shown {} times slower", whole(factor)))
            }
            Self::Slowed(factor) if factor < 1.0 => {
                Some(format!("Turning is shown {} times faster", whole(1.0 / factor)))
            }
            Self::Slowed(_) => Some("Turning is shown at true speed".to_owned()),
            Self::Relative(_) => Some("Turning shows ratios only: nothing drives yet".to_owned()),
            Self::Still => None,
        }
    }
}

fn whole(factor: f64) -> String {
    if (factor - factor.round()).abs() < 1e-6 {
        format!("{}", factor.round())
    } else {
        significant(factor)
    }
}

fn rpm(shaft: &ShaftResult) -> Option<f64> {
    shaft
        .speed
        .map(layshaft_quantity::AngularSpeed::to_rpm)
        .filter(|rpm| rpm.is_finite())
}

fn ratio(shaft: &ShaftResult) -> Option<f64> {
    shaft
        .ratio
        .as_ref()
        .and_then(ToPrimitive::to_f64)
        .filter(|ratio| ratio.is_finite())
}

/// How a shaft moves in a position.
#[must_use]
pub fn standing(shaft: &ShaftResult, state: State) -> Standing {
    use num_traits::Zero;
    if state == State::Jammed && !shaft.unreached {
        return Standing::Jammed;
    }
    if shaft.unreached {
        return Standing::Unreached;
    }
    if shaft.ratio.as_ref().is_some_and(Zero::is_zero) {
        return Standing::Held;
    }
    if shaft.free {
        return Standing::Free;
    }
    match rpm(shaft) {
        Some(rpm) if rpm.abs() < 1e-9 => Standing::AtRest,
        None if matches!(state, State::Stalled | State::SelfLocking | State::Held) => Standing::AtRest,
        _ => Standing::Turning,
    }
}
