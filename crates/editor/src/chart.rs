//! Plots of numbers over numbers as plain data: what is to be drawn ([`ChartSpec`]).
//!
//! Drawing in pixels, values at a place, table, CSV and a picture of its own come from it alone, so that every plot of the
//! sheet for choosing looks and works alike. Plots of runs are in `runs::plots`: they share one axis of time.

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
    /// Places along the axis across.
    pub marks: Vec<MarkSpec>,
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
