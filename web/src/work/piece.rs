//! A piece of work under way: done in slices, and when to tell what of it. The same in the worker and on the page.

use layshaft_choose::task::{Job, Task};

use super::messages::Told;
use crate::browser::now_ms;

/// How long a slice takes: long enough that what lies between slices doesn't count, short enough to hear "stop" at once.
const SLICE_MS: f64 = 16.0;
/// How often it is told how far the work is.
const PROGRESS_MS: f64 = 60.0;
/// How often, at most, it is told what there is so far.
const SO_FAR_MS: f64 = 150.0;
/// What there is so far is told no more often than it takes the page this many times to show it.
const REST: f64 = 6.0;

/// A piece of work under way.
pub struct Piece {
    /// Its number.
    pub number: u64,
    task: Task,
    progress_at: f64,
    so_far_at: f64,
    /// What was told so far has not been shown yet.
    unshown: bool,
    rest_ms: f64,
}

impl Piece {
    /// Begins a piece of work.
    ///
    /// # Errors
    /// What is to be told where it can't be begun.
    pub fn begin(number: u64, job: &Job) -> Result<Self, Told> {
        let task = Task::begin(job).map_err(|problem| Told::Failed(problem.to_string()))?;
        let now = now_ms();
        Ok(Self {
            number,
            task,
            progress_at: now + PROGRESS_MS,
            so_far_at: now + SO_FAR_MS,
            unshown: false,
            rest_ms: SO_FAR_MS,
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
    pub fn news(&mut self) -> Vec<Told> {
        let now = now_ms();
        let mut news = Vec::new();
        if now >= self.progress_at {
            self.progress_at = now + PROGRESS_MS;
            news.push(Told::Progress(self.task.progress()));
        }
        if now >= self.so_far_at && !self.unshown {
            self.unshown = true;
            self.so_far_at = now + self.rest_ms;
            news.push(Told::SoFar(self.task.answer()));
        }
        news
    }

    /// What came of it.
    pub fn outcome(&self) -> Told {
        Told::Done(self.task.answer())
    }

    /// What was told so far is shown, which took so long.
    pub fn shown(&mut self, took_ms: f64) {
        self.unshown = false;
        self.rest_ms = SO_FAR_MS.max(REST * took_ms);
        self.so_far_at = self.so_far_at.max(now_ms() + REST * took_ms);
    }
}
