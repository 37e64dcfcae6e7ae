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

/// Widths of the letters from space to tilde in thousandths of their size: regular weight of the page's face (Sofia
/// Sans Semi Condensed, `static/fonts/`) with tabular figures.
const WIDTHS: [u16; 95] = [
    203, 223, 321, 566, 596, 890, 629, 177, 258, 258, 400, 572, 226, 462, 224, 353, 603, 603, 603, 603, 603,
    603, 603, 603, 603, 603, 223, 228, 572, 572, 572, 447, 937, 534, 547, 601, 608, 509, 483, 620, 627, 241,
    248, 564, 454, 731, 628, 610, 520, 610, 573, 536, 510, 612, 555, 807, 524, 510, 516, 257, 353, 257, 480,
    497, 209, 470, 510, 490, 514, 493, 349, 490, 528, 223, 222, 468, 222, 800, 528, 508, 510, 514, 343, 440,
    370, 515, 472, 682, 456, 471, 441, 256, 243, 256, 572,
];

/// Width of a text in bench units, as the page's face sets it.
#[must_use]
pub fn text_width(text: &str) -> f64 {
    text.chars().map(|c| letter_width(c) * FONT_SIZE).sum()
}

fn letter_width(letter: char) -> f64 {
    let in_table = (letter as usize)
        .checked_sub(' ' as usize)
        .and_then(|place| WIDTHS.get(place));
    if let Some(width) = in_table {
        return f64::from(*width) / 1000.0;
    }
    match letter {
        '\u{202F}' | '\u{2009}' => 0.2,
        '·' => 0.234,
        '°' => 0.371,
        '−' | '×' => 0.572,
        '–' => 0.699,
        // Letters that the face does not have come from one of the reader's own; most of those are wider.
        _ => 0.65,
    }
}

/// The width of a piece.
#[must_use]
pub fn run_width(content: &RunContent) -> f64 {
    match content {
        RunContent::Text(text) | RunContent::Quiet(text) => text_width(text),
        RunContent::Name(text) => text_width(text) * 1.02,
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
