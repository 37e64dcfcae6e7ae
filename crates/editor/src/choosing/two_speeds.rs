//! Arrangements with two speeds: what is wanted, and what was found.
//!
//! What is typed becomes a job in `ask`, an answer becomes rows in `rows` and `facts`.

pub(crate) mod ask;
mod facts;
pub(crate) mod rows;

use std::collections::BTreeMap;
use std::ops::Range;
use std::rc::Rc;

use layshaft_choose::alternatives::{TwoSpeedAnswer, TwoSpeedJob};
use layshaft_layout::Layout;

use super::{Choice, Entry, Typed};
use crate::units::Units;
use ask::Defaults;

/// A field.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TwoSpeedsField {
    /// Ratio in low.
    Low,
    /// Ratio in high.
    High,
    /// Pull in low.
    Pull,
    /// Speed in high.
    Speed,
    /// Efficiency of a mesh.
    Efficiency,
    /// Largest error of a ratio.
    Tolerance,
    /// Ring gears that could be had.
    Rings,
}

/// What the wanted speeds are said by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum WantedBy {
    /// Ratios in low and high.
    #[default]
    Ratios,
    /// Pull in low, speed in high.
    PullAndSpeed,
}

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum TwoSpeedsInput {
    /// The wanted speeds are said by this.
    By(WantedBy),
    /// A field holds this text.
    Type(TwoSpeedsField, String),
    /// All fields as the layout has them.
    AsNow,
    /// The arrangement of this place is put on the bench.
    Open(usize),
}

/// What a session keeps about it.
#[derive(Clone, Debug, Default)]
pub struct State {
    pub(crate) by: WantedBy,
    pub(crate) typed: BTreeMap<TwoSpeedsField, Typed>,
    /// What empty fields mean for the layout seen last.
    pub(crate) defaults: Option<Rc<Defaults>>,
    /// The layout seen last; while it is the same, nothing of it has to be looked at again.
    pub(crate) seen: Option<Rc<Layout>>,
    /// Something was typed since the last job.
    pub(crate) stale: bool,
    pub(crate) asked: Option<Rc<TwoSpeedJob>>,
    pub(crate) answer: Option<Rc<TwoSpeedAnswer>>,
    pub(crate) found: Option<Rc<Found>>,
    /// The layout that this is about, what was asked, and the units in which it is told.
    pub(crate) told: Option<(Rc<Layout>, Rc<TwoSpeedJob>, Units)>,
    /// The arrangement that was put on the bench, with its text there.
    pub(crate) opened: Option<(usize, Rc<str>)>,
}

/// What it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct TwoSpeedsSheet {
    /// What the wanted speeds are said by.
    pub by: Choice,
    /// What is wanted.
    pub wanted: Vec<(TwoSpeedsField, Entry)>,
    /// What is reckoned with.
    pub reckoned: Vec<(TwoSpeedsField, Entry)>,
    /// Which gears are used.
    pub gears: String,
    /// What is not reckoned with.
    pub left_out: &'static str,
    /// Something was typed: all can be as the layout has it.
    pub can_reset: bool,
    /// What to do where nothing can be asked.
    pub empty: Option<String>,
    /// What was found.
    pub found: Option<Rc<Found>>,
    /// The place of the arrangement that is on the bench.
    pub on_bench: Option<usize>,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The most important of it, as a sentence.
    pub lead: String,
    /// What goes with it, sentence by sentence: the rule, and what is stronger but set aside.
    pub beside: Vec<String>,
    /// What the columns are.
    pub columns: [String; 4],
    /// The layout asked about.
    pub present: Option<Row>,
    /// Arrangements group by group, in each the best first.
    pub rows: Vec<Row>,
    /// The groups, none of them empty.
    pub groups: Vec<Group>,
}

/// Arrangements that stand alike against the layout asked about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// Its name with how many there are.
    pub title: String,
    /// What they have in common.
    pub note: String,
    /// Their places among all rows.
    pub places: Range<usize>,
}

/// A layout in numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// How it works; of the layout asked about: which positions its low and high are.
    pub works: String,
    /// Pull in low and high, speed in high, efficiency in low.
    pub figures: [Figure; 4],
    /// Why it is not among those that beat what is there.
    pub why: Option<String>,
    /// Facts with their names.
    pub facts: Vec<Fact>,
    /// What speaks against it.
    pub catches: Vec<String>,
}

/// A fact with its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fact {
    /// Its name.
    pub name: &'static str,
    /// What it is, line by line.
    pub lines: Vec<String>,
    /// What only some want to know.
    pub small: Option<String>,
}

/// A number with what it is over the layout asked about.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Number and unit.
    pub text: String,
    /// By how much it is more.
    pub gain: Option<String>,
    /// Whether that is better, where it differs.
    pub better: Option<bool>,
}
