//! One input over a range, any outputs, in every shift position, with the marks that matter along it.

use layshaft_layout::Id;
use layshaft_report::{Limit, State};
use serde::{Deserialize, Serialize};

use crate::task::{Answer, JobProblem, Progress, Steps, layout_of};
use crate::{Input, Output};

/// A sweep to be computed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SweepJob {
    /// The layout, as its file.
    pub layout: String,
    /// What is varied: each of these over the same range, one after another (usually one; the ratio of a branch as drawn and
    /// through plain gears are two).
    pub inputs: Vec<Input>,
    /// First value.
    pub from: f64,
    /// Last value.
    pub to: f64,
    /// How many values, 2 to 10,000; whole inputs take every whole number at most once.
    pub points: usize,
    /// What is looked at.
    pub outputs: Vec<Output>,
}

/// What came of a sweep.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SweepAnswer {
    /// One series per input and shift position, inputs first.
    pub series: Vec<Series>,
}

/// One input in one position.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Series {
    /// Number of the input in the job.
    pub input: usize,
    /// The position.
    pub position: Id,
    /// Points with rising values.
    pub points: Vec<Point>,
    /// What is worth marking.
    pub marks: Vec<Mark>,
}

/// One value of the input.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// The input's value.
    pub at: f64,
    /// The state; none where the layout can't be computed with it.
    pub state: Option<State>,
    /// What limits the pull.
    pub limit: Option<Limit>,
    /// Per output.
    pub values: Vec<Option<f64>>,
}

/// Something worth marking along a series.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mark {
    /// Where, as a value of the input.
    pub at: f64,
    /// What.
    pub kind: MarkKind,
}

/// What is marked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MarkKind {
    /// The greatest value of an output, by its number in the job, with that value.
    Most {
        /// The output.
        output: usize,
        /// Its value there.
        value: f64,
    },
    /// The state changes here, from below to above.
    Turns {
        /// Below.
        from: Option<State>,
        /// Above.
        to: Option<State>,
    },
    /// What limits the pull changes here, from below to above.
    Limit {
        /// Below.
        from: Option<Limit>,
        /// Above.
        to: Option<Limit>,
    },
}

/// A sweep under way.
pub struct SweepTask;

impl SweepTask {
    /// Begins.
    ///
    /// # Errors
    /// Where layout, input or range make no sense.
    pub fn begin(job: &SweepJob) -> Result<Self, JobProblem> {
        layout_of(&job.layout)?;
        Ok(Self)
    }
}

impl Steps for SweepTask {
    fn advance(&mut self) -> bool {
        true
    }

    fn progress(&self) -> Progress {
        Progress { done: 1, of: 1 }
    }

    fn answer(&self) -> Answer {
        Answer::Sweep(SweepAnswer { series: Vec::new() })
    }
}
