//! Lines of a label before they have a place: what they say and how wide that is.

use super::items::{Label, LabelLine, Run, RunContent};
use crate::geometry::{Point, Rect};
use crate::numbers::{Measure, RatioText};
use crate::target::{FieldRef, Target};

/// Size of a label's letters; drawings are to set them in this size, so that the room kept is right.
pub const FONT_SIZE: f64 = 12.0;
/// Height of a line.
pub const LINE_HEIGHT: f64 = 16.0;
/// Space between pieces of a line.
const GAP: f64 = 5.0;
/// Least width of a number that can be edited: a finger must find it.
const EDIT_WIDTH: f64 = 22.0;

/// Lines of pieces without a place.
pub type Lines = Vec<Vec<RunContent>>;

/// Width of a text in bench units. A fair estimate for a sans face with tabular figures; the true one is the
/// browser's secret, so it errs to the wide side.
#[must_use]
pub fn text_width(text: &str) -> f64 {
    text.chars().map(|c| letter_width(c) * FONT_SIZE).sum()
}

fn letter_width(letter: char) -> f64 {
    match letter {
        '\u{202F}' | '\u{2009}' => 0.2,
        ' ' | '.' | ',' | ':' | '·' | 'i' | 'l' | 'j' | '\'' | '|' => 0.31,
        'f' | 't' | 'r' | '(' | ')' | '-' | '/' => 0.39,
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 0.9,
        '0'..='9' | '−' | '×' | '≈' | '+' | '°' => 0.6,
        'A'..='Z' => 0.68,
        _ => 0.57,
    }
}

/// The width of a piece.
#[must_use]
pub fn run_width(content: &RunContent) -> f64 {
    match content {
        RunContent::Text(text) | RunContent::Quiet(text) => text_width(text),
        RunContent::Name(text) => text_width(text) * 1.07,
        RunContent::Ratio(ratio) => text_width(&ratio.text()),
        RunContent::Edit { text, .. } => (text_width(text) + 6.0).max(EDIT_WIDTH),
        RunContent::Blank => 26.0,
    }
}

/// Words.
#[must_use]
pub fn text(text: impl Into<String>) -> RunContent {
    RunContent::Text(text.into())
}

/// An answer, or a blank while answers are hidden.
#[must_use]
pub fn answer(hide: bool, measure: &Measure) -> RunContent {
    if hide {
        RunContent::Blank
    } else {
        RunContent::Text(measure.text())
    }
}

/// A ratio, or a blank while answers are hidden.
#[must_use]
pub fn ratio(hide: bool, ratio: RatioText) -> RunContent {
    if hide {
        RunContent::Blank
    } else {
        RunContent::Ratio(ratio)
    }
}

/// A number that can be edited.
#[must_use]
pub fn edit(field: FieldRef, text: impl Into<String>, spoken: impl Into<String>) -> RunContent {
    RunContent::Edit {
        field,
        text: text.into(),
        spoken: spoken.into(),
    }
}

/// Width and height of some lines.
#[must_use]
pub fn room(lines: &Lines) -> (f64, f64) {
    let width = lines.iter().map(|line| line_width(line)).fold(0.0, f64::max);
    (width, lines.len() as f64 * LINE_HEIGHT)
}

fn line_width(line: &[RunContent]) -> f64 {
    let gaps = line.len().saturating_sub(1) as f64 * GAP;
    line.iter().map(run_width).sum::<f64>() + gaps
}

/// Gives lines their place: every line centred in the room.
#[must_use]
pub fn set(
    lines: Lines,
    target: Target,
    suffix: &str,
    bounds: Rect,
    leader: Option<(Point, Point)>,
) -> Label {
    let lines = lines
        .into_iter()
        .enumerate()
        .map(|(n, contents)| {
            let mut x = bounds.x + (bounds.width - line_width(&contents)) / 2.0;
            let runs = contents
                .into_iter()
                .map(|content| {
                    let width = run_width(&content);
                    let run = Run { x, width, content };
                    x += width + GAP;
                    run
                })
                .collect();
            LabelLine {
                baseline: bounds.y + n as f64 * LINE_HEIGHT + LINE_HEIGHT * 0.75,
                runs,
            }
        })
        .collect();
    Label {
        key: format!("{}-{suffix}", target.key()),
        target,
        bounds,
        lines,
        leader,
    }
}
