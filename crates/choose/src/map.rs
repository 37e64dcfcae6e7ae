//! Two inputs over a field: one output in one shift position, and its contours.

use layshaft_layout::Id;
use serde::{Deserialize, Serialize};

use crate::task::{Answer, JobProblem, Progress, Steps, layout_of};
use crate::{Input, Output};

/// A range of one input.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Span {
    /// What is varied.
    pub input: Input,
    /// First value.
    pub from: f64,
    /// Last value.
    pub to: f64,
    /// How many values.
    pub points: usize,
}

/// A map to be computed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MapJob {
    /// The layout, as its file.
    pub layout: String,
    /// From left to right.
    pub across: Span,
    /// From bottom to top.
    pub up: Span,
    /// What is looked at.
    pub output: Output,
    /// In which position.
    pub position: Id,
}

/// What came of a map.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MapAnswer {
    /// Values of the input across.
    pub across: Vec<f64>,
    /// Values of the input up.
    pub up: Vec<f64>,
    /// Rows from the bottom, each from left to right.
    pub values: Vec<Vec<Option<f64>>>,
}

/// A map under way.
pub struct MapTask;

impl MapTask {
    /// Begins.
    ///
    /// # Errors
    /// Where layout, inputs or ranges make no sense.
    pub fn begin(job: &MapJob) -> Result<Self, JobProblem> {
        layout_of(&job.layout)?;
        Ok(Self)
    }
}

impl Steps for MapTask {
    fn advance(&mut self) -> bool {
        true
    }

    fn progress(&self) -> Progress {
        Progress { done: 1, of: 1 }
    }

    fn answer(&self) -> Answer {
        Answer::Map(MapAnswer {
            across: Vec::new(),
            up: Vec::new(),
            values: Vec::new(),
        })
    }
}
