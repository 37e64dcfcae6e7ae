//! What a drawing is made of: paths, texts and dots in pixels, with the class that says how they look.

use crate::geometry::{Point, Rect};
use crate::scene::{FONT_SIZE, text_width};

/// Size of letters on a plot, in pixels.
pub const LETTERS: f64 = 14.0;
/// Room that a line of letters takes.
pub const ROW: f64 = 18.0;

/// A part of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A path.
    Path {
        /// How it looks.
        class: &'static str,
        /// The path.
        path: String,
        /// Lengths of strokes and gaps; empty for a line without gaps.
        dashes: &'static str,
    },
    /// A filled outline.
    Fill {
        /// How it looks.
        class: &'static str,
        /// The outline.
        path: String,
        /// How strong its colour is, 0 to 1.
        strength: f64,
    },
    /// A dot.
    Dot {
        /// How it looks.
        class: &'static str,
        /// Its middle.
        at: Point,
        /// Its radius.
        radius: f64,
    },
    /// A text.
    Text {
        /// How it looks.
        class: &'static str,
        /// Where it begins, has its middle or ends, on its foot line.
        at: Point,
        /// Which of these.
        anchor: Anchor,
        /// Its words.
        text: String,
    },
}

/// Which part of a text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

impl Anchor {
    /// Its word in SVG.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// Width of a text on a plot.
pub fn wide(text: &str) -> f64 {
    text_width(text) * LETTERS / FONT_SIZE
}

/// The text, shortened with an ellipsis where it has less room than it takes.
pub fn fitted(text: &str, room: f64) -> String {
    if wide(text) <= room {
        return text.to_owned();
    }
    let mut short = String::new();
    for letter in text.chars() {
        if wide(&short) + wide(&letter.to_string()) + wide("…") > room {
            break;
        }
        short.push(letter);
    }
    short.trim_end().to_owned() + "…"
}

/// The room that a text takes.
pub fn text_box(at: Point, anchor: Anchor, text: &str) -> Rect {
    let width = wide(text);
    let left = match anchor {
        Anchor::Start => at.x,
        Anchor::Middle => at.x - width / 2.0,
        Anchor::End => at.x - width,
    };
    Rect {
        x: left,
        y: at.y - 12.0,
        width,
        height: 16.0,
    }
}

/// A text.
pub fn text(class: &'static str, at: Point, anchor: Anchor, text: impl Into<String>) -> Shape {
    Shape::Text {
        class,
        at,
        anchor,
        text: text.into(),
    }
}

/// A line without gaps.
pub const fn path(class: &'static str, path: String) -> Shape {
    Shape::Path {
        class,
        path,
        dashes: "",
    }
}

/// Whether two rectangles share room.
pub fn overlap(one: &Rect, other: &Rect) -> bool {
    one.x < other.x + other.width
        && other.x < one.x + one.width
        && one.y < other.y + other.height
        && other.y < one.y + one.height
}
