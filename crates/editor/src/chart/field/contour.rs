//! Lines of equal value through a grid of values, and what lies above a level: cell by cell, values between the corners taken
//! on straight lines along the edges.

use crate::geometry::{Point, Rect};

/// A grid of values at places in pixels.
#[derive(Debug)]
pub struct Grid {
    pub xs: Vec<f64>,
    pub ys: Vec<f64>,
    /// By row in the order of `ys`.
    pub values: Vec<Vec<Option<f64>>>,
}

/// A cell's corners with their values, going round.
type Corners = [(Point, f64); 4];

impl Grid {
    fn value(&self, column: usize, row: usize) -> Option<f64> {
        let value = self.values.get(row)?.get(column).copied().flatten();
        value.filter(|value| value.is_finite())
    }

    /// The cells row by row; none where a corner has no value.
    fn cells(&self) -> impl Iterator<Item = (usize, usize, Option<Corners>)> + '_ {
        let columns = self.xs.len().saturating_sub(1);
        let rows = self.ys.len().saturating_sub(1);
        (0..rows).flat_map(move |row| (0..columns).map(move |column| (column, row, self.cell(column, row))))
    }

    fn cell(&self, column: usize, row: usize) -> Option<Corners> {
        let corner = |right: usize, up: usize| {
            let at = Point::new(self.xs[column + right], self.ys[row + up]);
            Some((at, self.value(column + right, row + up)?))
        };
        Some([corner(0, 0)?, corner(1, 0)?, corner(1, 1)?, corner(0, 1)?])
    }

    /// Pieces of the line of this value.
    pub fn line(&self, level: f64) -> Vec<[Point; 2]> {
        let mut pieces = Vec::new();
        for (_, _, corners) in self.cells() {
            let Some(corners) = corners else { continue };
            let cuts: Vec<Point> = (0..4)
                .filter_map(|side| cut(corners[side], corners[(side + 1) % 4], level))
                .collect();
            match cuts.as_slice() {
                [from, to] => pieces.push([*from, *to]),
                // A saddle: the middle says which corners hang together.
                [one, two, three, four] => {
                    let middle = corners.iter().map(|(_, value)| value).sum::<f64>() / 4.0;
                    if (middle >= level) == (corners[0].1 >= level) {
                        pieces.extend([[*one, *two], [*three, *four]]);
                    } else {
                        pieces.extend([[*four, *one], [*two, *three]]);
                    }
                }
                _ => {}
            }
        }
        pieces
    }

    /// The outline of all that is not below this value.
    pub fn above(&self, level: f64) -> String {
        let mut outline = String::new();
        let mut run: Option<(usize, usize, usize)> = None;
        for (column, row, corners) in self.cells() {
            let inside = corners.is_some_and(|corners| corners.iter().all(|(_, value)| *value >= level));
            // Whole cells beside one another become one rectangle, so that no seam shows between them.
            if inside && run.is_some_and(|(_, to, of)| of == row && to == column) {
                run = run.map(|(from, to, of)| (from, to + 1, of));
                continue;
            }
            self.close(run.take(), &mut outline);
            if inside {
                run = Some((column, column + 1, row));
            } else if let Some(corners) = corners {
                part(&corners, level, &mut outline);
            }
        }
        self.close(run, &mut outline);
        outline
    }

    fn close(&self, run: Option<(usize, usize, usize)>, outline: &mut String) {
        if let Some((from, to, row)) = run {
            let (left, right) = (self.xs[from], self.xs[to]);
            let (low, high) = (self.ys[row], self.ys[row + 1]);
            outline.push_str(&format!("M{left:.1} {low:.1}H{right:.1}V{high:.1}H{left:.1}Z"));
        }
    }

    /// Slanting strokes through the cells that have no value.
    pub fn missing(&self) -> String {
        let mut strokes = String::new();
        for (column, row, corners) in self.cells() {
            if corners.is_none() && (column + row) % 2 == 0 {
                let (left, right) = (self.xs[column], self.xs[column + 1]);
                let (low, high) = (self.ys[row], self.ys[row + 1]);
                strokes.push_str(&format!("M{left:.1} {low:.1}L{right:.1} {high:.1}"));
            }
        }
        strokes
    }
}

/// Where an edge has the value.
fn cut(from: (Point, f64), to: (Point, f64), level: f64) -> Option<Point> {
    if (from.1 >= level) == (to.1 >= level) {
        return None;
    }
    Some(from.0 + (to.0 - from.0) * ((level - from.1) / (to.1 - from.1)))
}

/// The part of a cell that is not below a value.
fn part(corners: &Corners, level: f64, outline: &mut String) {
    let mut points = Vec::new();
    for side in 0..4 {
        let (from, to) = (corners[side], corners[(side + 1) % 4]);
        if from.1 >= level {
            points.push(from.0);
        }
        points.extend(cut(from, to, level));
    }
    if points.len() < 3 {
        return;
    }
    for (number, at) in points.iter().enumerate() {
        let letter = if number == 0 { 'M' } else { 'L' };
        outline.push_str(&format!("{letter}{:.1} {:.1}", at.x, at.y));
    }
    outline.push('Z');
}

/// Pieces as one path.
pub fn path(pieces: &[[Point; 2]]) -> String {
    let piece = |[from, to]: &[Point; 2]| format!("M{:.1} {:.1}L{:.1} {:.1}", from.x, from.y, to.x, to.y);
    pieces.iter().map(piece).collect()
}

/// What of a straight piece lies outside a rectangle.
pub fn outside([from, to]: [Point; 2], room: &Rect) -> Vec<[Point; 2]> {
    let by = to - from;
    let Some((first, last)) = room.part_within(from, to).filter(|(first, last)| first < last) else {
        return vec![[from, to]];
    };
    let at = |share: f64| Point::new(from.x + by.x * share, from.y + by.y * share);
    let mut kept = Vec::new();
    if first > 0.0 {
        kept.push([from, at(first)]);
    }
    if last < 1.0 {
        kept.push([at(last), to]);
    }
    kept
}
