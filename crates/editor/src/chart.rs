//! Plots of numbers over numbers: what is to be drawn ([`ChartSpec`]) and what comes of it ([`Chart`]).
//!
//! Drawing in pixels, values at a place, table, CSV and a picture of its own come from the same data, so that every plot of
//! the sheet for choosing looks and works alike. Fields of values over two axes are in [`field`]; plots of runs are in
//! `runs::plots`, because they share one axis of time and a playhead.

mod axes;
mod draw;
mod ends;
pub mod field;
mod labels;
mod lines;
mod marks;
mod picture;
mod reading;
mod shape;
mod table;
#[cfg(test)]
mod tests;
mod units;

use crate::geometry::{Point, Rect, Size};
use axes::Scale;

pub use draw::draw;
pub use reading::{Carry, Reading, ReadingMove};
pub use shape::{Anchor, Shape};
pub use table::NumberTable;

/// A plot to be drawn.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct ChartSpec {
    /// What it shows, as its caption and name.
    pub title: String,
    /// The axis across.
    pub across: AxisSpec,
    /// The axis up.
    pub up: AxisSpec,
    /// Its lines, the most important last.
    pub lines: Vec<LineSpec>,
    /// Further plots below it along the same axis across: one for each further unit.
    pub below: Vec<PanelSpec>,
    /// Places along the axis across.
    pub marks: Vec<MarkSpec>,
}

/// A further plot along the same axis across.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct PanelSpec {
    /// Its axis up.
    pub up: AxisSpec,
    /// Its lines; their numbers go on from those of the plots above.
    pub lines: Vec<LineSpec>,
}

/// An axis.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct AxisSpec {
    /// What is along it.
    pub title: String,
    /// Its unit; empty where there is none.
    pub unit: String,
}

/// A line.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct LineSpec {
    /// Its name, in the legend and the table.
    pub name: String,
    /// Its points with rising first values; none leaves a gap.
    pub points: Vec<(f64, Option<f64>)>,
    /// Beside others: thin and broken.
    pub beside: bool,
}

/// A place along the axis across.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkSpec {
    /// Where.
    pub at: f64,
    /// On which line, by its number, and at which height it has a dot.
    pub dot: Option<(usize, f64)>,
    /// What it says.
    pub text: String,
    /// What sort of place it is.
    pub kind: MarkSort,
}

/// Sorts of places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MarkSort {
    /// Where the layout is now; can be dragged.
    Present,
    /// The best.
    Best,
    /// Something changes here: what limits, a state.
    Turn,
}

/// A plot in pixels.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// What it was drawn from.
    pub spec: ChartSpec,
    /// Size of the drawing.
    pub size: Size,
    /// From the top edge of the first plot to the lower edge of the last.
    pub field: Rect,
    /// What is drawn, from back to front.
    pub shapes: Vec<Shape>,
    /// Where the layout is now, on the axis across.
    pub present: Option<Point>,
    across: Scale,
    panels: Vec<Panel>,
    stops: Vec<f64>,
}

/// One of the plots of a chart.
#[derive(Clone, Debug, PartialEq)]
struct Panel {
    area: Rect,
    scale: Scale,
}

impl AxisSpec {
    /// Title and unit: `Slope, °`.
    #[must_use]
    pub fn heading(&self) -> String {
        match (self.title.is_empty(), self.unit.is_empty()) {
            (_, true) => self.title.clone(),
            (true, false) => self.unit.clone(),
            _ => format!("{}, {}", self.title, self.unit),
        }
    }

    /// A number along it with its unit.
    #[must_use]
    pub fn written(&self, number: &str) -> String {
        match self.unit.as_str() {
            "" => number.to_owned(),
            "°" => format!("{number}°"),
            unit => format!("{number}{}{unit}", crate::numbers::THIN_SPACE),
        }
    }
}

impl ChartSpec {
    /// Its plots from top to bottom.
    fn panels(&self) -> impl Iterator<Item = (&AxisSpec, &[LineSpec])> {
        let below = self.below.iter().map(|panel| (&panel.up, panel.lines.as_slice()));
        std::iter::once((&self.up, self.lines.as_slice())).chain(below)
    }

    /// All lines in their numbers' order, with the axis that they stand on.
    fn all_lines(&self) -> impl Iterator<Item = (&AxisSpec, &LineSpec)> {
        self.panels()
            .flat_map(|(up, lines)| lines.iter().map(move |line| (up, line)))
    }

    /// Whether everything along the axis across is a whole number.
    fn counts(&self) -> bool {
        let mut values = self.all_lines().flat_map(|(_, line)| &line.points);
        values.all(|(at, _)| (at - at.round()).abs() < 1e-9)
    }
}
