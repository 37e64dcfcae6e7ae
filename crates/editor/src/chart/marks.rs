//! Marks along the axis across: lines with a text over the plot, dots with a text beside them.

use super::labels::{Crowd, Hanging, hang};
use super::lines::place;
use super::shape::{Anchor, ROW, Shape, fitted, path, text, text_box};
use super::{ChartSpec, MarkSort, MarkSpec, Panel, Scale};
use crate::geometry::{Point, Rect};

/// Places at which the mark of the present value is thought to stand, and a text of it as long as any.
const PLACES: u32 = 40;
const LONGEST: &str = "tried 0.3333 (now 0.08333)";

/// Rows for the texts of marks without a dot; those beyond the axis are left out.
pub fn rows(spec: &ChartSpec, across: &Scale, left: f64, right: f64) -> Vec<(MarkSort, Hanging)> {
    let mut marks: Vec<&MarkSpec> = spec.marks.iter().collect();
    marks.retain(|mark| mark.dot.is_none() && (-1e-9..=1.0 + 1e-9).contains(&across.share(mark.at)));
    // Where the layout is now is what a reader looks for first, so its text is next to the plot.
    marks.sort_by_key(|mark| mark.kind != MarkSort::Present);
    let place = |mark: &MarkSpec| left + across.share(mark.at) * (right - left);
    let (bare, said): (Vec<&MarkSpec>, Vec<&MarkSpec>) =
        marks.into_iter().partition(|mark| mark.text.is_empty());
    let texts: Vec<(f64, String)> = said
        .iter()
        .map(|mark| (place(mark), fitted(&mark.text, right - left)))
        .collect();
    let sorts = said.iter().map(|mark| mark.kind);
    let bare = bare.iter().map(|mark| {
        let line = Hanging {
            at: place(mark),
            left: place(mark),
            row: 0,
            text: String::new(),
        };
        (mark.kind, line)
    });
    sorts.zip(hang(&texts, left, right)).chain(bare).collect()
}

/// Room for the rows: as many as there may be wherever the mark of the present value is carried, so that the plot under it
/// stays in its place.
pub fn height(rows: &[(MarkSort, Hanging)], left: f64, right: f64) -> f64 {
    let texts = |present: Option<f64>| -> Vec<(f64, String)> {
        let said = rows.iter().filter(|(_, hanging)| !hanging.text.is_empty());
        let at = |(sort, hanging): &(MarkSort, Hanging)| match present {
            Some(at) if *sort == MarkSort::Present => (at, LONGEST.to_owned()),
            _ => (hanging.at, hanging.text.clone()),
        };
        said.map(at).collect()
    };
    let highest = |texts: &[(f64, String)]| {
        let rows = hang(texts, left, right)
            .into_iter()
            .map(|hanging| hanging.row + 1);
        rows.max().unwrap_or(0)
    };
    let mut most = highest(&texts(None));
    if rows.iter().any(|(sort, _)| *sort == MarkSort::Present) {
        for step in 0..=PLACES {
            let at = left + (right - left) * f64::from(step) / f64::from(PLACES);
            most = most.max(highest(&texts(Some(at))));
        }
    }
    most as f64 * ROW
}

/// Lines down through the field with their texts over it.
pub fn hanging(rows: &[(MarkSort, Hanging)], field: &Rect) -> (Vec<Shape>, Vec<Shape>) {
    let (mut lines, mut texts) = (Vec::new(), Vec::new());
    for (sort, one) in rows {
        let foot = field.y - 6.0 - one.row as f64 * ROW;
        let low = field.y + field.height;
        let line = format!("M{:.1} {:.1}V{low:.1}", one.at, foot + 3.0);
        lines.push(match sort {
            MarkSort::Present => path("plot-present", line),
            MarkSort::Best | MarkSort::Turn => path("plot-event", line),
        });
        if one.text.is_empty() {
            continue;
        }
        let class = match sort {
            MarkSort::Present => "plot-text is-present",
            MarkSort::Best => "plot-text is-strong",
            MarkSort::Turn => "plot-text",
        };
        texts.push(text(
            class,
            Point::new(one.left, foot),
            Anchor::Start,
            one.text.clone(),
        ));
    }
    (lines, texts)
}

/// Dots on lines, each with its text where there is room for it.
pub fn dots(
    spec: &ChartSpec,
    across: &Scale,
    panels: &[Panel],
    crowd: &mut Crowd,
    size: &Rect,
) -> Vec<Shape> {
    let mut shapes = Vec::new();
    let of_line: Vec<usize> = spec
        .panels()
        .enumerate()
        .flat_map(|(number, (_, lines))| vec![number; lines.len()])
        .collect();
    let mut dots: Vec<(Point, &MarkSpec, Rect)> = Vec::new();
    for mark in &spec.marks {
        let Some((line, value)) = mark.dot else { continue };
        let panel = of_line.get(line).and_then(|number| panels.get(*number));
        let Some(panel) = panel.filter(|_| (-1e-9..=1.0 + 1e-9).contains(&across.share(mark.at))) else {
            continue;
        };
        let at = place(mark.at, value, across, panel);
        let inside = Rect {
            x: size.x + 2.0,
            y: panel.area.y - 2.0,
            width: size.width - 4.0,
            height: panel.area.height + 2.0,
        };
        crowd.taken.push(Rect::around(at, 10.0, 10.0));
        dots.push((at, mark, inside));
    }
    for (at, mark, inside) in dots {
        shapes.push(Shape::Dot {
            class: match mark.kind {
                MarkSort::Best => "plot-dot is-best",
                MarkSort::Present => "plot-dot",
                MarkSort::Turn => "plot-dot is-turn",
            },
            at,
            radius: 4.5,
        });
        let said = fitted(&mark.text, inside.width);
        if let Some((anchor, place)) = crowd.place(at, &said, &inside) {
            crowd.taken.push(text_box(place, anchor, &said));
            let class = if mark.kind == MarkSort::Best {
                "plot-text is-strong"
            } else {
                "plot-text"
            };
            shapes.push(text(class, place, anchor, said));
        }
    }
    shapes
}
