//! A run to be carried out, and what came of it.

use std::rc::Rc;

use layshaft_layout::Layout;
use layshaft_report::{LayoutRun, RunProblem, RunRequest, run_layout};

/// A run to be carried out. Whoever does it says how long it took, since nothing here has a clock.
#[derive(Clone, Debug, PartialEq)]
pub struct RunJob {
    /// The layout.
    pub layout: Rc<Layout>,
    /// What is asked.
    pub request: RunRequest,
}

impl RunJob {
    /// Computes it.
    #[must_use]
    pub fn carry_out(self) -> Outcome {
        let result = run_layout(&self.layout, &self.request);
        Outcome {
            job: self,
            result,
            took_ms: 0.0,
        }
    }
}

/// What came of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// What was asked.
    pub job: RunJob,
    /// The run, or why there is none.
    pub result: Result<LayoutRun, RunProblem>,
    /// How long it took, in ms.
    pub took_ms: f64,
}

impl Outcome {
    /// The run, where there is one.
    #[must_use]
    pub fn run(&self) -> Option<&LayoutRun> {
        self.result.as_ref().ok()
    }
}
