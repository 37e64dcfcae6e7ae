//! The plots of a run as plain lines, ticks and texts in pixels: one plot under another along one axis.
//!
//! No library draws them: a dozen polylines with ticks need a few hundred lines, and a charting library would weigh more
//! than the whole solver.

use super::plotting::{Across, KINDS};
use super::series::{Along, Quantity, Track};
use super::ticks::Scale;
use crate::geometry::{Rect, Size};
use crate::units::Units;

/// All plots of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct PlotSheet {
    /// Size of the drawing.
    pub size: Size,
    /// From the top edge of the first plot to the lower edge of the last, as wide as the axis.
    pub field: Rect,
    /// Plots from top to bottom.
    pub plots: Vec<Plot>,
    /// Ticks of the common axis.
    pub ticks: Vec<Tick>,
    /// What the common axis is.
    pub axis: &'static str,
    /// Shift positions; empty where there is only one.
    pub bands: Vec<Band>,
    /// Events, by their numbers in the list.
    pub events: Vec<EventMark>,
    /// What lies along the axis.
    pub along: Along,
    pub(super) scale: Scale,
}

/// One plot.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// What is plotted, with its unit.
    pub title: String,
    /// Where its lines are.
    pub area: Rect,
    /// Its lines, the most important last.
    pub lines: Vec<Line>,
    /// Ticks of its own axis.
    pub ticks: Vec<Tick>,
    /// Height of zero.
    pub zero: f64,
    pub(super) main: Quantity,
    pub(super) unit_factor: f64,
    pub(super) scale: Scale,
}

/// A line of a plot.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Its path.
    pub path: String,
    /// Whether it is the one that the plot is about; others are thin and broken.
    pub main: bool,
}

/// A tick of an axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Its place along the axis.
    pub at: f64,
    /// Its number.
    pub text: String,
}

/// A stretch of the axis in one shift position.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Left edge.
    pub from: f64,
    /// Right edge.
    pub to: f64,
    /// The position's name, where there is room for it.
    pub name: String,
    /// Every other position is shaded.
    pub shaded: bool,
}

/// An event on the axis.
#[derive(Clone, Debug, PartialEq)]
pub struct EventMark {
    /// Its place.
    pub at: f64,
    /// Its number in the list; empty where there is no room.
    pub text: String,
}

/// Room for numbers at the left, and at the right.
pub const LEFT: f64 = 50.0;
const RIGHT: f64 = 10.0;
/// Room for the names of positions and numbers of events over the first plot.
const HEAD: f64 = 40.0;
/// Height of a plot's title, of a plot, and of the axis below.
const TITLE: f64 = 24.0;
const TALL: f64 = 74.0;
const FOOT: f64 = 40.0;
/// Room that a number of the common axis takes.
const NUMBER: f64 = 64.0;

/// Draws all plots.
pub fn plots(track: &Track, along: Along, width: f64, units: Units) -> PlotSheet {
    let along = if track.has_way() { along } else { Along::Time };
    let wide = (width - LEFT - RIGHT).max(80.0);
    let scale = scale_along(track, along, wide);
    let across = Across {
        track,
        along,
        scale: &scale,
        wide,
        units,
    };
    let mut plots = Vec::new();
    let mut top = HEAD;
    for kind in &KINDS {
        let area = Rect {
            x: LEFT,
            y: top + TITLE,
            width: wide,
            height: TALL,
        };
        if let Some(plot) = across.plot(kind, area) {
            plots.push(plot);
            top += TITLE + TALL;
        }
    }
    PlotSheet {
        size: Size {
            width,
            height: top + FOOT,
        },
        field: Rect {
            x: LEFT,
            y: HEAD,
            width: wide,
            height: top - HEAD,
        },
        plots,
        ticks: across.ticks(),
        axis: match along {
            Along::Time => "Time, s",
            Along::Way => "Distance, m",
        },
        bands: across.bands(),
        events: across.events(),
        along,
        scale,
    }
}

fn scale_along(track: &Track, along: Along, wide: f64) -> Scale {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few dozen at most"
    )]
    let most = (wide / NUMBER).clamp(2.0, 30.0) as usize;
    match along {
        Along::Time => Scale::up_to(track.end(), most),
        Along::Way => {
            let ways = track.samples().iter().map(|sample| sample.distance.to_metres());
            let (least, greatest) = ways.fold((0.0_f64, 0.0_f64), |(least, greatest), way| {
                (least.min(way), greatest.max(way))
            });
            Scale::between(least, greatest, most)
        }
    }
}

impl PlotSheet {
    /// The place along the axis of a moment.
    pub(super) fn at(&self, time: f64, way: f64) -> f64 {
        let value = match self.along {
            Along::Time => time,
            Along::Way => way,
        };
        self.field.x + self.scale.share(value).clamp(0.0, 1.0) * self.field.width
    }

    /// The time of a place along the axis.
    pub(crate) fn time_at(&self, track: &Track, at: f64) -> f64 {
        let share = ((at - self.field.x) / self.field.width).clamp(0.0, 1.0);
        let value = self.scale.least + share * (self.scale.greatest - self.scale.least);
        match self.along {
            Along::Time => value,
            Along::Way => track.time_at_way(value),
        }
    }
}

impl Plot {
    /// Height of a value of its main line.
    pub(super) fn height(&self, value: f64) -> f64 {
        self.area.y + (1.0 - self.scale.share(value / self.unit_factor)) * self.area.height
    }
}
