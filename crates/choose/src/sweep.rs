//! One input over a range, any outputs, in every shift position, with the marks that matter along it.
//!
//! [`Sweep`] computes any of its points by itself, for whoever has threads; [`SweepTask`] goes from coarse to fine, so that
//! what there is of it is a whole picture at any time, and then looks for the marks.

mod marks;
mod task;
mod values;

use layshaft_layout::Id;
use layshaft_report::{Limit, State};
use serde::{Deserialize, Serialize};

use crate::study::{Sample, Study};
use crate::task::{JobProblem, layout_of};
use crate::{Input, Output};

pub use task::SweepTask;
pub use values::{MOST_POINTS, range_of};

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
    /// What is worth marking, by rising values.
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
    /// The sense in which the load is turned: −1, 0, 1.
    pub sense: i8,
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
    /// The load turns the other way from here on; at the place itself it stands still.
    TurnsRound,
    /// What limits the pull changes here, from below to above.
    Limit {
        /// Below.
        from: Option<Limit>,
        /// Above.
        to: Option<Limit>,
    },
}

/// A sweep whose points can be had one by one, in any order and on any thread.
#[derive(Clone, Debug)]
pub struct Sweep {
    study: Study,
    inputs: Vec<Input>,
    /// Per input.
    values: Vec<Vec<f64>>,
}

impl Sweep {
    /// Of a job.
    ///
    /// # Errors
    /// Where layout, input or range make no sense.
    pub fn new(job: &SweepJob) -> Result<Self, JobProblem> {
        let layout = layout_of(&job.layout)?;
        let values = job
            .inputs
            .iter()
            .map(|input| range_of(&layout, input, [job.from, job.to], job.points))
            .collect::<Result<_, _>>()?;
        Ok(Self {
            study: Study::new(layout, &job.outputs),
            inputs: job.inputs.clone(),
            values,
        })
    }

    /// The layout's positions.
    #[must_use]
    pub fn positions(&self) -> &[Id] {
        self.study.positions()
    }

    /// Rising values that an input takes.
    #[must_use]
    pub fn values(&self, input: usize) -> &[f64] {
        &self.values[input]
    }

    /// All positions with one value of an input, by their numbers.
    #[must_use]
    pub fn points(&self, input: usize, value: usize) -> Vec<Point> {
        let at = self.values[input][value];
        let samples = self.study.samples(&[(&self.inputs[input], at)]);
        samples.into_iter().map(|sample| Point::of(at, sample)).collect()
    }

    /// One position between the values.
    fn between(&self, input: usize, position: usize, at: f64) -> Point {
        Point::of(at, self.study.sample(position, &[(&self.inputs[input], at)]))
    }

    fn is_whole(&self, input: usize) -> bool {
        self.inputs[input].is_whole(self.study.layout())
    }
}

impl Point {
    /// Whether the load turns the other way at another point.
    fn turns_round(&self, other: &Self) -> bool {
        self.sense * other.sense < 0
    }

    fn of(at: f64, sample: Sample) -> Self {
        Self {
            at,
            state: sample.state,
            limit: sample.limit,
            sense: sample.sense,
            values: sample.values,
        }
    }
}
