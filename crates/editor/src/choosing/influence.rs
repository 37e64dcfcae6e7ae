//! Which inputs move a result, and how far results are known.
//!
//! How inputs are called is in [`names`], what an answer becomes in [`bars`] and [`certain`], ranges that were typed in
//! [`doubts`]; the session's part is in `session::choosing::influence`.

pub mod bars;
pub mod certain;
pub mod doubts;
pub mod names;

use std::rc::Rc;

use layshaft_choose::sensitivity::SensitivityAnswer;
use layshaft_choose::uncertainty::UncertaintyAnswer;
use layshaft_choose::{Input, Output};
use layshaft_layout::{Id, Layout};
use layshaft_report::State as Standstill;

use super::{Choice, Entry};
use crate::units::Units;
use crate::wording::choosing_influence as words;
use bars::Bar;
use certain::CertainRow;
use doubts::TypedDoubt;
use names::Names;

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum InfluenceInput {
    /// Ask after the result with this path.
    Ask(String),
    /// Ask in this position.
    In(String),
    /// Show all bars, or the longest only.
    ShowAll(bool),
    /// Take a range for what has this path.
    Doubt(String),
    /// Take a range for every efficiency and friction.
    DoubtLosses,
    /// Take the range of what has this path away.
    Trust(String),
    /// Text was typed into a field.
    Type(InfluenceField, String),
}

/// A field of the part.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub enum InfluenceField {
    /// The range of what has this path.
    Range(String),
    /// How many draws.
    #[default]
    Samples,
    /// Where the draws begin.
    Seed,
}

/// What a session keeps about it.
#[derive(Clone, Debug, Default)]
pub struct State {
    /// The result asked after; none: the first that there is.
    pub(crate) output: Option<Output>,
    /// The position; none: the one shown.
    pub(crate) position: Option<Id>,
    pub(crate) show_all: bool,
    pub(crate) doubts: Rc<Vec<TypedDoubt>>,
    pub(crate) samples: Option<String>,
    pub(crate) seed: Option<String>,
    /// The layout that was looked at last, the position in which, and whether answers were hidden.
    pub(crate) seen: Option<(Rc<Layout>, Id, bool)>,
    /// What was asked has changed since.
    pub(crate) stale: bool,
    pub(crate) names: Rc<Names>,
    /// The result as it is and what moves it; none where nothing was asked.
    pub(crate) found: Option<Rc<Found>>,
    /// What that was told from, and in which units.
    pub(crate) answered: Option<(Answered, Units)>,
    /// What was looked at in the draws, and what came of them.
    pub(crate) drawn: Option<(Rc<Vec<Output>>, Rc<UncertaintyAnswer>)>,
    pub(crate) drawn_outputs: Rc<Vec<Output>>,
}

/// What was asked after and what came of it.
#[derive(Clone, Debug)]
pub struct Answered {
    /// The result.
    pub output: Output,
    /// The position that it was asked in.
    pub position: String,
    /// There are others.
    pub several: bool,
    /// The state there.
    pub state: Option<Standstill>,
    /// How inputs were called.
    pub names: Rc<Names>,
    /// What came of it.
    pub answer: Rc<SensitivityAnswer>,
}

impl Answered {
    /// In words and numbers of these units.
    #[must_use]
    pub fn told(&self, units: Units) -> Found {
        let head = match self.answer.present.filter(|value| *value != 0.0) {
            Some(value) => {
                let position = self.several.then_some(self.position.as_str());
                words::head(&self.output, position, value, units)
            }
            None => words::no_result(&self.output, &self.position, self.state),
        };
        Found {
            head,
            bars: bars::bars(&self.answer, &self.names, units),
            tried: self.answer.influences.len(),
        }
    }
}

/// A result and what moves it.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// `Greatest pull in First: 4.29 N`.
    pub head: String,
    /// The inputs that move it, the most important first.
    pub bars: Vec<Bar>,
    /// How many are tried in all.
    pub tried: usize,
}

/// What it shows.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct InfluenceSheet {
    /// Why there is nothing to show, and what would help.
    pub empty: Option<String>,
    /// The results that can be asked after.
    pub output: Choice,
    /// The positions, where there are several.
    pub position: Option<Choice>,
    /// The result as it is.
    pub head: String,
    /// What moves it.
    pub bars: Vec<Bar>,
    /// How the bars are read.
    pub key: &'static str,
    /// What is not among them.
    pub note: String,
    /// A button that shows all bars or few, with what it does.
    pub more: Option<(String, bool)>,
    /// How far results are known.
    pub certainty: CertaintySheet,
}

/// How far results are known.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct CertaintySheet {
    /// What this is, or what to do first.
    pub lead: String,
    /// The ranges.
    pub ranges: Vec<RangeRow>,
    /// Inputs that have none yet.
    pub add: Option<Choice>,
    /// The button that takes a range for all losses, where some are left without.
    pub doubt_losses: Option<String>,
    /// Results with their quantiles.
    pub rows: Vec<CertainRow>,
    /// What befell the draws besides.
    pub notes: Vec<String>,
    /// How many draws, and where they begin.
    pub settings: [(InfluenceField, Entry); 2],
}

/// A range.
#[derive(Clone, Debug, PartialEq)]
pub struct RangeRow {
    /// The path of its input.
    pub path: String,
    /// What it is of.
    pub name: String,
    /// `0.30 to 0.60`; empty where what was typed is none.
    pub range: String,
    /// Where it is from; empty where it was typed.
    pub source: String,
    /// The field of a typed one.
    pub entry: Option<Entry>,
}

/// An input of the page.
#[must_use]
pub fn vary(input: &Input) -> super::SweepInput {
    super::SweepInput::Vary(input.clone())
}
