//! A drawing made of plain strokes: what the skeleton and the plan consist of.
//!
//! Every thing of the layout that is drawn is one [`PictureItem`]: its strokes, where it can be pressed, its label and what
//! a screen reader says. Items compare by value and sit in `Rc`, so that a page redraws only what changed. Lengths are in
//! the drawing's own plane; stroke widths belong to the line type and stay the same on the screen at any zoom.

mod numbers;

use std::rc::Rc;

use super::items::{Emphasis, Label, Overlay};
use crate::geometry::{Point, Rect};
use crate::legend::Legend;
use crate::target::Target;

/// A whole drawing of strokes, from the lowest item up.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Picture {
    /// What it occupies; shows in full after "fit".
    pub bounds: Rect,
    /// Things that stand for nothing in the layout: axes, bores, frame, layers.
    pub ground: Vec<Rc<Backdrop>>,
    /// Things of the layout, those in front last.
    pub items: Vec<Rc<PictureItem>>,
    /// What only shows during a gesture.
    pub overlay: Overlay,
    /// What the line types mean here.
    pub legend: Rc<Legend>,
    /// What to do where there is nothing to draw.
    pub empty: Option<&'static str>,
    /// How many layers the drawing has, for choosing one; 0: it has none.
    pub layers: u32,
    /// What is wrong or left out, as sentences under the drawing (an unreachable bore, an assumed module).
    pub remarks: Vec<Remark>,
}

impl Picture {
    /// Where a thing is drawn; none for what is not on the drawing.
    #[must_use]
    pub fn place_of(&self, target: &Target) -> Option<Point> {
        self.items
            .iter()
            .find(|item| item.target == *target)
            .map(|item| item.at)
    }
}

/// Something that is drawn and can't be pressed.
#[derive(Clone, Debug, PartialEq)]
pub struct Backdrop {
    /// Unique on the page.
    pub key: String,
    /// Its strokes.
    pub strokes: Vec<Stroke>,
    /// Its text.
    pub label: Option<Label>,
}

/// A thing of the layout as it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct PictureItem {
    /// What it stands for.
    pub target: Target,
    /// Unique on the page; the first item of a target has the target's own key, so that focus finds it.
    pub key: String,
    /// What a screen reader says.
    pub spoken: String,
    /// Where it is: what the arrow keys go by.
    pub at: Point,
    /// Its strokes, from the lowest up.
    pub strokes: Vec<Stroke>,
    /// Where it can be pressed.
    pub reach: Vec<Reach>,
    /// Its label.
    pub label: Option<Label>,
    /// How much it stands out.
    pub emphasis: Emphasis,
}

/// A line or area of one type.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// Which type of line.
    pub line: LineType,
    /// Path data, in the drawing's plane.
    pub path: String,
    /// How it turns on the screen; none: it stands still.
    pub turn: Option<Turn>,
}

impl Stroke {
    /// A stroke that stands still.
    #[must_use]
    pub const fn still(line: LineType, path: String) -> Self {
        Self {
            line,
            path,
            turn: None,
        }
    }
}

/// Types of line, after ISO 128: each has one width and pattern everywhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LineType {
    /// Thick continuous: outlines, gears as strokes, shafts.
    Outline,
    /// Thin continuous: dimensions, marks, leaders.
    Thin,
    /// Thin long-dashed dotted: axes and pitch circles.
    Chain,
    /// Thin dashed: what is hidden or open.
    Dashed,
    /// Strokes of the fixed frame.
    Hatching,
    /// Area of paper under a thing, so that what lies behind does not shine through; no line.
    Ground,
    /// Area washed with a light tone, with a thin edge: a gear's body.
    Body,
    /// Area filled with ink: hubs, arrowheads.
    Solid,
    /// Thick and in the colour of warnings, always beside a mark or words: a collision, a distance that does not fit.
    Wrong,
}

impl LineType {
    /// The class of the style sheet.
    #[must_use]
    pub const fn class(self) -> &'static str {
        match self {
            Self::Outline => "line-outline",
            Self::Thin => "line-thin",
            Self::Chain => "line-chain",
            Self::Dashed => "line-dashed",
            Self::Hatching => "line-hatching",
            Self::Ground => "line-ground",
            Self::Body => "line-body",
            Self::Solid => "line-solid",
            Self::Wrong => "line-wrong",
        }
    }
}

/// A stroke's turning on the screen about a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// The axis.
    pub about: Point,
    /// Time of one turn in seconds; none: it stands, turned by `from_deg`.
    pub period_s: Option<f64>,
    /// Whether it goes clockwise on the screen.
    pub clockwise: bool,
    /// Degrees clockwise that it is turned by at the start.
    pub from_deg: f64,
    /// What carries the axis round with it.
    pub carrier: Option<Orbit>,
}

/// The turning of what carries a turning part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Orbit {
    /// Its axis.
    pub about: Point,
    /// Time of one turn in seconds.
    pub period_s: f64,
    /// Whether it goes clockwise on the screen.
    pub clockwise: bool,
}

/// A place where a thing can be pressed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reach {
    /// Anywhere in a disc.
    Disc(Point, f64),
    /// On a circle's line.
    Circle(Point, f64),
    /// On a straight line.
    Line(Point, Point),
    /// In a rectangle.
    Area(Rect),
}

impl Reach {
    /// The rectangle round it.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        match self {
            Self::Disc(at, radius) | Self::Circle(at, radius) => {
                Rect::around(*at, 2.0 * radius, 2.0 * radius)
            }
            Self::Line(from, to) => Rect {
                x: from.x.min(to.x),
                y: from.y.min(to.y),
                width: (to.x - from.x).abs(),
                height: (to.y - from.y).abs(),
            },
            Self::Area(rect) => *rect,
        }
    }
}

/// A sentence about the drawing, with what it speaks of.
#[derive(Clone, Debug, PartialEq)]
pub struct Remark {
    /// The sentence.
    pub text: String,
    /// What it selects.
    pub targets: Vec<Target>,
    /// Whether something is wrong (as against: assumed or left out).
    pub is_wrong: bool,
}
