//! Fields of values over two axes: lines of equal value with their levels, shaded in steps of one colour.
//!
//! Lines and shades between the values are worked out in `contour`, values at a place, table and CSV in `reading`.

mod contour;
mod reading;
#[cfg(test)]
mod tests;

use super::shape::{Anchor, ROW, Shape, fitted, overlap, path, text, text_box, wide};
use super::{AxisSpec, Scale, axes};
use crate::geometry::{Point, Rect, Size};
use crate::runs::ticks;
use contour::Grid;

pub use reading::{FieldMove, Place};

/// A field of values to be drawn.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct FieldSpec {
    /// What it shows, as its caption and name.
    pub title: String,
    /// The axis across.
    pub across: AxisSpec,
    /// The axis up.
    pub up: AxisSpec,
    /// What the values are.
    pub value: AxisSpec,
    /// Rising places along the axis across.
    pub columns: Vec<f64>,
    /// Rising places along the axis up.
    pub rows: Vec<f64>,
    /// Values by row from below, each from left to right.
    pub values: Vec<Vec<Option<f64>>>,
    /// Where the layout is now.
    pub present: Option<(f64, f64)>,
}

/// A field of values in pixels.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldMap {
    /// What it was drawn from.
    pub spec: FieldSpec,
    /// Size of the drawing.
    pub size: Size,
    /// Where its values are.
    pub field: Rect,
    /// What is drawn, from back to front.
    pub shapes: Vec<Shape>,
    across: Scale,
    up: Scale,
}

const LEAST: f64 = 200.0;
const HEAD: f64 = 26.0;
const FOOT: f64 = 78.0;
const RIGHT: f64 = 16.0;
/// Height as a share of the width, with its bounds.
const TALL: (f64, f64, f64) = (0.66, 200.0, 380.0);
/// Levels at most, and how much one adds to the shade.
const LEVELS: usize = 8;
const SHADE: f64 = 0.075;
/// Room that a number takes along and up an axis.
const NUMBER: f64 = 58.0;
const TICK: f64 = 48.0;

/// Draws a field so wide.
#[must_use]
pub fn draw_field(spec: &FieldSpec, width: f64) -> FieldMap {
    let width = if width.is_finite() {
        width.max(LEAST)
    } else {
        LEAST
    };
    let height = (width * TALL.0).clamp(TALL.1, TALL.2);
    let up = axes::across(spec.rows.iter().copied(), parts(height, TICK));
    let numbers = up.ticks().into_iter().map(|(_, text)| wide(&text));
    let left = numbers.fold(24.0, f64::max) + 14.0;
    let across = axes::across(spec.columns.iter().copied(), parts(width - left, NUMBER));
    let field = Rect {
        x: left,
        y: HEAD,
        width: width - left - RIGHT,
        height,
    };
    let mut map = FieldMap {
        spec: spec.clone(),
        size: Size {
            width,
            height: HEAD + height + FOOT,
        },
        field,
        shapes: Vec::new(),
        across,
        up,
    };
    map.shapes = map.drawn();
    map
}

fn parts(room: f64, each: f64) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a dozen at most"
    )]
    let parts = (room / each).clamp(2.0, 12.0) as usize;
    parts
}

impl FieldMap {
    fn at(&self, x: f64, y: f64) -> Point {
        Point::new(
            self.field.x + self.across.share(x) * self.field.width,
            self.field.y + (1.0 - self.up.share(y)) * self.field.height,
        )
    }

