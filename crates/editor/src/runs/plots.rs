//! The plots of a run as plain lines, ticks and texts in pixels: one plot under another along one axis.
//!
//! No library draws them: a dozen polylines with ticks need a few hundred lines, and a charting library would weigh more
//! than the whole solver.

use layshaft_report::RunSample;

use super::series::{Along, Quantity, Track};
use super::ticks::Scale;
use crate::geometry::{Point, Rect, Size};

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
const LEFT: f64 = 50.0;
const RIGHT: f64 = 10.0;
/// Room for the names of positions and numbers of events over the first plot.
const HEAD: f64 = 40.0;
/// Height of a plot's title, of a plot, and of the axis below.
const TITLE: f64 = 24.0;
const TALL: f64 = 74.0;
const FOOT: f64 = 40.0;
/// Room that a number of the common axis takes.
const NUMBER: f64 = 64.0;

/// Which plots there are: title, unit by unit as values grow, the line beside it.
struct Kind {
    title: &'static str,
    main: Quantity,
    beside: Option<Quantity>,
    /// Units with what one of them is, the smaller first.
    units: [(&'static str, f64); 2],
}

const KINDS: [Kind; 5] = [
    Kind {
        title: "Speed",
        main: Quantity::Speed,
        beside: None,
        units: [("mm/s", 1e-3), ("m/s", 1.0)],
    },
    Kind {
        title: "Motor speed",
        main: Quantity::MotorSpeed,
        beside: None,
        units: [("rpm", 1.0), ("rpm", 1.0)],
    },
    Kind {
        title: "Current",
        main: Quantity::Current,
        beside: None,
        units: [("mA", 1e-3), ("A", 1.0)],
    },
    Kind {
        title: "Shaft power",
        main: Quantity::Power,
        beside: Some(Quantity::Electric),
        units: [("mW", 1e-3), ("W", 1.0)],
    },
    Kind {
        title: "Slope",
        main: Quantity::Slope,
        beside: None,
        units: [("°", 1.0), ("°", 1.0)],
    },
];

/// Draws all plots.
pub fn plots(track: &Track, along: Along, width: f64) -> PlotSheet {
    let along = if track.has_way() { along } else { Along::Time };
    let wide = (width - LEFT - RIGHT).max(80.0);
    let scale = scale_along(track, along, wide);
    let across = Across {
        track,
        along,
        scale: &scale,
        wide,
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

/// What all plots share.
struct Across<'a> {
    track: &'a Track,
    along: Along,
    scale: &'a Scale,
    wide: f64,
}

impl Across<'_> {
    fn x(&self, time: f64, way: f64) -> f64 {
        let value = match self.along {
            Along::Time => time,
            Along::Way => way,
        };
        LEFT + self.scale.share(value) * self.wide
    }

    fn of_sample(&self, sample: &RunSample) -> f64 {
        self.x(sample.time, sample.distance.to_metres())
    }

    /// A plot; none where its quantity does not apply.
    fn plot(&self, kind: &Kind, area: Rect) -> Option<Plot> {
        let values = |quantity: Quantity| {
            let samples = self.track.samples().iter();
            samples.filter_map(move |sample| quantity.of(self.track, sample))
        };
        let beside = kind.beside.filter(|quantity| values(*quantity).next().is_some());
        let all = || values(kind.main).chain(beside.into_iter().flat_map(values));
        let largest = values(kind.main).fold(None, |largest: Option<f64>, value| {
            Some(largest.unwrap_or(0.0).max(value.abs()))
        })?;
        let largest = all().fold(largest, |largest, value| largest.max(value.abs()));
        let [small, large] = kind.units;
        let (unit, factor) = if largest < 0.1 && largest > 0.0 {
            small
        } else {
            large
        };
        let scale = Scale::round(all().map(|value| value / factor), 3);
        let height = |value: f64| area.y + (1.0 - scale.share(value / factor)) * area.height;
        let line = |quantity: Quantity, main| Line {
            path: self.path(quantity, &height),
            main,
        };
        let mut lines: Vec<Line> = beside.map(|quantity| line(quantity, false)).into_iter().collect();
        lines.push(line(kind.main, true));
        let ticks = scale.ticks().into_iter().map(|(value, text)| Tick {
            at: height(value * factor),
            text,
        });
        Some(Plot {
            title: title(self.name(kind), unit, beside.is_some()),
            ticks: ticks.collect(),
            zero: height(0.0),
            lines,
            area,
            main: kind.main,
            unit_factor: factor,
            scale,
        })
    }

    fn name(&self, kind: &Kind) -> &'static str {
        match kind.main {
            Quantity::MotorSpeed => kind.main.name(self.track),
            _ => kind.title,
        }
    }

    /// A polyline that leaves out what could not be told apart.
    fn path(&self, quantity: Quantity, height: &dyn Fn(f64) -> f64) -> String {
        let mut path = String::new();
        let mut last: Option<Point> = None;
        let samples = self.track.samples();
        for (number, sample) in samples.iter().enumerate() {
            let Some(value) = quantity.of(self.track, sample).filter(|value| value.is_finite()) else {
                continue;
            };
            let at = Point::new(self.of_sample(sample), height(value));
            let far = last.is_none_or(|last| (at.x - last.x).abs() + (at.y - last.y).abs() >= 0.8);
            if far || number + 1 == samples.len() {
                path.push(if last.is_none() { 'M' } else { 'L' });
                path.push_str(&format!("{:.1} {:.1}", at.x, at.y));
                last = Some(at);
            }
        }
        path
    }

    fn ticks(&self) -> Vec<Tick> {
        let ticks = self.scale.ticks().into_iter();
        ticks
            .map(|(value, text)| Tick {
                at: LEFT + self.scale.share(value) * self.wide,
                text,
            })
            .collect()
    }

    fn bands(&self) -> Vec<Band> {
        if self.track.run.positions.len() < 2 {
            return Vec::new();
        }
        let stretches = self.track.samples().chunk_by(|a, b| a.position == b.position);
        let mut bands: Vec<Band> = Vec::new();
        for stretch in stretches {
            let ends = (stretch.first(), stretch.last());
            let (Some(first), Some(last)) = ends else { continue };
            let from = bands.last().map_or_else(|| self.of_sample(first), |band| band.to);
            let to = self.of_sample(last).max(from);
            let name = self.track.position_name(first.position);
            let fits = crate::scene::text_width(name) * 14.0 / crate::scene::FONT_SIZE + 8.0 < to - from;
            bands.push(Band {
                from,
                to,
                name: if fits { name.to_owned() } else { String::new() },
                shaded: first.position % 2 == 1,
            });
        }
        bands
    }

    fn events(&self) -> Vec<EventMark> {
        let mut free_from = f64::NEG_INFINITY;
        let events = self.track.run.events.iter().enumerate();
        let mark = |(number, event): (usize, &layshaft_report::RunEvent)| {
            let way = self.way_at(event.time);
            let at = self.x(event.time, way);
            let fits = at >= free_from;
            if fits {
                free_from = at + 18.0;
            }
            EventMark {
                at,
                text: if fits {
                    (number + 1).to_string()
                } else {
                    String::new()
                },
            }
        };
        events.map(mark).collect()
    }

    fn way_at(&self, time: f64) -> f64 {
        let samples = self.track.samples();
        let next = samples.partition_point(|sample| sample.time < time);
        samples
            .get(next)
            .or(samples.last())
            .map_or(0.0, |sample| sample.distance.to_metres())
    }
}

fn title(name: &str, unit: &str, beside: bool) -> String {
    if beside {
        format!("{}, {unit} (broken: electric)", name)
    } else {
        format!("{}, {unit}", name)
    }
}
