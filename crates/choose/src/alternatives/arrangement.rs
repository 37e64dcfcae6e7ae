//! The standard arrangements with two speeds, and what each needs to be shifted.

use serde::{Deserialize, Serialize};

/// A standard arrangement with two speeds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Arrangement {
    /// Two gear pairs side by side between two shafts, a dog clutch at each.
    ParallelPairs,
    /// Two layshafts, each with a pair of its own and a dog clutch, both driving the same last gear.
    TwoLayshafts,
    /// Two gear pairs side by side with a one-way clutch at the lower pair: the higher is engaged over it.
    OneWayPairs,
    /// Input and output in line: direct in high, over a layshaft in low.
    LayshaftLow,
    /// Input and output in line: direct in low, over a layshaft in high.
    LayshaftHigh,
    /// Planetary set driven at its sun: ring held in low, locked up in high.
    RingHeld,
    /// Planetary set driven at its ring: sun held in low, locked up in high.
    SunHeld,
    /// Bevel differential driven at one side: the other side held in low, locked up in high.
    SideHeld,
    /// Differential that sums two paths in high; in low a brake holds the second path's side.
    SummingBrake,
    /// The same with a backstop in the brake's place.
    SummingBackstop,
    /// Differential that subtracts a branch of plain gears in low; in high a brake holds the branch's side.
    SubtractingBrake,
    /// Differential that subtracts a branch through a worm in low; in high the worm holds it.
    SubtractingWorm,
}

/// What is moved to shift.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Needs {
    /// One clutch that closes for low: what a torque switch does by itself as the load grows.
    ClutchForLow,
    /// One clutch that closes for high: a torque switch has to open it as the load grows.
    ClutchForHigh,
    /// One clutch opens as another closes.
    TwoClutches,
    /// A clutch opens as a brake closes.
    ClutchAndBrake,
}

impl Arrangement {
    /// All, the plainest first.
    pub const ALL: [Self; 12] = [
        Self::ParallelPairs,
        Self::TwoLayshafts,
        Self::OneWayPairs,
        Self::LayshaftLow,
        Self::LayshaftHigh,
        Self::RingHeld,
        Self::SunHeld,
        Self::SideHeld,
        Self::SummingBrake,
        Self::SummingBackstop,
        Self::SubtractingBrake,
        Self::SubtractingWorm,
    ];

    /// What is moved to shift.
    #[must_use]
    pub const fn needs(self) -> Needs {
        match self {
            Self::ParallelPairs | Self::TwoLayshafts | Self::LayshaftLow | Self::LayshaftHigh => {
                Needs::TwoClutches
            }
            Self::OneWayPairs | Self::SummingBackstop => Needs::ClutchForHigh,
            Self::SubtractingWorm => Needs::ClutchForLow,
            Self::RingHeld | Self::SunHeld | Self::SideHeld | Self::SummingBrake | Self::SubtractingBrake => {
                Needs::ClutchAndBrake
            }
        }
    }

    /// Whether it subtracts one path from another.
    #[must_use]
    pub const fn subtracts(self) -> bool {
        matches!(self, Self::SubtractingBrake | Self::SubtractingWorm)
    }

    /// Whether it has a bevel differential.
    #[must_use]
    pub const fn has_differential(self) -> bool {
        matches!(
            self,
            Self::SideHeld
                | Self::SummingBrake
                | Self::SummingBackstop
                | Self::SubtractingBrake
                | Self::SubtractingWorm
        )
    }

    /// In which gears its first toothed parts carry power, in the order of its layout; all further ones do in both.
    #[must_use]
    pub const fn carried_in(self) -> &'static [CarriedIn] {
        use CarriedIn::{Both, High, Low};
        match self {
            Self::ParallelPairs | Self::OneWayPairs => &[Low, High],
            Self::TwoLayshafts => &[Low, High, Low, High],
            Self::LayshaftLow => &[Low, Low],
            Self::LayshaftHigh => &[High, High],
            Self::SummingBrake | Self::SummingBackstop => &[Both, High],
            Self::SubtractingBrake => &[Both, Low, Low],
            Self::SubtractingWorm => &[Both, Low],
            Self::RingHeld | Self::SunHeld | Self::SideHeld => &[],
        }
    }
}

/// In which gears something carries power.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CarriedIn {
    /// In low only; a worm that is subtracted stands in high and holds.
    Low,
    /// In high only.
    High,
    /// In both.
    Both,
}
