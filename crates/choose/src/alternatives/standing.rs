//! How an arrangement stands against the layout asked about, and what becomes of that layout's torque switch in it.

use serde::{Deserialize, Serialize};

use super::{Alternative, Arrangement, Gear, Needs};

/// Pulls that differ by less than this share are no gain.
const NO_GAIN: f64 = 0.005;

/// How an arrangement stands against the layout asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// As wanted, it pulls more in low than that layout, and more in low than in high.
    Beats,
    /// The same, but not as wanted.
    NotAsWanted,
    /// Its low pulls no more than the layout's, or no more than its own high.
    NoBetter,
}

impl Standing {
    /// Against the low gear of a layout; where there is none, any pull is more.
    #[must_use]
    pub fn of(alternative: &Alternative, present: Option<&Gear>) -> Self {
        let now = present.map_or(0.0, Gear::strength);
        let more = alternative.gears[0].strength() > now * (1.0 + NO_GAIN);
        match (more && alternative.low_pulls_more(), alternative.reaches) {
            (true, true) => Self::Beats,
            (true, false) => Self::NotAsWanted,
            (false, _) => Self::NoBetter,
        }
    }
}

/// What becomes of a torque switch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Switching {
    /// The layout asked about has none.
    NotThere,
    /// It shifts this arrangement as well, at the same torques.
    Kept,
    /// It could, but does not sit at the source: other torques would have to be found for it.
    SetAnew,
    /// It moves one part, and here two have to be moved.
    Lost,
}

impl Switching {
    /// In an arrangement, for a layout that has a switch at its source, elsewhere, or none.
    pub(super) const fn of(arrangement: Arrangement, has_any: bool, at_source: bool) -> Self {
        match (has_any, arrangement.needs(), at_source) {
            (false, ..) => Self::NotThere,
            (true, Needs::TwoClutches | Needs::ClutchAndBrake, _) => Self::Lost,
            (true, Needs::ClutchForLow | Needs::ClutchForHigh, true) => Self::Kept,
            (true, Needs::ClutchForLow | Needs::ClutchForHigh, false) => Self::SetAnew,
        }
    }

    /// Whether a torque switch does the shifting.
    #[must_use]
    pub const fn by_itself(self) -> bool {
        matches!(self, Self::Kept | Self::SetAnew)
    }
}
