//! The arithmetic of a ratio, typeset line by line, with its answers shown or left blank.
//!
//! A blank would be worthless if a later line gave it away, so a line uses a speed's value only where that value can
//! already be read above it, and the shaft's name everywhere else.

mod expression;
mod lines;

use std::collections::BTreeSet;

use layshaft_layout::{Id, Layout};
use layshaft_report::Working;

use crate::numbers::{MINUS, RatioText};
use crate::target::Target;

/// The working of one ratio.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkingSheet {
    /// The shaft.
    pub shaft: Id,
    /// `Ratio of drum to motor in First`.
    pub title: String,
    /// One line per step; a step of a planetary set takes three.
    pub lines: Vec<Line>,
    /// Shafts whose working can be shown instead.
    pub shafts: Vec<Id>,
}

/// A line of a working.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Why this step: `g1: 14 teeth on motor turn 42 on mid`. Empty on lines that go on with the step above.
    pub reason: String,
    /// The arithmetic.
    pub pieces: Vec<Piece>,
    /// What to light up while this line is pointed at.
    pub places: Vec<Target>,
    /// Whether its answer is hidden; `Input::Reveal(n)` shows it.
    pub hidden: bool,
    /// The line as a screen reader should say it.
    pub spoken: String,
}

/// A piece of typeset arithmetic.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// Plain text: signs, brackets, words.
    Text(String),
    /// A fraction: what stands above and below the line.
    Fraction(String, String),
    /// The speed of a shaft: the letter n with the shaft's name as its subscript.
    Speed(Id),
    /// The answer of the line, set strong.
    Answer(RatioText),
    /// An answer with unknowns still in it: pieces set strong.
    Open(Vec<Piece>),
    /// A blank in place of the answer.
    Blank,
}

impl Piece {
    fn text(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }

    fn spoken(&self) -> String {
        match self {
            Self::Text(text) => text
                .replace(MINUS, " minus ")
                .replace('×', " times ")
                .replace('=', " equals "),
            Self::Fraction(above, below) => format!(" {above} over {below} "),
            Self::Speed(shaft) => format!(" speed of {shaft} "),
            Self::Answer(ratio) => format!(" {} ", ratio.spoken()),
            Self::Open(pieces) => pieces.iter().map(Self::spoken).collect(),
            Self::Blank => " blank ".to_owned(),
        }
    }
}

/// Typesets a working. `revealed` are the lines whose answers are shown although answers are hidden.
#[must_use]
pub fn sheet(
    layout: &Layout,
    working: &Working,
    position_name: &str,
    hide_answers: bool,
    revealed: &BTreeSet<usize>,
) -> WorkingSheet {
    let mut setter = lines::Setter::new(layout, hide_answers, revealed);
    for step in &working.steps {
        setter.step(step);
    }
    WorkingSheet {
        shaft: working.shaft.clone(),
        title: format!(
            "Ratio of {} to {} in {position_name}",
            working.shaft, working.drive
        ),
        lines: setter.finish(),
        shafts: layout
            .shafts
            .iter()
            .map(|shaft| shaft.id.clone())
            .filter(|id| *id != working.drive || *id == working.shaft)
            .collect(),
    }
}

fn spoken(pieces: &[Piece]) -> String {
    let joined: String = pieces.iter().map(Piece::spoken).collect();
    joined.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests;
