//! Lines: their paths with gaps where values are missing, and how they differ without colour.

use super::shape::Shape;
use super::{LineSpec, Panel, Scale};
use crate::geometry::Point;

/// Strokes and gaps by which lines are told apart, the plainest for the most important.
const DASHES: [&str; 6] = ["", "9 4", "2 4", "12 4 2 4", "5 3", "16 4 2 4 2 4"];
/// Those of lines that stand beside others.
const BESIDE: [&str; 3] = ["4 3", "1 3", "7 3 1 3"];

/// How a line looks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    pub class: &'static str,
    pub dashes: &'static str,
}

/// Styles of all lines of a plot.
pub fn styles(lines: &[LineSpec]) -> Vec<Style> {
    let main = lines.iter().filter(|line| !line.beside).count();
    let (mut mains, mut besides) = (0, 0);
    lines
        .iter()
        .map(|line| {
            if line.beside {
                besides += 1;
                Style {
                    class: "plot-line is-beside",
                    dashes: BESIDE[(besides - 1) % BESIDE.len()],
                }
            } else {
                mains += 1;
                Style {
                    class: "plot-line",
                    dashes: DASHES[(main - mains) % DASHES.len()],
                }
            }
        })
        .collect()
}

/// Places of a line in stretches without gaps.
pub fn stretches(line: &LineSpec, across: &Scale, panel: &Panel) -> Vec<Vec<Point>> {
    let place = |(at, value): &(f64, Option<f64>)| {
        let value = value.filter(|value| value.is_finite())?;
        at.is_finite().then(|| place(*at, value, across, panel))
    };
    let places: Vec<Option<Point>> = line.points.iter().map(place).collect();
    places
        .split(Option::is_none)
        .map(|stretch| stretch.iter().copied().flatten().collect::<Vec<Point>>())
        .filter(|stretch: &Vec<Point>| !stretch.is_empty())
        .collect()
}

/// The place of a value.
pub fn place(at: f64, value: f64, across: &Scale, panel: &Panel) -> Point {
    let area = panel.area;
    Point::new(
        area.x + across.share(at) * area.width,
        area.y + (1.0 - panel.scale.share(value)) * area.height,
    )
}

/// A line's path, and dots for points that stand alone.
pub fn shapes(stretches: &[Vec<Point>], style: Style) -> Vec<Shape> {
    let mut shapes = Vec::new();
    let mut path = String::new();
    for stretch in stretches {
        match stretch.as_slice() {
            [alone] => shapes.push(Shape::Dot {
                class: "plot-alone",
                at: *alone,
                radius: 2.5,
            }),
            several => polyline(&mut path, several),
        }
    }
    if !path.is_empty() {
        shapes.push(Shape::Path {
            class: style.class,
            path,
            dashes: style.dashes,
        });
    }
    shapes
}

/// Goes on with a path along points, leaving out what could not be told apart.
fn polyline(path: &mut String, points: &[Point]) {
    let mut last: Option<Point> = None;
    for (number, at) in points.iter().enumerate() {
        let far = last.is_none_or(|last| (at.x - last.x).abs() + (at.y - last.y).abs() >= 0.6);
        if far || number + 1 == points.len() {
            let letter = if last.is_none() { 'M' } else { 'L' };
            path.push_str(&format!("{letter}{:.1} {:.1}", at.x, at.y));
            last = Some(*at);
        }
    }
}

/// The value of a line at a place along the axis: between two neighbours that both have one, on the straight line.
pub fn value_at(line: &LineSpec, at: f64) -> Option<f64> {
    let near = |other: f64| (other - at).abs() <= 1e-9 * at.abs().max(1e-9);
    let next = line
        .points
        .partition_point(|(other, _)| *other < at && !near(*other));
    let (right, above) = line.points.get(next)?;
    if near(*right) {
        return above.filter(|value| value.is_finite());
    }
    let (left, below) = line.points.get(next.checked_sub(1)?)?;
    let share = (at - left) / (right - left);
    let value = below.as_ref()? + ((*above)? - (*below)?) * share;
    value.is_finite().then_some(value)
}
