//! Two speeds from the gears at hand: the standard arrangements, sized, solved with their losses and ranked.
//!
//! What the arrangements are is in `arrangement`, which gears they get in `sizing` (its part that shifts: `units`, stages of a ratio: `stages`), how they
//! become layouts in `build`, how they are measured in `measure`, how each stands against the layout asked about in `standing`, in which
//! order they stand in `ranking`. Source and load are
//! those of the layout that is asked about (`ends`). *Low* is the gear with fewer output turns per turn of the source.

mod arrangement;
mod build;
mod draft;
mod ends;
mod measure;
mod ranking;
mod sizing;
mod stages;
mod standing;
mod task;
mod units;
mod wanted;

use layshaft_layout::Id;
use layshaft_report::{Limit, State};
use serde::{Deserialize, Serialize};

pub use arrangement::{Arrangement, CarriedIn, Needs};
pub use ends::{ASSUMED_WORM, speeds_of};
pub use stages::MOST_COUNTS;
pub use standing::{Standing, Switching};
pub use task::TwoSpeedTask;
pub use wanted::ratios_for;

use crate::gears::Bin;

/// What the two speeds are to do.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WantedSpeeds {
    /// Output turns per turn of the source, in low and in high.
    Ratios([f64; 2]),
    /// At least this pull in low and this speed in high.
    PullAndSpeed {
        /// Pull in low: N at rope or rim, N·m at a plain load.
        pull: f64,
        /// Speed in high: m/s of a vehicle on the level or of a rope under its present load, rpm of a plain load under its
        /// present torque.
        speed: f64,
    },
}

/// A search for arrangements.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TwoSpeedJob {
    /// The layout whose source and load are kept, as its file.
    pub layout: String,
    /// The gears at hand.
    pub bin: Bin,
    /// Tooth counts of ring gears that could be had; bins seldom hold any.
    #[serde(default)]
    pub rings: Vec<u32>,
    /// What is wanted.
    pub wanted: WantedSpeeds,
    /// Largest relative error of a ratio.
    pub tolerance: f64,
    /// Efficiency of a mesh of the bin's gears.
    pub mesh_efficiency: f64,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TwoSpeedAnswer {
    /// Wanted ratios, low and high, as given or as they follow from pull and speed.
    pub wanted: [f64; 2],
    /// The layout asked about: its gear with the lowest and, where there is another, the one with the highest ratio.
    pub present: Vec<Gear>,
    /// Arrangements by standing, in each the best first.
    pub found: Vec<Alternative>,
}

impl TwoSpeedAnswer {
    /// How an arrangement stands against the layout asked about.
    #[must_use]
    pub fn standing(&self, alternative: &Alternative) -> Standing {
        Standing::of(alternative, self.present.first())
    }
}

/// A sized arrangement.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Alternative {
    /// Which one it is.
    pub arrangement: Arrangement,
    /// It as a layout of its own, as its file.
    pub layout: String,
    /// Low and high.
    pub gears: [Gear; 2],
    /// Relative error of either ratio.
    pub errors: [f64; 2],
    /// Both ratios are within the tolerance and, where pull and speed are asked for, those are reached.
    pub reaches: bool,
    /// What it is made of.
    pub parts: PartCount,
    /// What neither the bin nor the layout asked about has.
    pub missing: Vec<Missing>,
    /// What becomes of the torque switch of the layout asked about.
    pub switching: Switching,
}

impl Alternative {
    /// Whether its low gear pulls more than its high one, by more than one per cent.
    #[must_use]
    pub fn low_pulls_more(&self) -> bool {
        self.gears[0].strength() > self.gears[1].strength() * 1.01
    }
}

/// One gear of an arrangement, measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Gear {
    /// Its position.
    pub position: Id,
    /// Its position's name.
    pub name: String,
    /// State at the present load.
    pub state: State,
    /// Output turns per turn of the source, in lowest terms.
    pub exact: String,
    /// The same as a number, without its sign.
    pub ratio: f64,
    /// Pull to keep moving at rope or rim, N; none for a plain load and where nothing limits it.
    pub pull: Option<f64>,
    /// The same as a torque at the load's shaft, N·m.
    pub torque: Option<f64>,
    /// The same as a slope, degrees.
    pub slope: Option<f64>,
    /// What limits it.
    pub limit: Option<Limit>,
    /// Torque at the load per torque at the source, where nothing limits the pull.
    pub gain: Option<f64>,
    /// Speed: m/s of a vehicle on the level or of a rope under its present load, rpm of a plain load.
    pub speed: Option<f64>,
    /// Power into the load over power out of the source, near the largest pull.
    pub efficiency: Option<f64>,
    /// Largest circulating power as a multiple of output.
    pub circulating: Option<f64>,
    /// Whether a load that pulls is held with the source off.
    pub holds: Option<bool>,
    /// What loses most, with its share of the source's power.
    pub worst: Option<(Id, f64)>,
    /// Torques that brakes have to hold near the largest pull, N·m.
    pub brakes: Vec<(Id, f64)>,
}

impl Gear {
    /// What gears are compared by: torque at the load's shaft in N·m, or torque gain where nothing limits the pull.
    #[must_use]
    pub fn strength(&self) -> f64 {
        match (self.torque, self.state) {
            (Some(torque), _) => torque,
            (None, State::SelfLocking) => 0.0,
            (None, _) => self.gain.unwrap_or(0.0),
        }
    }
}

/// What an arrangement is made of, source and load aside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct PartCount {
    /// Plain gears, worm wheels among them.
    pub gears: u32,
    /// Worms.
    pub worms: u32,
    /// Bevel differentials.
    pub differentials: u32,
    /// Planetary sets.
    pub planetaries: u32,
    /// Dog clutches.
    pub clutches: u32,
    /// Brakes.
    pub brakes: u32,
    /// One-way clutches and backstops.
    pub one_ways: u32,
    /// Torque switches.
    pub switches: u32,
    /// Shafts.
    pub shafts: u32,
}

impl PartCount {
    /// All of them, for ranking: a set counts as the three gears that it has at least.
    #[must_use]
    pub const fn total(&self) -> u32 {
        self.gears
            + self.worms
            + 3 * (self.differentials + self.planetaries)
            + self.clutches
            + self.brakes
            + self.one_ways
            + self.switches
            + self.shafts
    }
}

/// A part that is not at hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Missing {
    /// A ring gear.
    Ring {
        /// Its teeth.
        teeth: u32,
    },
    /// A bevel differential.
    Differential,
    /// A worm.
    Worm,
}
