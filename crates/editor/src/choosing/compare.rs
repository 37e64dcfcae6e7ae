//! Variants side by side: which they are, their rows, a plot of all.
//!
//! A variant is the bench as it is, or a layout kept aside. What stands in the rows is in `rows`, which parts a layout
//! needs in `bill`, how two values differ in `difference`, which position is held against which in `pairing`; what is plotted of all in `plot`, as what in `curves`.

mod bill;
mod curves;
mod difference;
mod pairing;
mod plot;
mod rows;
mod show;

use std::rc::Rc;

use layshaft_layout::{Id, Layout};
use layshaft_report::Report;

use super::{Choice, Entry};
use crate::chart::Chart;
use crate::table::Cell;
use crate::wording::report_error;

pub(crate) use curves::{chart, fields, offered};
pub use difference::{Difference, Trend};
pub(crate) use plot::{Asked, Axes, Common, PlotState, Plotted, Seen};
pub(crate) use show::{Side, sheet};

/// How many stand side by side at most.
pub(crate) const MOST: usize = 4;
/// Letters that they go by, in their order.
const LETTERS: [&str; MOST] = ["A", "B", "C", "D"];

/// Names a variant for the life of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct VariantNumber(pub u32);

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum CompareInput {
    /// This is to be added next, by its value in the list.
    Pick(String),
    /// What was picked is added.
    Add,
    /// The bench as it is now is kept as a variant.
    Keep,
    /// A file was opened to be compared.
    AddFile {
        /// The file's text.
        text: String,
        /// Its name.
        name: String,
    },
    /// A variant is taken away.
    Remove(VariantNumber),
    /// A name was typed for a variant; where it is empty, it has its first name again.
    Rename(VariantNumber, String),
    /// A variant is looked at in this position; in all where it is empty.
    Position(VariantNumber, String),
    /// The others are measured against this variant.
    Base(VariantNumber),
    /// A variant is put on the bench.
    PutOnBench(VariantNumber),
    /// The plot is to be over this input, by its value in the list.
    Over(String),
    /// The plot is to show this result, by its value in the list.
    Show(String),
    /// The first (0) or last (1) value of the input was typed.
    End(usize, String),
}

/// What a session keeps about it.
#[derive(Clone, Debug)]
pub struct State {
    pub(crate) variants: Rc<Vec<Variant>>,
    pub(crate) last_number: u32,
    /// What the others are measured against; none: what was kept of the bench, or the first.
    pub(crate) base: Option<VariantNumber>,
    /// What is to be added next.
    pub(crate) picked: String,
    /// Why a file could not be added.
    pub(crate) problem: Option<String>,
    pub(crate) plot: PlotState,
}

impl Default for State {
    /// The bench by itself: the others are to differ from it.
    fn default() -> Self {
        Self {
            variants: Rc::new(vec![Variant::default()]),
            last_number: 0,
            base: None,
            picked: String::new(),
            problem: None,
            plot: PlotState::default(),
        }
    }
}

/// A variant.
#[derive(Clone, Debug, Default)]
pub(crate) struct Variant {
    pub number: VariantNumber,
    /// The name typed for it.
    pub typed: Option<String>,
    /// What was kept aside; none: the bench as it is.
    pub kept: Option<Rc<Kept>>,
    /// The position looked at; none: all.
    pub position: Option<Id>,
}

/// A layout kept aside, with what is computed about it.
#[derive(Debug)]
pub(crate) struct Kept {
    pub name: String,
    pub layout: Rc<Layout>,
    pub report: Rc<Report>,
    /// Whether it lay on the bench: what has changed since is measured against it.
    pub is_older: bool,
    /// Why it can't be computed.
    pub problem: Option<String>,
}

impl Kept {
    /// Computes a layout and keeps it.
    pub fn new(name: String, layout: Rc<Layout>) -> Self {
        let (report, problem) = match layshaft_report::report(&layout) {
            Ok(report) => (report, None),
            Err(errors) => (
                Report::default(),
                errors.first().map(|error| report_error(error, &layout).headline),
            ),
        };
        Self {
            name,
            layout,
            report: Rc::new(report),
            is_older: false,
            problem,
        }
    }

    /// One that lay on the bench.
    pub fn older(name: String, layout: Rc<Layout>) -> Self {
        Self {
            is_older: true,
            ..Self::new(name, layout)
        }
    }
}

/// What it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct CompareSheet {
    /// What can be added; none where no more fit.
    pub adding: Option<Choice>,
    /// What to do, or why a file could not be added.
    pub hint: String,
    /// Whether the hint tells of something that went wrong.
    pub is_problem: bool,
    /// What each pulls at most, the strongest first; empty where that can't be compared.
    pub verdict: String,
    /// The variants from left to right.
    pub variants: Vec<VariantHead>,
    /// Their rows from top to bottom.
    pub rows: Vec<CompareRow>,
    /// A plot of all of them, where there are several that have something in common.
    pub plot: Option<ComparePlot>,
}

/// A plot of all variants with its fields.
#[derive(Clone, Debug, PartialEq)]
pub struct ComparePlot {
    /// The results that can be shown.
    pub seen: Choice,
    /// The inputs that all have.
    pub over: Choice,
    /// First and last value of the input.
    pub ends: [Entry; 2],
    /// The plot; none until something has been computed.
    pub chart: Option<Rc<Chart>>,
}

/// What stands over a variant's column.
#[derive(Clone, Debug, PartialEq)]
pub struct VariantHead {
    /// Which it is.
    pub number: VariantNumber,
    /// A name that is unique on the page, fit for an HTML id.
    pub key: String,
    /// The letter it goes by.
    pub letter: &'static str,
    /// Its name.
    pub name: String,
    /// Where it is from: `On the bench, changes with it`.
    pub origin: &'static str,
    /// Its positions, where there are several.
    pub positions: Option<Choice>,
    /// Why nothing is computed about it.
    pub problem: Option<String>,
    /// Whether it is what the others are measured against.
    pub is_base: bool,
    /// Whether it can be put on the bench.
    pub can_be_put: bool,
    /// Whether it can be taken away.
    pub can_be_removed: bool,
}

/// A row.
#[derive(Clone, Debug, PartialEq)]
pub struct CompareRow {
    /// What it shows: `Pull to keep moving`.
    pub label: &'static str,
    /// What that means.
    pub help: &'static str,
    /// Per variant its values, one per position looked at.
    pub cells: Vec<Vec<CompareValue>>,
}

/// A value.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct CompareValue {
    /// The position, where the variant has several values.
    pub position: String,
    /// The value.
    pub value: Cell,
    /// A second form of it: the decimal beside the fraction.
    pub also: String,
    /// How it differs from that of the variant that all are measured against.
    pub difference: Option<Difference>,
}

#[cfg(test)]
mod tests;
