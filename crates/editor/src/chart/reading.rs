//! Reading a plot: the values of all lines at a place, found by pointer or stepped to by key.

use super::lines::{place, value_at};
use super::shape::Shape;
use super::{Chart, ChartSpec, axes};
use crate::numbers::{MINUS, significant};

/// Values at a place of the axis across.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The place with its unit.
    pub at: String,
    /// Lines by name with their values, the most important first.
    pub values: Vec<(String, String)>,
    /// The reading line with a dot on each line.
    pub shapes: Vec<Shape>,
    /// All of it in one sentence.
    pub spoken: String,
}

/// Where the reading line goes by key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadingMove {
    /// So many values on, negative: back.
    By(i32),
    /// To the first.
    First,
    /// To the last.
    Last,
}

/// What is done with the mark of the present value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Carry {
    /// It is carried to this value.
    To(f64),
    /// It is moved by so many steps of a key.
    By(i32),
    /// It is let go, and what it says is kept.
    Keep,
    /// It goes back to where it was.
    Back,
}

/// Places at which any line has a point, rising.
pub fn stops(spec: &ChartSpec) -> Vec<f64> {
    let points = spec.all_lines().flat_map(|(_, line)| &line.points);
    let mut stops: Vec<f64> = points.map(|(at, _)| *at).filter(|at| at.is_finite()).collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|one, other| (*one - *other).abs() <= 1e-9 * one.abs().max(1e-9));
    stops
}

impl Chart {
    /// How many places can be read.
    #[must_use]
    pub fn readings(&self) -> usize {
        self.stops.len()
    }

    /// The value along the axis across at a place in pixels, within the axis.
    #[must_use]
    pub fn value_at(&self, x: f64) -> f64 {
        let share = ((x - self.field.x) / self.field.width).clamp(0.0, 1.0);
        self.across.least + share * (self.across.greatest - self.across.least)
    }

    /// The place to be read that is next to a place in pixels.
    #[must_use]
    pub fn nearest(&self, x: f64) -> usize {
        let value = self.value_at(x);
        let next = self.stops.partition_point(|stop| *stop < value);
        let before = next.checked_sub(1);
        let far = |number: usize| {
            self.stops
                .get(number)
                .map_or(f64::INFINITY, |stop| (stop - value).abs())
        };
        match before {
            Some(before) if far(before) <= far(next) => before,
            _ => next.min(self.stops.len().saturating_sub(1)),
        }
    }

    /// Where a key leads from a place that is read; from none, to where the layout is now or to the first.
    #[must_use]
    pub fn moved(&self, from: Option<usize>, by: ReadingMove) -> usize {
        let last = self.stops.len().saturating_sub(1);
        match (by, from) {
            (ReadingMove::First, _) => 0,
            (ReadingMove::Last, _) => last,
            (ReadingMove::By(_), None) => self.present.map_or(0, |at| self.nearest(at.x)),
            (ReadingMove::By(by), Some(from)) => {
                let far = usize::try_from(by.unsigned_abs()).unwrap_or(0);
                if by < 0 {
                    from.saturating_sub(far)
                } else {
                    from.saturating_add(far).min(last)
                }
            }
        }
    }

    /// Values at a place by its number.
    #[must_use]
    pub fn reading(&self, number: usize) -> Option<Reading> {
        let stop = *self.stops.get(number)?;
        let at = self.spec.across.written(&axes::number(stop, self.spec.counts()));
        let mut values = Vec::new();
        let x = self.field.x + self.across.share(stop) * self.field.width;
        let low = self.field.y + self.field.height;
        let mut shapes = vec![super::shape::path(
            "plot-reading",
            format!("M{x:.1} {:.1}V{low:.1}", self.field.y),
        )];
        for ((axis, lines), panel) in self.spec.panels().zip(&self.panels) {
            for line in lines.iter().rev() {
                let value = value_at(line, stop);
                let text = value.map_or_else(|| "none".to_owned(), |value| axis.written(&significant(value)));
                let name = if line.name.is_empty() {
                    &axis.title
                } else {
                    &line.name
                };
                values.push((name.clone(), text));
                shapes.extend(value.map(|value| Shape::Dot {
                    class: "plot-dot",
                    at: place(stop, value, &self.across, panel),
                    radius: 4.0,
                }));
            }
        }
        let told: Vec<String> = values
            .iter()
            .map(|(name, text)| format!("{name} {text}"))
            .collect();
        Some(Reading {
            spoken: format!("{at}: {}", told.join(", ")).replace(MINUS, "minus "),
            at,
            values,
            shapes,
        })
    }

    /// What the plot shows, in one sentence, for those who don't see it.
    #[must_use]
    pub fn spoken(&self) -> String {
        let names: Vec<&str> = self
            .spec
            .all_lines()
            .map(|(_, line)| line.name.as_str())
            .filter(|name| !name.is_empty())
            .collect();
        let marks = self.spec.marks.iter().map(|mark| mark.text.as_str());
        let marks: Vec<&str> = marks.filter(|text| !text.is_empty()).collect();
        let mut said = format!("Plot: {}. Over {}", self.spec.title, self.spec.across.heading());
        if !names.is_empty() {
            said.push_str(&format!(", lines {}", names.join(", ")));
        }
        if !marks.is_empty() {
            said.push_str(&format!(". Marked: {}", marks.join("; ")));
        }
        said + "."
    }

    /// Whether a pointer at a place in pixels takes hold of the mark of the present value; a finger is broader than a mouse.
    #[must_use]
    pub fn grabs(&self, x: f64, finger: bool) -> bool {
        let reach = if finger { 22.0 } else { 9.0 };
        self.present.is_some_and(|at| (at.x - x).abs() <= reach)
    }
}
