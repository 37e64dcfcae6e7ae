//! Long work portion by portion: what is asked ([`Job`]), how far it is ([`Progress`]), what came of it ([`Answer`]).
//!
//! Jobs and answers can be written as JSON, so that a page hands them to its worker. A [`Task`] holds no clock: whoever
//! advances it says for how long. What a job means is in the module of its name.

use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::alternatives::{TwoSpeedAnswer, TwoSpeedJob, TwoSpeedTask};
use crate::gears::{GearAnswer, GearJob, GearTask};
use crate::map::{MapAnswer, MapJob, MapTask};
use crate::sensitivity::{SensitivityAnswer, SensitivityJob, SensitivityTask};
use crate::sweep::{SweepAnswer, SweepJob, SweepTask};
use crate::uncertainty::{UncertaintyAnswer, UncertaintyJob, UncertaintyTask};

/// Something to be computed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Job {
    /// One input over a range.
    Sweep(SweepJob),
    /// Two inputs over a field.
    Map(MapJob),
    /// Trains of gears for a ratio.
    Gears(GearJob),
    /// Arrangements with two speeds.
    TwoSpeeds(TwoSpeedJob),
    /// Which inputs move a result.
    Sensitivity(SensitivityJob),
    /// How far results are known.
    Uncertainty(UncertaintyJob),
}

/// What came of a job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// Of a sweep.
    Sweep(SweepAnswer),
    /// Of a map.
    Map(MapAnswer),
    /// Of a gear search.
    Gears(GearAnswer),
    /// Of a search for arrangements.
    TwoSpeeds(TwoSpeedAnswer),
    /// Of a question after influence.
    Sensitivity(SensitivityAnswer),
    /// Of a question after certainty.
    Uncertainty(UncertaintyAnswer),
}

/// Why a job can't be begun.
#[derive(Clone, Debug, PartialEq, Error, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum JobProblem {
    /// The layout in it can't be read: the first thing that is wrong.
    #[error("the layout can't be read: {0}")]
    Layout(String),
    /// The input can't be varied.
    #[error("{0}")]
    Input(String),
    /// What is asked makes no sense: a sentence that says what would.
    #[error("{0}")]
    Asked(String),
}

/// How far a task is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Progress {
    /// Portions done.
    pub done: u64,
    /// Portions in all, as far as is known.
    pub of: u64,
}

/// Work that goes on portion by portion.
pub trait Steps {
    /// Does one portion, of a few milliseconds at most; true once there is no more.
    fn advance(&mut self) -> bool;
    /// How far it is.
    fn progress(&self) -> Progress;
    /// What there is so far, whole once [`Steps::advance`] has said so.
    fn answer(&self) -> Answer;
}

/// A job under way.
pub struct Task(Box<dyn Steps>);

impl Task {
    /// Begins a job.
    ///
    /// # Errors
    /// Where the job can't be begun.
    pub fn begin(job: &Job) -> Result<Self, JobProblem> {
        Ok(Self(match job {
            Job::Sweep(job) => Box::new(SweepTask::begin(job)?),
            Job::Map(job) => Box::new(MapTask::begin(job)?),
            Job::Gears(job) => Box::new(GearTask::begin(job)?),
            Job::TwoSpeeds(job) => Box::new(TwoSpeedTask::begin(job)?),
            Job::Sensitivity(job) => Box::new(SensitivityTask::begin(job)?),
            Job::Uncertainty(job) => Box::new(UncertaintyTask::begin(job)?),
        }))
    }

    /// Does one portion, of a few milliseconds at most; true once there is no more.
    pub fn advance(&mut self) -> bool {
        self.0.advance()
    }

    /// How far it is.
    #[must_use]
    pub fn progress(&self) -> Progress {
        self.0.progress()
    }

    /// What there is so far.
    #[must_use]
    pub fn answer(&self) -> Answer {
        self.0.answer()
    }
}

/// Does a job from beginning to end.
///
/// # Errors
/// Where the job can't be begun.
pub fn carry_out(job: &Job) -> Result<Answer, JobProblem> {
    let mut task = Task::begin(job)?;
    while !task.advance() {}
    Ok(task.answer())
}

/// Reads the layout of a job.
pub(crate) fn layout_of(text: &str) -> Result<layshaft_layout::Layout, JobProblem> {
    layshaft_layout::decode(text)
        .map_err(|errors| JobProblem::Layout(errors.first().map_or_else(String::new, ToString::to_string)))
}
