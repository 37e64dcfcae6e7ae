//! How the plots of a run come about: which there are, their lines, ticks, positions and events in pixels.

use layshaft_report::RunSample;

use super::plots::{Band, EventMark, LEFT, Line, Plot, Tick};
use super::series::{Along, Quantity, Track};
use super::ticks::Scale;
use crate::geometry::{Point, Rect};
use crate::units::Units;

/// Which plots there are: title, unit by unit as values grow, the line beside it.
pub struct Kind {
    title: &'static str,
    main: Quantity,
    beside: Option<Quantity>,
    /// Units with what one of them is, the smaller first.
    units: [(&'static str, f64); 2],
}

pub const KINDS: [Kind; 5] = [
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

/// What all plots share.
pub struct Across<'a> {
    pub track: &'a Track,
    pub along: Along,
    pub scale: &'a Scale,
    pub wide: f64,
    pub units: Units,
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
    pub fn plot(&self, kind: &Kind, area: Rect) -> Option<Plot> {
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
        // A unit that was chosen stands in the place of the file's.
        let chosen = self.units.scale(unit);
        let (unit, factor) = if chosen.is_plain() {
            (unit, factor)
        } else {
            (chosen.unit, chosen.kept(1.0))
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

    pub fn ticks(&self) -> Vec<Tick> {
        let ticks = self.scale.ticks().into_iter();
        ticks
            .map(|(value, text)| Tick {
                at: LEFT + self.scale.share(value) * self.wide,
                text,
            })
            .collect()
    }

    pub fn bands(&self) -> Vec<Band> {
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

    pub fn events(&self) -> Vec<EventMark> {
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
