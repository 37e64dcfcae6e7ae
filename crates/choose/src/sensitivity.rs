//! Which inputs move a result: its relative change per one per cent of each.
//!
//! Every numeric field that is there and not 0 is moved a little, the gears of a connection by its ratio as such, because a
//! single tooth is no little. Tooth counts of sets with a carrier stay.

use layshaft_layout::{Id, Layout, Rule, SHAFT, Table, kind_named};
use serde::{Deserialize, Serialize};

use crate::input::has_ratio;
use crate::materials::pairs_in_use;
use crate::study::{Sample, Study};
use crate::task::{Answer, JobProblem, Progress, Steps, layout_of};
use crate::{Input, Output};

/// A question after influence.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SensitivityJob {
    /// The layout, as its file.
    pub layout: String,
    /// The result.
    pub output: Output,
    /// In which position.
    pub position: Id,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SensitivityAnswer {
    /// The result as it is.
    pub present: Option<f64>,
    /// Inputs, those that move it most first; those that don't move it last.
    pub influences: Vec<Influence>,
}

/// An input's influence.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Influence {
    /// The input.
    pub input: Input,
    /// Its value.
    pub at: f64,
    /// d ln(result) / d ln(input): per cent of the result per per cent of the input.
    pub relative: f64,
}

/// Relative step: its square is the error of a central difference, and the result is known to some twelve digits.
const STEP: f64 = 1e-4;
/// Numbers that have no relative change: a temperature's zero is a matter of its unit.
const NOT_RELATIVE: [&str; 1] = ["winding_c"];

/// The inputs of a layout that can be moved a little: those of its elements in document order, then those of its shafts and
/// of its pairs of materials.
#[must_use]
pub fn inputs_of(layout: &Layout) -> Vec<Input> {
    let mut inputs = Vec::new();
    for element in &layout.elements {
        let owner = format!("elements.{}", element.id);
        if has_ratio(&element.kind) {
            inputs.push(Input::Ratio {
                element: element.id.clone(),
                plain_gears: None,
            });
        }
        if let Some(kind) = kind_named(element.kind.word()) {
            inputs.extend(numbers_of(kind.table, &owner));
        }
    }
    for shaft in &layout.shafts {
        inputs.extend(numbers_of(&SHAFT, &format!("shafts.{}", shaft.id)));
    }
    let pairs = pairs_in_use(layout);
    inputs.extend(pairs.iter().map(|pair| Input::Friction(pair.name.to_owned())));
    let moves = |input: &Input| {
        input
            .present(layout)
            .is_ok_and(|value| value.is_finite() && value != 0.0)
    };
    inputs.retain(moves);
    inputs
}

fn numbers_of(table: &'static Table, owner: &str) -> impl Iterator<Item = Input> {
    let is_number = |rule: &Rule| matches!(rule, Rule::Number(_));
    let fields = table
        .fields
        .iter()
        .filter(move |field| is_number(&field.rule) && !NOT_RELATIVE.contains(&field.name));
    fields.map(move |field| Input::Field(format!("{owner}.{}", field.name)))
}

/// A question whose inputs can be asked one by one, in any order and on any thread.
#[derive(Clone, Debug)]
pub struct Sensitivity {
    study: Study,
    position: usize,
    inputs: Vec<Input>,
    present: Sample,
}

impl Sensitivity {
    /// Of a job.
    ///
    /// # Errors
    /// Where the layout can't be read or has no such position.
    pub fn new(job: &SensitivityJob) -> Result<Self, JobProblem> {
        let layout = layout_of(&job.layout)?;
        let inputs = inputs_of(&layout);
        let study = Study::new(layout, std::slice::from_ref(&job.output));
        let position = study.position(&job.position)?;
        Ok(Self {
            present: study.sample(position, &[]),
            study,
            position,
            inputs,
        })
    }

    /// The inputs.
    #[must_use]
    pub fn inputs(&self) -> &[Input] {
        &self.inputs
    }

    /// An input's influence, by its number: `ln(y₊ / y₋) / ln(x₊ / x₋)`, where one side lies beyond a limit or a corner the
    /// second-order difference of the other. None where the result is none or nothing, or there is no room on either side.
    #[must_use]
    pub fn influence(&self, input: usize) -> Option<Influence> {
        let input = &self.inputs[input];
        let at = input.present(self.study.layout()).ok()?;
        let present = self.present.values[0].filter(|value| *value != 0.0)?;
        // A step of so many; the value to eight digits, which a ratio as such has exactly.
        let beside = |steps: f64| -> Option<(f64, f64)> {
            let moved = eight_digits(at * (1.0 + steps * STEP));
            let sample = self.study.sample(self.position, &[(input, moved)]);
            let value = sample.values[0].filter(|value| value / present > 0.0)?;
            let same = sample.state == self.present.state && sample.limit == self.present.limit;
            same.then(|| (libm::log(moved / at), libm::log(value / present)))
        };
        let one_sided = |near: (f64, f64), sense: f64| {
            let far = beside(2.0 * sense)?;
            let slopes = [near, far].map(|(x, y)| y / x);
            // Each slope is off in proportion to its step.
            Some((slopes[0] * far.0 - slopes[1] * near.0) / (far.0 - near.0))
        };
        let relative = match (beside(1.0), beside(-1.0)) {
            (Some(above), Some(below)) => (above.1 - below.1) / (above.0 - below.0),
            (Some(above), None) => one_sided(above, 1.0)?,
            (None, Some(below)) => one_sided(below, -1.0)?,
            (None, None) => return None,
        };
        Some(Influence {
            input: input.clone(),
            at,
            relative,
        })
    }

    /// The answer made of influences.
    #[must_use]
    pub fn answer(&self, mut influences: Vec<Influence>) -> SensitivityAnswer {
        influences.sort_by(|a, b| b.relative.abs().total_cmp(&a.relative.abs()));
        SensitivityAnswer {
            present: self.present.values[0],
            influences,
        }
    }
}

fn eight_digits(value: f64) -> f64 {
    let places = 7.0 - libm::floor(libm::log10(value.abs()));
    if (0.0..=22.0).contains(&places) {
        let scale = libm::pow(10.0, places);
        return libm::round(value * scale) / scale;
    }
    value
}

/// A question under way, input by input.
pub struct SensitivityTask {
    question: Sensitivity,
    asked: usize,
    influences: Vec<Influence>,
}

impl SensitivityTask {
    /// Begins.
    ///
    /// # Errors
    /// As [`Sensitivity::new`].
    pub fn begin(job: &SensitivityJob) -> Result<Self, JobProblem> {
        Ok(Self {
            question: Sensitivity::new(job)?,
            asked: 0,
            influences: Vec::new(),
        })
    }
}

impl Steps for SensitivityTask {
    fn advance(&mut self) -> bool {
        if self.asked < self.question.inputs.len() {
            self.influences.extend(self.question.influence(self.asked));
            self.asked += 1;
        }
        self.asked == self.question.inputs.len()
    }

    fn progress(&self) -> Progress {
        Progress {
            done: self.asked as u64,
            of: self.question.inputs.len() as u64,
        }
    }

    fn answer(&self) -> Answer {
        Answer::Sensitivity(self.question.answer(self.influences.clone()))
    }
}
