//! Drawing a plot: how the room is shared out, axes with their ticks, and everything in its order from back to front.

use super::labels::{Crowd, Hanging};
use super::lines::{Style, shapes, stretches, styles};
use super::shape::{Anchor, ROW, Shape, fitted, path, text, text_box, wide};
use super::{Chart, ChartSpec, MarkSort, Panel, Scale, axes, ends, marks};
use crate::geometry::{Point, Rect, Size};

/// Least width that a plot is drawn at.
const LEAST: f64 = 200.0;
/// Height of a plot's heading, and of the axis across with its title.
const HEADING: f64 = 26.0;
const FOOT: f64 = 50.0;
/// Between two plots.
const GAP: f64 = 12.0;
/// Free at the right where no names stand there.
const RIGHT: f64 = 14.0;
/// Room that a number along the axis across takes.
const NUMBER: f64 = 46.0;
/// Height of a plot that stands alone as a share of its width with its bounds, and of one of several.
const TALL: (f64, f64, f64) = (0.5, 190.0, 300.0);
const LOW: f64 = 130.0;

/// Draws a plot so wide.
#[must_use]
pub fn draw(spec: &ChartSpec, width: f64) -> Chart {
    let width = if width.is_finite() {
        width.max(LEAST)
    } else {
        LEAST
    };
    let plan = Plan::new(spec, width);
    let shapes = plan.shapes();
    Chart {
        spec: spec.clone(),
        size: plan.size(),
        field: plan.field,
        shapes,
        present: present(spec, &plan.across, &plan.field),
        across: plan.across,
        panels: plan.panels,
        stops: plan.stops,
    }
}

/// How the room is shared out.
struct Plan<'a> {
    spec: &'a ChartSpec,
    width: f64,
    counts: bool,
    stops: Vec<f64>,
    across: Scale,
    panels: Vec<Panel>,
    field: Rect,
    /// Per plot.
    styles: Vec<Vec<Style>>,
    /// Whether lines are named at their right ends.
    named_at_ends: bool,
    legend: Vec<Shape>,
    legend_height: f64,
    hanging: Vec<(MarkSort, Hanging)>,
}

impl<'a> Plan<'a> {
    fn new(spec: &'a ChartSpec, width: f64) -> Self {
        let stops = super::reading::stops(spec);
        let scales: Vec<Scale> = spec.panels().map(|(_, lines)| up(spec, lines)).collect();
        let left = scales.iter().map(number_width).fold(24.0, f64::max) + 14.0;
        let rough = axes::across(stops.iter().copied(), parts(width - left));
        let right = ends::room(spec, width, &rough);
        let wide = width - left - right.unwrap_or(RIGHT);
        let across = axes::across(stops.iter().copied(), parts(wide));
        let styles: Vec<Vec<Style>> = spec.panels().map(|(_, lines)| styles(lines)).collect();
        let (legend, legend_height) = if right.is_none() && ends::named(spec) {
            let names = spec.all_lines().map(|(_, line)| line.name.as_str());
            let mut lines: Vec<(&str, Style)> = Vec::new();
            // Plots under one another show the same lines in other units; one entry serves them all.
            for line in names.zip(styles.iter().flatten().copied()) {
                if !lines.contains(&line) {
                    lines.push(line);
                }
            }
            ends::legend(&lines, width)
        } else {
            (Vec::new(), 0.0)
        };
        let hanging = marks::rows(spec, &across, left, left + wide);
        let top = legend_height + HEADING + marks::height(&hanging, left, left + wide);
        let from = Rect {
            x: left,
            y: top,
            width: wide,
            height: 0.0,
        };
        let panels = stack(scales, from);
        Self {
            spec,
            width,
            counts: spec.counts(),
            stops,
            across,
            field: around(&panels),
            panels,
            styles,
            named_at_ends: right.is_some(),
            legend,
            legend_height,
            hanging,
        }
    }

    fn size(&self) -> Size {
        Size {
            width: self.width,
            height: self.field.y + self.field.height + FOOT,
        }
    }

    /// Everything from back to front: axes, lines of marks, lines, names, texts of marks, dots.
    fn shapes(&self) -> Vec<Shape> {
        let mut back = across_axis(self.spec, &self.across, &self.field, self.counts, self.width);
        let mut crowd = Crowd::default();
        let mut lines = Vec::new();
        let mut names = self.legend.clone();
        for (number, (axis, of_panel)) in self.spec.panels().enumerate() {
            let panel = &self.panels[number];
            back.push(self.heading(number, &axis.heading()));
            back.extend(up_axis(panel));
            for (line, style) in of_panel.iter().zip(&self.styles[number]) {
                let stretches = stretches(line, &self.across, panel);
                lines.extend(shapes(&stretches, *style));
                crowd.lines.extend(stretches);
            }
            if self.named_at_ends {
                names.extend(ends::at_ends(of_panel, &self.across, panel));
            }
        }
        let (mark_lines, mark_texts) = marks::hanging(&self.hanging, &self.field);
        let standing = names.iter().chain(&mark_texts);
        crowd.taken.extend(standing.filter_map(room_of));
        let whole = Rect {
            x: self.field.x,
            y: 0.0,
            width: self.width - self.field.x,
            height: self.size().height,
        };
        let dots = marks::dots(self.spec, &self.across, &self.panels, &mut crowd, &whole);
        let order = [back, mark_lines, lines, names, mark_texts, dots];
        order.into_iter().flatten().collect()
    }

