//! How far results are known: ranges on inputs, drawn many times by a seeded generator, as quantiles of every result.
//!
//! Every value between the ends of a range is as likely as any other; of a count, every whole number. A sample depends on the seed and its number alone, so
//! that the same question has the same answer on any machine and with any number of threads.

mod draw;
mod summary;

use layshaft_layout::{Id, Layout};
use layshaft_report::State;
use serde::{Deserialize, Serialize};

use crate::materials::pairs_in_use;
use crate::study::{Sample, Study};
use crate::task::{Answer, JobProblem, Progress, Steps, layout_of};
use crate::{Input, Output};

/// A range of an input.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Doubt {
    /// The input.
    pub input: Input,
    /// Least value.
    pub least: f64,
    /// Greatest value.
    pub most: f64,
}

/// A question after certainty.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct UncertaintyJob {
    /// The layout, as its file.
    pub layout: String,
    /// Ranges typed; friction of material pairs brings its own, unless it is among these.
    pub doubts: Vec<Doubt>,
    /// What is looked at, in every position.
    pub outputs: Vec<Output>,
    /// How many draws.
    pub samples: usize,
    /// Seed: the same seed draws the same.
    pub seed: u64,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct UncertaintyAnswer {
    /// How many were drawn.
    pub samples: usize,
    /// The ranges drawn from, those of material pairs last.
    pub ranges: Vec<Doubt>,
    /// Per position and output.
    pub results: Vec<Certainty>,
    /// Per position the states met, the most frequent first.
    pub states: Vec<StateShare>,
}

/// How far one result is known.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Certainty {
    /// The position.
    pub position: Id,
    /// The output's number in the job.
    pub output: usize,
    /// Below these lie 5, 50 and 95 of a hundred samples; none where it applied in none.
    pub quantiles: Option<[f64; 3]>,
    /// Share of the samples in which the result applied at all.
    pub applies: f64,
    /// Samples per equal part from the least to the greatest, for drawing.
    pub histogram: Vec<u32>,
    /// The least and the greatest.
    pub extremes: [f64; 2],
}

/// How often a position was in a state.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StateShare {
    /// The position.
    pub position: Id,
    /// The state; none where the layout could not be computed.
    pub state: Option<State>,
    /// Share of the samples.
    pub share: f64,
}

/// Most samples of one question.
pub const MOST_SAMPLES: usize = 100_000;

/// The ranges that a layout brings with it: friction of the material pairs that its elements take theirs from, one value for
/// all elements of a pair.
#[must_use]
pub fn own_ranges(layout: &Layout) -> Vec<Doubt> {
    let range = |pair: &&'static layshaft_report::MaterialPair| Doubt {
        input: Input::Friction(pair.name.to_owned()),
        least: pair.friction[0],
        most: pair.friction[1],
    };
    pairs_in_use(layout).iter().map(range).collect()
}

/// A question whose samples can be had one by one, in any order and on any thread.
#[derive(Clone, Debug)]
pub struct Draws {
    study: Study,
    ranges: Vec<Doubt>,
    /// Per range, whether whole numbers alone are drawn.
    whole: Vec<bool>,
    seed: u64,
}

impl Draws {
    /// Of a job.
    ///
    /// # Errors
    /// Where layout or ranges make no sense.
    pub fn new(job: &UncertaintyJob) -> Result<Self, JobProblem> {
        let layout = layout_of(&job.layout)?;
        if !(1..=MOST_SAMPLES).contains(&job.samples) {
            return Err(JobProblem::Asked(format!(
                "{} samples can't be drawn. Take 1 to {MOST_SAMPLES} of them.",
                job.samples
            )));
        }
        let mut ranges = job.doubts.clone();
        let typed = |range: &Doubt| job.doubts.iter().any(|doubt| doubt.input == range.input);
        ranges.extend(own_ranges(&layout).into_iter().filter(|range| !typed(range)));
        for range in &ranges {
            let problem = range.input.present(&layout).err();
            if let Some(problem) = problem {
                return Err(JobProblem::Input(problem.to_string()));
            }
            check(range, range.input.is_whole(&layout))?;
        }
        Ok(Self {
            whole: ranges.iter().map(|range| range.input.is_whole(&layout)).collect(),
            study: Study::new(layout, &job.outputs),
            ranges,
            seed: job.seed,
        })
    }

