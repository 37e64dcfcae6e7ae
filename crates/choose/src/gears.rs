//! Trains of gears for a ratio, from the gears at hand: every train within a tolerance, none missed.

use serde::{Deserialize, Serialize};

use crate::task::{Answer, JobProblem, Progress, Steps};

/// Gears of one tooth count at hand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BinEntry {
    /// Tooth count.
    pub teeth: u32,
    /// How many there are; none: as many as wanted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// Their material's word, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<String>,
}

/// The gears at hand, by rising tooth count.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Bin(pub Vec<BinEntry>);

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

/// A gear search.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GearJob {
    /// The gears at hand.
    pub bin: Bin,
    /// Wanted ratio, output turns per input turn, as a fraction of whole numbers: `1/12`, `1250/16700`.
    pub ratio: String,
    /// Largest relative error.
    pub tolerance: f64,
    /// Stages at most, 1 to 4.
    pub stages: u32,
    /// Which way the output is to turn.
    pub sense: WantedSense,
}

/// What came of a gear search.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GearAnswer {
    /// Trains, the best first.
    pub trains: Vec<GearTrain>,
    /// Whether these are all that there are.
    pub complete: bool,
}

/// A train of gears.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GearTrain {
    /// Driver and driven of every stage.
    pub stages: Vec<[u32; 2]>,
    /// Its ratio in lowest terms.
    pub ratio: String,
    /// Ratio over wanted ratio, less 1.
    pub error: f64,
}

/// A search under way.
pub struct GearTask;

impl GearTask {
    /// Begins.
    ///
    /// # Errors
    /// Where what is wanted makes no sense.
    pub fn begin(_: &GearJob) -> Result<Self, JobProblem> {
        Ok(Self)
    }
}

impl Steps for GearTask {
    fn advance(&mut self) -> bool {
        true
    }

    fn progress(&self) -> Progress {
        Progress { done: 1, of: 1 }
    }

    fn answer(&self) -> Answer {
        Answer::Gears(GearAnswer {
            trains: Vec::new(),
            complete: true,
        })
    }
}
