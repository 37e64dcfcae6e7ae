//! Lines of a label before they have a place: what they say and how wide that is.

use super::items::{Label, LabelLine, Run, RunContent};
use crate::geometry::{Point, Rect};
use crate::numbers::{Measure, RatioText};
use crate::target::{FieldRef, Target};

/// Size of a label's letters; drawings are to set them in this size, so that the room kept is right.
pub const FONT_SIZE: f64 = 12.0;
/// Height of a line.
pub const LINE_HEIGHT: f64 = 16.0;
/// Zoom below which letters of the plain size could not be read.
const READABLE_ZOOM: f64 = 0.7;
/// Letters are to be at least this large on the screen, over [`FONT_SIZE`].
const READABLE: f64 = 0.85;

/// How large letters are drawn on the bench: larger where the bench is looked at from afar. In steps, so that a
/// drawing is not set anew at every turn of the wheel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Letters {
    /// As large as everything else.
    #[default]
    Plain,
    /// A little larger.
    Large,
    /// Larger.
    Larger,
    /// As large as labels can be without covering the drawing.
    Largest,
}

impl Letters {
    /// What can be read at this zoom.
    #[must_use]
    pub fn for_zoom(zoom: f64) -> Self {
        if zoom >= READABLE_ZOOM {
            return Self::Plain;
        }
        let needed = READABLE / zoom;
        [Self::Large, Self::Larger]
            .into_iter()
            .find(|letters| letters.factor() >= needed)
            .unwrap_or(Self::Largest)
    }

    /// Their size over [`FONT_SIZE`].
    #[must_use]
    pub const fn factor(self) -> f64 {
        match self {
            Self::Plain => 1.0,
            Self::Large => 1.4,
            Self::Larger => 1.8,
            Self::Largest => 2.2,
        }
    }
}

/// Space between pieces of a line.
const GAP: f64 = 5.0;
/// Space beside a number that can be edited: its frame needs some.
const EDIT_GAP: f64 = 7.0;
/// Least width of a number that can be edited.
const EDIT_WIDTH: f64 = 10.0;

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
        RunContent::Edit { text, .. } => text_width(text).max(EDIT_WIDTH),
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
pub fn room(lines: &Lines, letters: Letters) -> (f64, f64) {
    let width = lines.iter().map(|line| line_width(line)).fold(0.0, f64::max);
    let factor = letters.factor();
    (width * factor, lines.len() as f64 * LINE_HEIGHT * factor)
}

fn line_width(line: &[RunContent]) -> f64 {
    let gaps: f64 = line.windows(2).map(|pair| gap(&pair[0], &pair[1])).sum();
    line.iter().map(run_width).sum::<f64>() + gaps
}

/// The space between two neighbouring pieces; a degree sign stands close to its number.
fn gap(left: &RunContent, right: &RunContent) -> f64 {
    match (left, right) {
        (RunContent::Edit { .. }, RunContent::Text(text)) if text.starts_with('°') => EDIT_GAP * 0.6,
        (_, RunContent::Text(text)) if text.starts_with('°') => 1.0,
        (RunContent::Edit { .. }, _) | (_, RunContent::Edit { .. }) => EDIT_GAP,
        _ => GAP,
    }
}

/// Gives lines their place: every line centred in the room.
#[must_use]
pub fn set(
    lines: Lines,
    target: Target,
    suffix: &str,
    bounds: Rect,
    leader: Option<(Point, Point)>,
    letters: Letters,
) -> Label {
    let factor = letters.factor();
    let height = LINE_HEIGHT * factor;
    let lines = lines
        .into_iter()
        .enumerate()
        .map(|(n, contents)| {
            let mut x = bounds.x + (bounds.width - line_width(&contents) * factor) / 2.0;
            let mut runs: Vec<Run> = Vec::with_capacity(contents.len());
            for content in contents {
                x += runs.last().map_or(0.0, |before| {
                    before.width + gap(&before.content, &content) * factor
                });
                let width = run_width(&content) * factor;
                runs.push(Run { x, width, content });
            }
            LabelLine {
                top: bounds.y + n as f64 * height,
                height,
                baseline: bounds.y + n as f64 * height + height * 0.75,
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
        letter_size: FONT_SIZE * factor,
    }
}
