//! The arithmetic of a ratio, typeset line by line, with its answers shown or left blank.

use layshaft_layout::Id;

use crate::numbers::RatioText;
use crate::target::Target;

/// The working of one ratio.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkingSheet {
    /// The shaft.
    pub shaft: Id,
    /// `Ratio of drum to motor, position First`.
    pub title: String,
    /// One line per step.
    pub lines: Vec<Line>,
    /// Shafts whose working can be shown instead.
    pub shafts: Vec<Id>,
}

/// A line of a working.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Why this step: `g1 meshes externally: the sense turns round`.
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
    /// The name of a shaft: set as a subscript of its speed.
    Speed(Id),
    /// The answer of the line, set strong.
    Answer(RatioText),
    /// An answer with unknowns still in it: pieces set strong.
    Open(Vec<Piece>),
    /// A blank in place of the answer.
    Blank,
}
