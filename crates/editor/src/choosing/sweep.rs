//! One or two inputs over a range: what is varied, what is looked at, the plot and its marks.
//!
//! What can be varied is in [`variables`], how an answer becomes a plot in [`plot`], what it comes to in [`verdict`], a map over
//! two inputs in [`plane`]; the session's part is in `session::choosing::sweep`.

pub mod plane;
pub mod plot;
pub mod variables;
pub mod verdict;

use std::rc::Rc;

use layshaft_choose::map::{MapAnswer, MapJob};
use layshaft_choose::sweep::{SweepAnswer, SweepJob};
use layshaft_choose::{Input, Output};
use layshaft_layout::{Id, Layout};

use super::entry::{Choice, Entry};
use crate::chart::field::FieldMap;
use crate::chart::{Carry, Chart, Reading};
use crate::units::Units;

pub use variables::Variable;

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum SweepInput {
    /// Vary this: the part opens with it.
    Vary(Input),
    /// Vary what has this path.
    Choose(String),
    /// Vary what has this path besides; empty for nothing.
    Also(String),
    /// Text was typed that inputs are looked for by.
    Find(String),
    /// Text was typed into a field.
    Type(SweepField, String),
    /// A field was left.
    Keep,
    /// Look at what has this path, or no longer.
    Look(String, bool),
    /// Look at what has this path only.
    LookAt(String),
    /// The map is to be of this position.
    In(String),
    /// The mark of the present value is carried.
    Carry(Carry),
    /// Gears are wanted for the ratio that the mark was carried to.
    FindGears,
}

/// A field of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SweepField {
    /// First value.
    From,
    /// Last value.
    To,
    /// Efficiency of plain gears instead of a worm.
    Plain,
    /// First value of the second input.
    AlsoFrom,
    /// Last value of the second input.
    AlsoTo,
}

/// What is asked.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Asked {
    /// What is varied; none: what suggests itself.
    pub what: Option<Input>,
    /// What is varied besides.
    pub also: Option<Input>,
    /// Ends of the range, where typed.
    pub ends: [Option<f64>; 2],
    /// Ends of the second range, where typed.
    pub also_ends: [Option<f64>; 2],
    /// Efficiency of plain gears: none: not typed; some none: left empty.
    pub plain: Option<Option<f64>>,
    /// What is looked at; empty: what suggests itself.
    pub outputs: Vec<Output>,
    /// Position of a map; none: the one shown.
    pub position: Option<Id>,
}

/// Work that was asked for, with what is needed to show its answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Asking {
    /// The layout as it was when asked.
    pub layout: Rc<Layout>,
    /// What is varied.
    pub variable: Variable,
    /// What is to be computed.
    pub work: Work,
}

/// What is to be computed.
#[derive(Clone, Debug, PartialEq)]
pub enum Work {
    /// A sweep.
    Sweep(SweepJob),
    /// A map over two inputs.
    Map(Box<(MapJob, Variable)>),
}

impl Asking {
    /// Whether another question is about the same number of the same layout.
    #[must_use]
    pub fn is_of(&self, other: &Self) -> bool {
        self.variable.input == other.variable.input && self.layout_file() == other.layout_file()
    }

    fn layout_file(&self) -> &str {
        match &self.work {
            Work::Sweep(job) => &job.layout,
            Work::Map(work) => &work.0.layout,
        }
    }
}

/// An answer that is shown.
#[derive(Clone, Debug)]
pub enum Shown {
    /// Of a sweep; whether it is whole.
    Sweep(Rc<Asking>, Rc<SweepAnswer>, bool),
    /// Of a map.
    Map(Rc<Asking>, Rc<MapAnswer>),
}

/// A text that is being typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Typing {
    /// The field.
    pub field: SweepField,
    /// Its text.
    pub text: String,
    /// What is wrong with it.
    pub problem: Option<String>,
}

/// What is wanted, and from what that followed.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// The layout shown.
    pub layout: Rc<Layout>,
    /// What was chosen and typed.
    pub asked: Asked,
    /// The position shown.
    pub position: Id,
    /// The question; none where there is nothing to vary.
    pub asking: Option<Rc<Asking>>,
}

/// What a session keeps about it.
#[derive(Clone, Debug, Default)]
pub struct State {
    pub(crate) asked: Asked,
    pub(crate) find: String,
    pub(crate) typing: Option<Typing>,
    /// The layout whose inputs are listed.
    pub(crate) listed: Option<Rc<Layout>>,
    pub(crate) variables: Rc<Vec<Variable>>,
    /// Ranges that suggested themselves when inputs were chosen: they stay while the inputs' own values move within them.
    pub(crate) suggested: Vec<(Input, [f64; 2])>,
    /// What is wanted now.
    pub(crate) wanted: Option<Wanted>,
    /// What was asked last, whether or not it has come.
    pub(crate) asking: Option<Rc<Asking>>,
    /// Whether something of it has come.
    pub(crate) delivered: bool,
    pub(crate) shown: Option<Shown>,
    pub(crate) chart: Option<Rc<Chart>>,
    pub(crate) map: Option<Rc<FieldMap>>,
    /// Where the mark of a ratio as such was carried to.
    pub(crate) carried: Option<f64>,
    /// Where it stood when the gesture began that carries it now.
    pub(crate) began: Option<Option<f64>>,
    /// Whether the layout is being changed by carrying the mark.
    pub(crate) carrying: bool,
    /// Layout, width, place of the mark and units that the picture was drawn for.
    pub(crate) drawn: Option<(Rc<Layout>, f64, Option<f64>, Units)>,
    /// What was said last.
    pub(crate) said: String,
}

/// A number that can be looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct OutputRow {
    /// Its path.
    pub path: String,
    /// Its name.
    pub name: String,
    /// Whether it is looked at.
    pub on: bool,
    /// Whether it is among the few that most builders ask for.
    pub usual: bool,
}

/// What it shows.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct SweepSheet {
    /// Why there is nothing to be seen; empty where there is.
    pub empty: String,
    /// What can be varied.
    pub inputs: Choice,
    /// The text that inputs are looked for by.
    pub find: Entry,
    /// Inputs found by it: path and name.
    pub found: Vec<(String, String)>,
    /// What can be varied besides.
    pub also: Choice,
    /// Fields.
    pub fields: Vec<(SweepField, Entry)>,
    /// What can be looked at.
    pub outputs: Vec<OutputRow>,
    /// The one number that a map is of.
    pub output: Choice,
    /// Positions that a map can be of; none where there is one only.
    pub positions: Choice,
    /// What the plot comes to, in words: sentences.
    pub verdict: Vec<String>,
    /// The plot.
    pub chart: Option<Rc<Chart>>,
    /// The map.
    pub map: Option<Rc<FieldMap>>,
    /// What the mark of the present value is, for its control.
    pub carried: String,
    /// Values at the mark while it is away from what the layout has.
    pub tried: Option<Reading>,
    /// What the button says that takes the mark back; empty where it is where it belongs.
    pub back: String,
    /// What the button says that keeps a field's value where the mark is; empty where nothing is to be kept.
    pub keep: String,
    /// What the button that looks for gears says; none where there is nothing to look for.
    pub gears: Option<String>,
    /// Why for that ratio.
    pub gears_why: String,
    /// Name of files.
    pub file: String,
}
