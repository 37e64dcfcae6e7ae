//! Names of lines: at their right ends where there is room, else in a legend over the plot.

use super::lines::{Style, place};
use super::shape::{Anchor, ROW, Shape, fitted, path, text, wide};
use super::{ChartSpec, LineSpec, Panel, Scale};
use crate::geometry::Point;

/// Least width of a drawing whose lines are named at their ends.
const WIDE_ENOUGH: f64 = 480.0;
/// Most of the width that names may take.
const SHARE: f64 = 0.3;
/// A line that ends farther left than this share of the axis has no name at the right.
const ENDS_RIGHT: f64 = 0.98;
/// Length of the piece of line in a legend, and room between entries.
const SAMPLE: f64 = 30.0;
const BETWEEN: f64 = 18.0;

/// Room that names take at the right of the plots; none where they go into a legend, or where there is one line only.
pub fn room(spec: &ChartSpec, width: f64, across: &Scale) -> Option<f64> {
    let most = spec
        .all_lines()
        .map(|(_, line)| wide(&line.name))
        .fold(0.0, f64::max);
    let fits = width >= WIDE_ENOUGH && most + 16.0 <= width * SHARE;
    let all_end = spec
        .all_lines()
        .all(|(_, line)| last(line).is_some_and(|(at, _)| across.share(at) >= ENDS_RIGHT));
    let crowded = spec.panels().any(|(_, lines)| lines.len() > 5);
    (fits && all_end && !crowded && named(spec)).then_some(most + 16.0)
}

/// Whether lines need names at all.
pub fn named(spec: &ChartSpec) -> bool {
    spec.all_lines().count() > 1
}

fn last(line: &LineSpec) -> Option<(f64, f64)> {
    let mut points = line.points.iter().rev();
    points.find_map(|(at, value)| value.filter(|value| value.is_finite()).map(|value| (*at, value)))
}

/// Names at the right ends of a plot's lines, with a thin line to a name that had to move.
pub fn at_ends(lines: &[LineSpec], across: &Scale, panel: &Panel) -> Vec<Shape> {
    let ends: Vec<(Point, &str)> = lines
        .iter()
        .filter_map(|line| {
            let (at, value) = last(line)?;
            Some((place(at, value, across, panel), line.name.as_str()))
        })
        .collect();
    let area = panel.area;
    let wished: Vec<f64> = ends.iter().map(|(end, _)| end.y).collect();
    let heights = super::labels::spread(&wished, ROW - 2.0, area.y, area.y + area.height);
    let mut shapes = Vec::new();
    for ((end, name), height) in ends.iter().zip(heights) {
        let left = area.x + area.width + 10.0;
        if (height - end.y).abs() > 2.0 {
            let line = format!("M{:.1} {:.1}L{:.1} {height:.1}", end.x + 1.0, end.y, left - 2.0);
            shapes.push(path("plot-thin", line));
        }
        shapes.push(text(
            "plot-text is-strong",
            Point::new(left, height + 4.5),
            Anchor::Start,
            *name,
        ));
    }
    shapes
}

/// A legend in rows from the top, and its height.
pub fn legend(lines: &[(&str, Style)], width: f64) -> (Vec<Shape>, f64) {
    let mut shapes = Vec::new();
    let (mut x, mut row) = (0.0, 0.0);
    // The most important line is drawn last, and named first.
    for (name, style) in lines.iter().rev() {
        let name = fitted(name, width - SAMPLE - 8.0);
        let takes = SAMPLE + 8.0 + wide(&name);
        if x > 0.0 && x + takes > width {
            (x, row) = (0.0, row + 1.0);
        }
        let y = row * ROW + 13.0;
        shapes.push(Shape::Path {
            class: style.class,
            path: format!("M{x:.1} {:.1}h{SAMPLE}", y - 4.5),
            dashes: style.dashes,
        });
        shapes.push(text(
            "plot-text is-strong",
            Point::new(x + SAMPLE + 8.0, y),
            Anchor::Start,
            name,
        ));
        x += takes + BETWEEN;
    }
    (
        shapes,
        if lines.is_empty() {
            0.0
        } else {
            (row + 1.0) * ROW + 6.0
        },
    )
}
