//! Two inputs over a field: one output in one shift position.
//!
//! Rows are computed coarse to fine, so that what there is of a map is a whole picture with fewer rows. Where values of equal
//! height lie is the drawing's matter.

use layshaft_layout::Id;
use serde::{Deserialize, Serialize};

use crate::study::Study;
use crate::sweep::range_of;
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
    /// Values of the input up, of the rows that there are so far.
    pub up: Vec<f64>,
    /// Rows from the bottom, each from left to right.
    pub values: Vec<Vec<Option<f64>>>,
}

/// Most points of a map.
pub const MOST_POINTS: usize = 250_000;
/// Steps between rows, one round after another.
const STRIDES: [usize; 4] = [27, 9, 3, 1];

/// A map whose points can be had one by one, in any order and on any thread.
#[derive(Clone, Debug)]
pub struct Field {
    study: Study,
    position: usize,
    inputs: [Input; 2],
    across: Vec<f64>,
    up: Vec<f64>,
}

impl Field {
    /// Of a job.
    ///
    /// # Errors
    /// Where layout, inputs or ranges make no sense, or there would be more than [`MOST_POINTS`].
    pub fn new(job: &MapJob) -> Result<Self, JobProblem> {
        let layout = layout_of(&job.layout)?;
        if job.across.input.collides(&job.up.input, &layout) {
            return Err(JobProblem::Asked(
                "Both directions vary the same number. Take another one for one of them.".to_owned(),
            ));
        }
        let values = |span: &Span| range_of(&layout, &span.input, [span.from, span.to], span.points);
        let (across, up) = (values(&job.across)?, values(&job.up)?);
        let points = across.len() * up.len();
        if points > MOST_POINTS {
            return Err(JobProblem::Asked(format!(
                "{} by {} are {points} points, and at most {MOST_POINTS} are computed. Take fewer values.",
                across.len(),
                up.len()
            )));
        }
        let study = Study::new(layout, std::slice::from_ref(&job.output));
        let position = study.position(&job.position)?;
        Ok(Self {
            study,
            position,
            inputs: [job.across.input.clone(), job.up.input.clone()],
            across,
            up,
        })
    }

    /// Rising values of the input across.
    #[must_use]
    pub fn across(&self) -> &[f64] {
        &self.across
    }

    /// Rising values of the input up.
    #[must_use]
    pub fn up(&self) -> &[f64] {
        &self.up
    }

    /// One point, by the numbers of its values.
    #[must_use]
    pub fn value(&self, across: usize, up: usize) -> Option<f64> {
        let settings = [
            (&self.inputs[0], self.across[across]),
            (&self.inputs[1], self.up[up]),
        ];
        self.study.sample(self.position, &settings).values[0]
    }
}

/// A map under way.
pub struct MapTask {
    field: Field,
    /// Rows still to be computed, the next last.
    rows: Vec<usize>,
    /// The row under way.
    row: Vec<Option<f64>>,
    found: Vec<Option<Vec<Option<f64>>>>,
    done: u64,
}

impl MapTask {
    /// Begins.
    ///
    /// # Errors
    /// As [`Field::new`].
    pub fn begin(job: &MapJob) -> Result<Self, JobProblem> {
        let field = Field::new(job)?;
        let count = field.up.len();
        Ok(Self {
            rows: rows(count),
            row: Vec::with_capacity(field.across.len()),
            found: vec![None; count],
            field,
            done: 0,
        })
    }
}

/// Coarse to fine, the first one last.
fn rows(count: usize) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::with_capacity(count);
    for stride in STRIDES {
        for row in (0..count).filter(|row| row.is_multiple_of(stride) || *row == count - 1) {
            if !order.contains(&row) {
                order.push(row);
            }
        }
    }
    order.reverse();
    order
}

impl Steps for MapTask {
    fn advance(&mut self) -> bool {
        let Some(&up) = self.rows.last() else {
            return true;
        };
        self.row.push(self.field.value(self.row.len(), up));
        self.done += 1;
        if self.row.len() == self.field.across.len() {
            self.found[up] = Some(std::mem::take(&mut self.row));
            self.rows.pop();
        }
        self.rows.is_empty()
    }

    fn progress(&self) -> Progress {
        Progress {
            done: self.done,
            of: (self.field.across.len() * self.field.up.len()) as u64,
        }
    }

    fn answer(&self) -> Answer {
        let rows = self.field.up.iter().zip(&self.found);
        let there = rows.filter_map(|(up, row)| Some((*up, row.clone()?)));
        let (up, values) = there.unzip();
        Answer::Map(MapAnswer {
            across: self.field.across.clone(),
            up,
            values,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_comes_once_and_the_coarse_ones_first() {
        let mut order = rows(60);
        order.reverse();
        assert_eq!(order[..5], [0, 27, 54, 59, 9]);
        order.sort_unstable();
        assert_eq!(order, (0..60).collect::<Vec<_>>());
    }
}
