//! The search portion by portion: first the gears of one arrangement at a time, then one sizing at a time is solved.

use std::collections::VecDeque;

use layshaft_layout::{Layout, encode};

use super::ends::Ends;
use super::measure::{EndIds, gears, low_and_high};
use super::sizing::{Question, Sizing};
use super::stages::Stock;
use super::{
    Alternative, Arrangement, Gear, TwoSpeedAnswer, TwoSpeedJob, WantedSpeeds, build, ranking, wanted,
};
use crate::task::{Answer, JobProblem, Progress, Steps, layout_of};

/// A search under way.
pub struct TwoSpeedTask {
    job: TwoSpeedJob,
    layout: Layout,
    ends: Ends,
    stock: Stock,
    wanted: [f64; 2],
    present: Option<Vec<Gear>>,
    unsized_kinds: VecDeque<Arrangement>,
    unsolved: VecDeque<Sizing>,
    done: u64,
    found: Vec<Alternative>,
}

/// Sizings per arrangement that are reckoned with until they are known.
const USUAL_SIZINGS: u64 = 3;

impl TwoSpeedTask {
    /// Begins.
    ///
    /// # Errors
    /// Where the layout has no source or no load, or what is wanted makes no sense.
    pub fn begin(job: &TwoSpeedJob) -> Result<Self, JobProblem> {
        let layout = layout_of(&job.layout)?;
        let ends = Ends::of(&layout)?.with_switch(&layout);
        let in_range = |value: f64, from: f64, to: f64| value.is_finite() && value > from && value <= to;
        if !in_range(job.tolerance, 0.0, 0.2) {
            return Err(super::ends::asked("A tolerance lies between 0 and 20 %."));
        }
        if !in_range(job.mesh_efficiency, 0.0, 1.0) {
            return Err(super::ends::asked(
                "The efficiency of a mesh lies between 0 and 100 %.",
            ));
        }
        Ok(Self {
            wanted: wanted::ratios_for(&layout, &job.wanted, job.mesh_efficiency)?,
            stock: Stock::of(&job.bin),
            job: job.clone(),
            layout,
            ends,
            present: None,
            unsized_kinds: Arrangement::ALL.into_iter().collect(),
            unsolved: VecDeque::new(),
            done: 0,
            found: Vec::new(),
        })
    }

    fn size(&mut self, arrangement: Arrangement) {
        let mut rings = self.job.rings.clone();
        rings.extend(self.ends.planetary.as_ref().map(|set| set.ring_teeth));
        rings.sort_unstable();
        rings.dedup();
        let question = Question {
            stock: &self.stock,
            rings: &rings,
            wanted: self.wanted,
            tolerance: self.job.tolerance,
            starts: self.ends.worm_starts(),
        };
        self.unsolved.extend(question.sizings(arrangement));
    }

    /// Solves a sizing and keeps it if it is the best of its arrangement.
    fn solve(&mut self, sizing: &Sizing) {
        let Some(alternative) = self.measured(sizing) else {
            return;
        };
        let comes_near = |it: &Alternative| it.errors[1].abs() < it.errors[0].abs();
        let same = |other: &Alternative| {
            // Of a step that can't be chosen there are two: low as wanted, and high as wanted.
            other.arrangement == alternative.arrangement
                && (other.reaches || alternative.reaches || comes_near(other) == comes_near(&alternative))
        };
        match self.found.iter_mut().find(|other| same(other)) {
            Some(other) if ranking::order(&alternative, other).is_lt() => *other = alternative,
            Some(_) => {}
            None => self.found.push(alternative),
        }
        let present = self.present.as_ref().and_then(|gears| gears.first());
        ranking::arrange(&mut self.found, present);
    }

    fn measured(&self, sizing: &Sizing) -> Option<Alternative> {
        let layout = Layout {
            title: self.ends.title.clone(),
            ..build::layout(sizing, &self.ends, self.job.mesh_efficiency)
        };
        let ids = EndIds::of(&layout)?;
        let [low, high] = <[Gear; 2]>::try_from(gears(&layout, &ids)).ok()?;
        let pair = [low, high];
        let errors = [0, 1].map(|gear| pair[gear].ratio / self.wanted[gear] - 1.0);
        Some(Alternative {
            arrangement: sizing.arrangement,
            reaches: self.reaches(&pair, errors),
            parts: ranking::count(&layout, sizing),
            missing: ranking::missing(sizing, &self.ends),
            switching: self.ends.switching(sizing.arrangement),
            layout: encode(&layout),
            gears: pair,
            errors,
        })
    }

    fn reaches(&self, gears: &[Gear; 2], errors: [f64; 2]) -> bool {
        let tolerance = self.job.tolerance;
        match self.job.wanted {
            WantedSpeeds::Ratios(_) => errors.iter().all(|error| error.abs() <= tolerance * (1.0 + 1e-9)),
            WantedSpeeds::PullAndSpeed { pull, speed } => {
                let enough = |value: Option<f64>, wanted: f64| {
                    value.is_some_and(|value| value >= wanted * (1.0 - tolerance))
                };
                enough(gears[0].pull.or(gears[0].torque), pull) && enough(gears[1].speed, speed)
            }
        }
    }
}

impl Steps for TwoSpeedTask {
    fn advance(&mut self) -> bool {
        self.done += 1;
        if self.present.is_none() {
            let ids = EndIds {
                source: self.ends.source.id.clone(),
                load: self.ends.load.id.clone(),
                source_shaft: self.ends.source_shaft.id.clone(),
                load_shaft: self.ends.load_shaft.id.clone(),
            };
            self.present = Some(low_and_high(&self.layout, &ids));
        } else if let Some(sizing) = self.unsolved.pop_front() {
            self.solve(&sizing);
        } else if let Some(arrangement) = self.unsized_kinds.pop_front() {
            self.size(arrangement);
        }
        self.present.is_some() && self.unsolved.is_empty() && self.unsized_kinds.is_empty()
    }

    fn progress(&self) -> Progress {
        let to_size = u64::try_from(self.unsized_kinds.len()).unwrap_or(u64::MAX);
        let to_solve = u64::try_from(self.unsolved.len()).unwrap_or(u64::MAX);
        let left = u64::from(self.present.is_none()) + to_size * (1 + USUAL_SIZINGS) + to_solve;
        Progress {
            done: self.done,
            of: self.done + left,
        }
    }

    fn answer(&self) -> Answer {
        Answer::TwoSpeeds(TwoSpeedAnswer {
            wanted: self.wanted,
            present: self.present.clone().unwrap_or_default(),
            found: self.found.clone(),
        })
    }
}