    /// The values drawn for a sample, range by range.
    #[must_use]
    pub fn values(&self, sample: u64) -> Vec<f64> {
        let value = |(number, (range, whole)): (u64, (&Doubt, &bool))| {
            let share = draw::uniform(self.seed, sample, number);
            if *whole {
                let [first, last] = whole_ends(range);
                return (first + libm::floor((last - first + 1.0) * share)).min(last);
            }
            (range.least + (range.most - range.least) * share).clamp(range.least, range.most)
        };
        (0..)
            .zip(self.ranges.iter().zip(&self.whole))
            .map(value)
            .collect()
    }

    /// All positions in a sample.
    #[must_use]
    pub fn sample(&self, sample: u64) -> Vec<Sample> {
        let values = self.values(sample);
        let inputs = self.ranges.iter().map(|range| &range.input);
        let settings: Vec<(&Input, f64)> = inputs.zip(values).collect();
        self.study.samples(&settings)
    }

    /// The answer made of samples.
    #[must_use]
    pub fn answer(&self, samples: &[Vec<Sample>]) -> UncertaintyAnswer {
        let positions = self.study.positions().iter().enumerate();
        let results = positions.clone().flat_map(|(at, position)| {
            (0..self.study.outputs().len()).map(move |output| {
                let values = samples.iter().filter_map(|sample| sample[at].values[output]);
                summary::certainty(position, output, values.collect(), samples.len())
            })
        });
        let states = positions.clone().flat_map(|(at, position)| {
            let states = samples.iter().map(|sample| sample[at].state);
            summary::states(position, states.collect())
        });
        UncertaintyAnswer {
            samples: samples.len(),
            ranges: self.ranges.clone(),
            results: results.collect(),
            states: states.collect(),
        }
    }
}

/// The first and the last whole number of a range.
fn whole_ends(range: &Doubt) -> [f64; 2] {
    [libm::ceil(range.least), libm::floor(range.most)]
}

/// Whether a range is one.
fn check(range: &Doubt, whole: bool) -> Result<(), JobProblem> {
    let (path, [first, last]) = (range.input.path(), whole_ends(range));
    if range.least.is_nan() || range.most.is_nan() || range.least > range.most {
        return Err(JobProblem::Asked(format!(
            "{path}: The least value of a range may not lie above its greatest. Change one of them."
        )));
    }
    if !(range.most - range.least).is_finite() {
        return Err(JobProblem::Asked(format!(
            "{path}: The range is too wide. Bring its ends closer together."
        )));
    }
    if whole && first > last {
        return Err(JobProblem::Asked(format!(
            "{path}: No whole number lies between {} and {}. Widen the range.",
            range.least, range.most
        )));
    }
    Ok(())
}

/// A question under way, sample by sample.
pub struct UncertaintyTask {
    draws: Draws,
    wanted: usize,
    samples: Vec<Vec<Sample>>,
}

impl UncertaintyTask {
    /// Begins.
    ///
    /// # Errors
    /// As [`Draws::new`].
    pub fn begin(job: &UncertaintyJob) -> Result<Self, JobProblem> {
        Ok(Self {
            draws: Draws::new(job)?,
            wanted: job.samples,
            samples: Vec::with_capacity(job.samples),
        })
    }
}

impl Steps for UncertaintyTask {
    fn advance(&mut self) -> bool {
        if self.samples.len() < self.wanted {
            self.samples.push(self.draws.sample(self.samples.len() as u64));
        }
        self.samples.len() == self.wanted
    }

    fn progress(&self) -> Progress {
        Progress {
            done: self.samples.len() as u64,
            of: self.wanted as u64,
        }
    }

    fn answer(&self) -> Answer {
        Answer::Uncertainty(self.draws.answer(&self.samples))
    }
}