    /// Round levels between the least and the greatest value.
    fn levels(&self) -> Vec<(f64, String)> {
        let values = self.spec.values.iter().flatten().flatten().copied();
        let finite = values.filter(|value| value.is_finite());
        let (least, most) = finite.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), value| {
            (least.min(value), most.max(value))
        });
        let differ = most - least > 1e-9 * most.abs().max(least.abs());
        if !differ {
            return Vec::new();
        }
        let scale = Scale {
            least,
            greatest: most,
            step: ticks::step(most - least, LEVELS),
        };
        let levels = scale.ticks().into_iter();
        levels
            .filter(|(value, _)| *value > least && *value < most)
            .collect()
    }

    fn grid(&self) -> Grid {
        Grid {
            xs: self
                .spec
                .columns
                .iter()
                .map(|x| self.at(*x, self.up.least).x)
                .collect(),
            ys: self
                .spec
                .rows
                .iter()
                .map(|y| self.at(self.across.least, *y).y)
                .collect(),
            values: self.spec.values.clone(),
        }
    }

    fn drawn(&self) -> Vec<Shape> {
        let (grid, levels) = (self.grid(), self.levels());
        let mut shapes = Vec::new();
        let missing = grid.missing();
        if !missing.is_empty() {
            shapes.push(path("plot-hatch", missing));
        }
        for (level, _) in &levels {
            shapes.push(Shape::Fill {
                class: "plot-shade",
                path: grid.above(*level),
                strength: SHADE,
            });
        }
        shapes.extend(self.axes());
        let mut labels: Vec<(Rect, Shape)> = Vec::new();
        let lines: Vec<Vec<[Point; 2]>> = levels.iter().map(|(level, _)| grid.line(*level)).collect();
        for ((_, written), pieces) in levels.iter().zip(&lines) {
            labels.extend(self.label(&self.spec.value.written(written), pieces, &labels));
        }
        for pieces in lines {
            // A line through a label would read as part of its digits.
            let free = labels.iter().fold(pieces, |pieces, (room, _)| {
                pieces
                    .into_iter()
                    .flat_map(|piece| contour::outside(piece, room))
                    .collect()
            });
            shapes.push(path("plot-level", contour::path(&free)));
        }
        shapes.extend(labels.into_iter().map(|(_, label)| label));
        shapes.extend(self.legend(&levels));
        shapes.extend(self.present());
        shapes
    }

    /// The level on its line, where it is farthest from other levels.
    fn label(&self, said: &str, pieces: &[[Point; 2]], others: &[(Rect, Shape)]) -> Option<(Rect, Shape)> {
        let inner = Rect {
            x: self.field.x + 2.0,
            y: self.field.y + 2.0,
            width: self.field.width - 4.0,
            height: self.field.height - 4.0,
        };
        let mut best: Option<(f64, Point)> = None;
        for [from, to] in pieces {
            let foot = from.middle(*to) + Point::new(0.0, 4.5);
            let room = text_box(foot, Anchor::Middle, said);
            let free = others.iter().all(|(other, _)| !overlap(other, &room));
            if !free || !super::labels::holds(&inner, &room) {
                continue;
            }
            let far = others
                .iter()
                .map(|(other, _)| other.centre().distance(foot))
                .fold(self.field.width / 2.0, f64::min);
            // Lines are read best in the middle of the field.
            let far = far - foot.distance(self.field.centre()) * 0.5;
            if best.is_none_or(|(least, _)| far > least) {
                best = Some((far, foot));
            }
        }
        best.map(|(_, foot)| {
            let shape = text("plot-text is-strong", foot, Anchor::Middle, said);
            (text_box(foot, Anchor::Middle, said), shape)
        })
    }

    fn axes(&self) -> Vec<Shape> {
        let field = self.field;
        let (right, low) = (field.x + field.width, field.y + field.height);
        let mut shapes = Vec::new();
        for (value, written) in self.across.ticks() {
            let x = self.at(value, self.up.least).x;
            shapes.push(path("plot-thin", format!("M{x:.1} {low:.1}v5")));
            let middle = x.min(self.size.width - wide(&written) / 2.0 - 1.0);
            shapes.push(text(
                "plot-text",
                Point::new(middle, low + ROW),
                Anchor::Middle,
                written,
            ));
        }
        for (value, written) in self.up.ticks() {
            let y = self.at(self.across.least, value).y;
            shapes.push(path("plot-thin", format!("M{:.1} {y:.1}h5", field.x - 5.0)));
            shapes.push(text(
                "plot-text",
                Point::new(field.x - 8.0, y + 4.5),
                Anchor::End,
                written,
            ));
        }
        shapes.push(path(
            "plot-thin",
            format!("M{:.1} {:.1}V{low:.1}H{right:.1}", field.x, field.y),
        ));
        let up = fitted(&self.spec.up.heading(), self.size.width);
        shapes.push(text("plot-text", Point::new(0.0, 13.0), Anchor::Start, up));
        let title = fitted(&self.spec.across.heading(), self.size.width);
        let end = right.max(wide(&title) + 1.0).min(self.size.width - 1.0);
        shapes.push(text("plot-text", Point::new(end, low + 38.0), Anchor::End, title));
        shapes
    }

    /// What the shades are: lightest and darkest with the levels between which they lie.
    fn legend(&self, levels: &[(f64, String)]) -> Vec<Shape> {
        let (Some((_, first)), Some((_, last))) = (levels.first(), levels.last()) else {
            return Vec::new();
        };
        let y = self.field.y + self.field.height + 60.0;
        let mut shapes = Vec::new();
        let mut x = 0.0;
        let say = |shapes: &mut Vec<Shape>, x: &mut f64, said: String| {
            let said = fitted(&said, self.size.width - *x);
            let width = wide(&said);
            shapes.push(text("plot-text", Point::new(*x, y + 11.0), Anchor::Start, said));
            *x += width + 6.0;
        };
        say(&mut shapes, &mut x, format!("under {first}"));
        for number in 1..=levels.len() {
            shapes.push(Shape::Fill {
                class: "plot-shade",
                path: format!("M{x:.1} {y:.1}h14v14h-14Z"),
                strength: 1.0 - power(1.0 - SHADE, number),
            });
            x += 14.0;
        }
        x += 6.0;
        say(
            &mut shapes,
            &mut x,
            format!("over {}", self.spec.value.written(last)),
        );
        shapes
    }

    fn present(&self) -> Vec<Shape> {
        let Some((x, y)) = self.spec.present else {
            return Vec::new();
        };
        let inside = |scale: &Scale, value: f64| (-1e-9..=1.0 + 1e-9).contains(&scale.share(value));
        if !inside(&self.across, x) || !inside(&self.up, y) {
            return Vec::new();
        }
        let at = self.at(x, y);
        let field = self.field;
        let (right, low) = (field.x + field.width, field.y + field.height);
        vec![
            path(
                "plot-present is-thin",
                format!(
                    "M{:.1} {:.1}V{low:.1}M{:.1} {:.1}H{right:.1}",
                    at.x, field.y, field.x, at.y
                ),
            ),
            Shape::Dot {
                class: "plot-dot",
                at,
                radius: 5.0,
            },
        ]
    }
}

/// A small whole power; shades lie over one another.
fn power(base: f64, times: usize) -> f64 {
    std::iter::repeat_n(base, times).product()
}