    /// What a plot's axis up is: over the first plot with its marks, right over every other.
    fn heading(&self, number: usize, heading: &str) -> Shape {
        let foot = if number == 0 {
            self.legend_height + 13.0
        } else {
            self.panels[number].area.y - 12.0
        };
        let said = fitted(heading, self.width);
        text("plot-text", Point::new(0.0, foot), Anchor::Start, said)
    }
}

fn room_of(shape: &Shape) -> Option<Rect> {
    match shape {
        Shape::Text { at, anchor, text, .. } => Some(text_box(*at, *anchor, text)),
        _ => None,
    }
}

/// The axis up of a plot, with room for its lines and the dots on them.
fn up(spec: &ChartSpec, lines: &[super::LineSpec]) -> Scale {
    let most = if spec.below.is_empty() { 5 } else { 3 };
    let points = lines.iter().flat_map(|line| &line.points);
    axes::up(points.filter_map(|(_, value)| *value), most)
}

fn number_width(scale: &Scale) -> f64 {
    let ticks = scale.ticks().into_iter();
    ticks.map(|(_, text)| wide(&text)).fold(0.0, f64::max)
}

/// Into how many parts ticks may cut an axis so wide.
fn parts(wide: f64) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few dozen at most"
    )]
    let parts = (wide / NUMBER).clamp(2.0, 12.0) as usize;
    parts
}

/// Plots one under another from the top edge of a rectangle.
fn stack(scales: Vec<Scale>, from: Rect) -> Vec<Panel> {
    let height = if scales.len() > 1 {
        LOW
    } else {
        (from.width * TALL.0).clamp(TALL.1, TALL.2)
    };
    let panel = |(number, scale): (usize, Scale)| Panel {
        area: Rect {
            y: from.y + number as f64 * (height + HEADING + GAP),
            height,
            ..from
        },
        scale,
    };
    scales.into_iter().enumerate().map(panel).collect()
}

fn around(panels: &[Panel]) -> Rect {
    let first = panels.first().map(|panel| panel.area).unwrap_or_default();
    let low = panels
        .last()
        .map_or(0.0, |panel| panel.area.y + panel.area.height);
    Rect {
        height: low - first.y,
        ..first
    }
}

/// Ticks of the axis across through all plots, and its title below.
fn across_axis(spec: &ChartSpec, across: &Scale, field: &Rect, counts: bool, width: f64) -> Vec<Shape> {
    let low = field.y + field.height;
    let mut shapes = Vec::new();
    for (value, written) in across.ticks() {
        // Between whole numbers there is nothing to be read.
        if counts && (value - value.round()).abs() > 1e-9 {
            continue;
        }
        let x = field.x + across.share(value) * field.width;
        shapes.push(path(
            "plot-grid",
            format!("M{x:.1} {:.1}V{:.1}", field.y, low + 4.0),
        ));
        let written = if counts {
            axes::number(value, true)
        } else {
            written
        };
        let half = wide(&written) / 2.0;
        let middle = x.min(width - half - 1.0);
        shapes.push(text(
            "plot-text",
            Point::new(middle, low + ROW + 4.0),
            Anchor::Middle,
            written,
        ));
    }
    let title = fitted(&spec.across.heading(), width);
    let end = (field.x + field.width).max(wide(&title) + 1.0).min(width - 1.0);
    shapes.push(text("plot-text", Point::new(end, low + 42.0), Anchor::End, title));
    shapes
}

/// Ticks of a plot's own axis, the axis, and the height of nothing.
fn up_axis(panel: &Panel) -> Vec<Shape> {
    let area = panel.area;
    let (right, low) = (area.x + area.width, area.y + area.height);
    let height = |value: f64| area.y + (1.0 - panel.scale.share(value)) * area.height;
    let mut shapes = Vec::new();
    for (value, written) in panel.scale.ticks() {
        let y = height(value);
        shapes.push(path(
            "plot-grid",
            format!("M{:.1} {y:.1}H{right:.1}", area.x - 4.0),
        ));
        let at = Point::new(area.x - 8.0, y + 4.5);
        shapes.push(text("plot-text", at, Anchor::End, written));
    }
    let zero = height(0.0).clamp(area.y, low);
    shapes.push(path(
        "plot-thin",
        format!(
            "M{:.1} {:.1}V{low:.1}M{:.1} {zero:.1}H{right:.1}",
            area.x, area.y, area.x
        ),
    ));
    shapes
}

fn present(spec: &ChartSpec, across: &Scale, field: &Rect) -> Option<Point> {
    let mark = spec.marks.iter().find(|mark| mark.kind == MarkSort::Present)?;
    let share = across.share(mark.at);
    let inside = (-1e-9..=1.0 + 1e-9).contains(&share);
    inside.then(|| Point::new(field.x + share * field.width, field.y + field.height))
}
