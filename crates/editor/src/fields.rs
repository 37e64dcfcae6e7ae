//! The fields of what is selected, and what typing into one does.

use crate::numbers::{Measure, RatioText};
use crate::target::{FieldRef, Target};

/// What the details panel shows of what is selected.
#[derive(Clone, Debug, PartialEq)]
pub struct Details {
    /// The thing.
    pub target: Target,
    /// Its name and kind: `g1, gear mesh`.
    pub title: String,
    /// What it does, in one sentence.
    pub help: &'static str,
    /// Its fields.
    pub fields: Vec<Field>,
    /// Its results in the current position.
    pub results: Vec<ResultRow>,
    /// Shafts whose ratio has a working to be shown.
    pub workings: Vec<layshaft_layout::Id>,
    /// Cautions that belong to it.
    pub cautions: Vec<&'static str>,
}

/// A result in the details panel.
#[derive(Clone, Debug, PartialEq)]
pub struct ResultRow {
    /// What it is.
    pub label: String,
    /// Its value.
    pub value: ResultValue,
}

/// The value of a result.
#[derive(Clone, Debug, PartialEq)]
pub enum ResultValue {
    /// A number with its unit.
    Number(Measure),
    /// An exact ratio.
    Ratio(RatioText),
    /// Words.
    Text(String),
    /// Hidden until asked for.
    Blank,
}

/// A field.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// Which field.
    pub field: FieldRef,
    /// Its label.
    pub label: String,
    /// The unit that a bare number is read in; empty where there is none.
    pub unit: &'static str,
    /// Its current text.
    pub text: String,
    /// What it means, and what is taken where it is left empty.
    pub hint: &'static str,
    /// How it is edited.
    pub kind: FieldKind,
    /// What is wrong with what was typed; the last good value stays in force.
    pub problem: Option<String>,
}

/// How a field is edited.
#[derive(Clone, Debug, PartialEq)]
pub enum FieldKind {
    /// A number; arrow keys step it by this much.
    Number {
        /// The step.
        step: f64,
        /// Whether it may be left empty.
        optional: bool,
    },
    /// One of a few words: value in the file and name for people.
    Choice(Vec<(String, String)>),
    /// A shaft, or the frame where allowed: value and name.
    Shaft(Vec<(String, String)>),
    /// On or off; the text is `true` or `false`.
    Toggle,
    /// Free text.
    Text,
    /// Free text over several lines.
    LongText,
}
