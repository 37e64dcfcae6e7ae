//! Trains of gears for a ratio, from the gears at hand: every train within a tolerance, none missed.
//!
//! Here is what is asked and what comes back; [`typed`] reads what people type. `search` meets in the middle: products of
//! drivers against products of driven gears, both from one sorted list (`sides`); `rules` says which of those pairs
//! can be built, `rank` which is better, [`approximate`] which fractions are near a ratio that no gears make exactly.

pub mod approximate;
mod bin;
mod pairings;
mod rank;
mod rules;
mod search;
mod sides;
pub mod typed;
mod wanted;

use serde::{Deserialize, Serialize};

pub use approximate::{Approximation, RowKind};
pub use bin::{Bin, BinEntry};
pub use search::GearTask;

/// Stages at most.
pub const MOST_STAGES: u32 = 4;
/// Teeth at most: the product of four gears stays far within 64 bits.
pub const MOST_TEETH: u32 = 10_000;

/// Which way the output is to turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WantedSense {
    /// Either.
    #[default]
    Any,
    /// As the input.
    Same,
    /// Against the input.
    Opposite,
}

/// How far apart shafts can be.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Distances {
    /// As far as the gears want.
    #[default]
    Any,
    /// One of these.
    Listed {
        /// Centre distances in mm.
        mm: Vec<f64>,
        /// How much a distance may be off, in mm.
        slack_mm: f64,
    },
    /// From hole to hole of a pattern of rows and columns: `p sqrt(i² + j²)`.
    Bores {
        /// From one hole to the next, in mm.
        pitch_mm: f64,
        /// How much a distance may be off, in mm.
        slack_mm: f64,
    },
}

/// What can be built.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
pub struct GearRules {
    /// Tooth counts that are not to mesh with one another, either way round.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub excluded: Vec<[u32; 2]>,
    /// Module in mm; none: 1 mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub module_mm: Option<f64>,
    /// Centre distances `m (z1 + z2) / 2`, of each stage.
    #[serde(default)]
    pub distances: Distances,
    /// Input and output in line: two stages of equal sums of teeth, without idler.
    #[serde(default)]
    pub coaxial: bool,
}

/// What a mesh loses.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GearLoss {
    /// Nothing is known about it.
    #[default]
    NotGiven,
    /// The same efficiency in every mesh.
    Efficiency(f64),
    /// Coefficient of tooth friction.
    Friction(f64),
    /// Materials of the teeth, by their word in files; the middle of their friction is taken.
    MaterialPair(String),
}

/// A gear search.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
pub struct GearJob {
    /// The gears at hand.
    pub bin: Bin,
    /// Wanted ratio, output turns per input turn: `1/12`, `1250/16700`, `0.0748`. Its sign says nothing.
    pub ratio: String,
    /// Largest relative error, itself allowed; its shortest decimal text is taken exactly.
    pub tolerance: f64,
    /// Stages at most, 1 to 4.
    pub stages: u32,
    /// Which way the output is to turn.
    #[serde(default)]
    pub sense: WantedSense,
    /// Whether a gear between driver and driven may turn the output round, where it would turn the wrong way.
    #[serde(default)]
    pub idlers: bool,
    /// What can be built.
    #[serde(default)]
    pub rules: GearRules,
    /// What a mesh loses.
    #[serde(default)]
    pub loss: GearLoss,
    /// Whether every train also brings the other pairings of its gears.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub pairings: bool,
    /// Trains at most, the best; none: every one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit: Option<u32>,
    /// Also fractions near the ratio, neither part larger than this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub approximations: Option<u64>,
}

/// What came of a gear search.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GearAnswer {
    /// Trains, the best first.
    pub trains: Vec<GearTrain>,
    /// How many there are within the tolerance, also those beyond the limit.
    pub count: u64,
    /// Whether `trains` are all that there are.
    pub complete: bool,
    /// The best train outside the tolerance, where there is none within it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nearest: Option<GearTrain>,
    /// Fractions near the ratio, in the order of their parts.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub approximations: Vec<Approximation>,
}

/// A train of gears.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GearTrain {
    /// Driver and driven of every stage.
    pub stages: Vec<[u32; 2]>,
    /// A gear between the driver and the driven of a stage.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub idler: Option<Idler>,
    /// Its ratio in lowest terms, without a sign.
    pub ratio: String,
    /// Ratio over wanted ratio, less 1.
    pub error: f64,
    /// Whether output and input turn the same way.
    pub same_sense: bool,
    /// Gears in it.
    pub gears: u32,
    /// Product of the efficiencies of its meshes, where their loss is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub efficiency: Option<f64>,
    /// Sum of the centre distances of its meshes in mm.
    pub size_mm: f64,
    /// The same gears with the drivers on other driven gears, where that was asked for; size and ratio stay the same.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pairings: Vec<GearTrain>,
}

/// A gear that only hands on, and turns the sense round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Idler {
    /// In which stage, from 0.
    pub stage: u32,
    /// Its tooth count.
    pub teeth: u32,
}
