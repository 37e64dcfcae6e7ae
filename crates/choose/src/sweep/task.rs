//! A sweep portion by portion: coarse points first, those between them next, then the marks.

use super::marks::{Search, look, searches};
use super::{Mark, Point, Series, Sweep, SweepAnswer, SweepJob};
use crate::task::{Answer, JobProblem, Progress, Steps};

/// Steps between points, one round after another.
const STRIDES: [usize; 4] = [64, 16, 4, 1];

/// A sweep under way.
pub struct SweepTask {
    sweep: Sweep,
    outputs: usize,
    /// Points still to be computed, the next last: number of the input and of its value.
    points: Vec<(usize, usize)>,
    /// Marks still to be looked for, the next last, with the number of the series; none until all points are there.
    searches: Option<Vec<(usize, Search)>>,
    /// Per input and value: its positions' points.
    found: Vec<Vec<Option<Vec<Point>>>>,
    /// Per series.
    marks: Vec<Vec<Mark>>,
    /// The series that marks are looked for in, once all points are there.
    series: Vec<Vec<Point>>,
    done: u64,
}

/// Coarse to fine, all inputs in every round.
fn order(counts: &[usize]) -> Vec<(usize, usize)> {
    let mut order = Vec::new();
    for (round, stride) in STRIDES.iter().enumerate() {
        for (input, count) in counts.iter().enumerate() {
            let before = |value: usize| {
                STRIDES[..round]
                    .iter()
                    .any(|stride| value.is_multiple_of(*stride))
                    || (round > 0 && value == count - 1)
            };
            let now = |value: usize| value.is_multiple_of(*stride) || value == count - 1;
            let round = (0..*count).filter(|value| now(*value) && !before(*value));
            order.extend(round.map(|value| (input, value)));
        }
    }
    order
}

/// Without single points that can't be computed, such as a ratio of nothing between negative and positive ones.
fn without_holes(points: Vec<Point>) -> Vec<Point> {
    let last = points.len().saturating_sub(1);
    let is_hole: Vec<bool> = (0..points.len())
        .map(|at| {
            let state = |at: usize| points[at].state;
            state(at).is_none() && at > 0 && at < last && state(at - 1).is_some() && state(at + 1).is_some()
        })
        .collect();
    let kept = points.into_iter().zip(is_hole).filter(|(_, is_hole)| !is_hole);
    kept.map(|(point, _)| point).collect()
}

impl SweepTask {
    /// Begins.
    ///
    /// # Errors
    /// Where layout, input or range make no sense.
    pub fn begin(job: &SweepJob) -> Result<Self, JobProblem> {
        let sweep = Sweep::new(job)?;
        let counts: Vec<usize> = sweep.values.iter().map(Vec::len).collect();
        let mut points = order(&counts);
        points.reverse();
        let series = counts.len() * sweep.positions().len();
        Ok(Self {
            outputs: job.outputs.len(),
            points,
            searches: None,
            found: counts.iter().map(|count| vec![None; *count]).collect(),
            marks: vec![Vec::new(); series],
            series: Vec::new(),
            done: 0,
            sweep,
        })
    }

    /// What there is of a series.
    fn points_of(&self, series: usize) -> Vec<Point> {
        let (input, position) = self.place(series);
        let found = self.found[input].iter().flatten();
        found.map(|points| points[position].clone()).collect()
    }

    /// Input and position of a series.
    fn place(&self, series: usize) -> (usize, usize) {
        let positions = self.sweep.positions().len();
        (series / positions, series % positions)
    }

    fn plan(&mut self) -> Vec<(usize, Search)> {
        self.series = (0..self.marks.len())
            .map(|series| without_holes(self.points_of(series)))
            .collect();
        let all = self.series.iter().enumerate().flat_map(|(series, points)| {
            searches(self.outputs, points)
                .into_iter()
                .map(move |search| (series, search))
        });
        let mut all: Vec<_> = all.collect();
        all.reverse();
        all
    }
}

impl Steps for SweepTask {
    fn advance(&mut self) -> bool {
        if let Some((input, value)) = self.points.pop() {
            self.found[input][value] = Some(self.sweep.points(input, value));
            self.done += 1;
            return false;
        }
        let Some(searches) = &mut self.searches else {
            let plan = self.plan();
            let done = plan.is_empty();
            self.searches = Some(plan);
            return done;
        };
        if let Some((series, search)) = searches.pop() {
            let (input, position) = self.place(series);
            let marks = look(&self.sweep, input, position, &self.series[series], search);
            self.marks[series].extend(marks);
            self.marks[series].sort_by(|a, b| a.at.total_cmp(&b.at));
            self.done += 1;
        }
        self.searches.as_ref().is_some_and(Vec::is_empty)
    }

    fn progress(&self) -> Progress {
        let marks = match &self.searches {
            None => self.marks.len() * self.outputs,
            Some(searches) => searches.len(),
        };
        Progress {
            done: self.done,
            of: self.done + (self.points.len() + marks) as u64,
        }
    }

    fn answer(&self) -> Answer {
        let series = (0..self.marks.len()).map(|series| {
            let (input, position) = self.place(series);
            Series {
                input,
                position: self.sweep.positions()[position].clone(),
                points: self.points_of(series),
                marks: self.marks[series].clone(),
            }
        });
        Answer::Sweep(SweepAnswer {
            series: series.collect(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_point_comes_once_and_the_coarse_ones_first() {
        let order = order(&[200, 3]);
        assert_eq!(
            order[..8],
            [
                (0, 0),
                (0, 64),
                (0, 128),
                (0, 192),
                (0, 199),
                (1, 0),
                (1, 2),
                (0, 16)
            ]
        );
        let mut all = order.clone();
        all.sort_unstable();
        all.dedup();
        assert_eq!((order.len(), all.len()), (203, 203));
    }
}
