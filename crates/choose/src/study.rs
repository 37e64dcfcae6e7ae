//! The same question asked of a layout many times over: some inputs set, some outputs read, in every position.
//!
//! Every sample is computed from the layout as it is, so that samples can be had in any order and on any thread.

use layshaft_layout::{Id, Layout};
use layshaft_report::{Limit, Parts, PositionReport, State};

use crate::input::{Input, Varied};
use crate::output::Output;
use crate::task::JobProblem;

/// A layout with what is looked at in it.
#[derive(Clone, Debug)]
pub struct Study {
    base: Varied,
    positions: Vec<Id>,
    outputs: Vec<Output>,
    parts: Parts,
}

/// One position of a layout with its inputs set.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Sample {
    /// The state; none where the layout can't be computed so.
    pub state: Option<State>,
    /// What limits the pull.
    pub limit: Option<Limit>,
    /// The sense in which the load is turned: −1, 0, 1.
    pub sense: i8,
    /// Per output.
    pub values: Vec<Option<f64>>,
}

impl Study {
    /// Of a layout.
    #[must_use]
    pub fn new(layout: Layout, outputs: &[Output]) -> Self {
        let positions = layout.effective_positions();
        Self {
            positions: positions.iter().map(|position| position.id.clone()).collect(),
            base: Varied::new(layout),
            outputs: outputs.to_vec(),
            parts: Output::parts(outputs),
        }
    }

    /// The layout as it is.
    #[must_use]
    pub const fn layout(&self) -> &Layout {
        self.base.layout()
    }

    /// Its positions, which no input changes.
    #[must_use]
    pub fn positions(&self) -> &[Id] {
        &self.positions
    }

    /// The number of a position.
    ///
    /// # Errors
    /// Where there is none of this id.
    pub fn position(&self, id: &Id) -> Result<usize, JobProblem> {
        let found = self.positions.iter().position(|position| position == id);
        found.ok_or_else(|| {
            let known: Vec<&str> = self.positions.iter().map(Id::as_str).collect();
            JobProblem::Asked(format!(
                "There is no shift position {id}. Take one of {}.",
                known.join(", ")
            ))
        })
    }

    /// What is looked at.
    #[must_use]
    pub fn outputs(&self) -> &[Output] {
        &self.outputs
    }

    /// All positions with these inputs set, one after another; where one of them can't have its value, samples without a
    /// state.
    #[must_use]
    pub fn samples(&self, settings: &[(&Input, f64)]) -> Vec<Sample> {
        let reports = self.set(settings).and_then(|varied| varied.probe(self.parts));
        match reports {
            Some(reports) => reports.iter().map(|report| self.read(report)).collect(),
            None => vec![self.nothing(); self.positions.len()],
        }
    }

    /// One position alone, by its number.
    #[must_use]
    pub fn sample(&self, position: usize, settings: &[(&Input, f64)]) -> Sample {
        let report = self
            .set(settings)
            .and_then(|varied| varied.probe_position(self.parts, position));
        report.map_or_else(|| self.nothing(), |report| self.read(&report))
    }

    fn set(&self, settings: &[(&Input, f64)]) -> Option<Varied> {
        let mut varied = self.base.clone();
        for (input, value) in settings {
            varied.set(input, *value).ok()?;
        }
        Some(varied)
    }

    fn read(&self, report: &PositionReport) -> Sample {
        Sample {
            state: Some(report.state),
            limit: report.stall.as_ref().map(|stall| stall.limit),
            sense: report.load_sense,
            values: self.outputs.iter().map(|output| output.of(report)).collect(),
        }
    }

    fn nothing(&self) -> Sample {
        Sample {
            values: vec![None; self.outputs.len()],
            ..Sample::default()
        }
    }
}
