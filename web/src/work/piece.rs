//! A piece of work under way: done in slices, and when to tell what of it. The same in the worker and on the page.

use layshaft_choose::task::{Job, Task};

use super::messages::Told;
use crate::browser::now_ms;

/// How long a slice takes: long enough that what lies between slices doesn't count, short enough to hear "stop" at once.
const SLICE_MS: f64 = 16.0;
/// How often, at most, it is told how far the work is.
const PROGRESS_MS: f64 = 60.0;
/// How often, at most, it is told what there is so far.
const SO_FAR_MS: f64 = 150.0;
/// Nothing is told more often than it takes the page this many times to show it: inputs of the person come first.
const REST: f64 = 6.0;

/// A piece of work under way.
pub struct Piece {
    /// Its number.
    pub number: u64,
    task: Task,
    /// Not to be told of before this.
    progress_at: f64,
    so_far_at: f64,
    /// What was told last has not been shown yet.
    unshown: bool,
}

impl Piece {
    /// Begins a piece of work.
    ///
    /// # Errors
    /// The sentence that says why it can't be begun.
    pub fn begin(number: u64, job: &Job) -> Result<Self, String> {
        let task = Task::begin(job).map_err(|problem| problem.to_string())?;
        let now = now_ms();
        Ok(Self {
            number,
            task,
            progress_at: now + PROGRESS_MS,
            so_far_at: now + SO_FAR_MS,
            unshown: false,
        })
    }

    /// Goes on for one slice; true once all is done.
    pub fn go_on(&mut self) -> bool {
        let start = now_ms();
        loop {
            if self.task.advance() {
                return true;
            }
            if now_ms() - start >= SLICE_MS {
                return false;
            }
        }
    }

    /// What is to be told after a slice.
    pub fn news(&mut self) -> Option<Told> {
        let now = now_ms();
        if self.unshown || now < self.progress_at {
            return None;
        }
        self.unshown = true;
        let so_far = (now >= self.so_far_at).then(|| self.task.answer());
        if so_far.is_some() {
            self.so_far_at = now + SO_FAR_MS;
        }
        Some(Told::UnderWay(self.task.progress(), so_far))
    }

    /// What came of it.
    pub fn outcome(&self) -> Told {
        Told::Done(self.task.answer())
    }

    /// What was told last is shown, which took so long.
    pub fn shown(&mut self, took_ms: f64) {
        self.unshown = false;
        self.progress_at = now_ms() + PROGRESS_MS.max(REST * took_ms);
    }
}
