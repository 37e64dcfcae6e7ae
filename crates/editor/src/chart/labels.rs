//! Places for texts: where nothing else stands, and if it can be had, where no line runs.

use std::cmp::Ordering;

use super::shape::{Anchor, overlap, text_box, wide};
use crate::geometry::{Point, Rect};

/// What stands on a drawing already.
#[derive(Debug, Default)]
pub struct Crowd {
    /// Nothing may stand here.
    pub taken: Vec<Rect>,
    /// Lines, as their points; better not upon these.
    pub lines: Vec<Vec<Point>>,
}

/// Where a text may stand about a dot: right and left of it, over and under it, nearer places first.
fn tries() -> impl Iterator<Item = (Anchor, Point)> {
    let near = [
        (Anchor::Start, Point::new(9.0, -8.0)),
        (Anchor::End, Point::new(-9.0, -8.0)),
        (Anchor::Middle, Point::new(0.0, -12.0)),
        (Anchor::Start, Point::new(9.0, 18.0)),
        (Anchor::End, Point::new(-9.0, 18.0)),
        (Anchor::Middle, Point::new(0.0, 22.0)),
        (Anchor::Start, Point::new(10.0, 4.5)),
        (Anchor::End, Point::new(-10.0, 4.5)),
    ];
    let away = [28.0, 46.0, 64.0, 82.0].into_iter().flat_map(|far| {
        [
            (Anchor::Middle, Point::new(0.0, -far)),
            (Anchor::Middle, Point::new(0.0, far + 10.0)),
            (Anchor::Start, Point::new(6.0, -far)),
            (Anchor::End, Point::new(-6.0, -far)),
            (Anchor::Start, Point::new(6.0, far + 10.0)),
            (Anchor::End, Point::new(-6.0, far + 10.0)),
        ]
    });
    near.into_iter().chain(away)
}

impl Crowd {
    /// A place for a text about a dot inside a rectangle; none where there is no room.
    pub fn place(&self, dot: Point, text: &str, inside: &Rect) -> Option<(Anchor, Point)> {
        let mut best: Option<(usize, Anchor, Point)> = None;
        for (anchor, by) in tries() {
            let at = dot + by;
            let room = text_box(at, anchor, text);
            if !holds(inside, &room) || self.taken.iter().any(|taken| overlap(taken, &room)) {
                continue;
            }
            let cost = self.crossings(&room) * 4 + usize::from(by.length() > 26.0) * 6;
            if best.is_none_or(|(least, _, _)| cost < least) {
                best = Some((cost, anchor, at));
            }
            if cost == 0 {
                break;
            }
        }
        best.map(|(_, anchor, at)| (anchor, at))
    }

    /// How many lines run through a rectangle.
    fn crossings(&self, room: &Rect) -> usize {
        let runs_through = |line: &&Vec<Point>| {
            line.windows(2).any(|pair| crosses(pair[0], pair[1], room))
                || line.len() == 1 && contains(room, line[0])
        };
        self.lines.iter().filter(runs_through).count()
    }
}

fn contains(room: &Rect, at: Point) -> bool {
    (room.x..=room.x + room.width).contains(&at.x) && (room.y..=room.y + room.height).contains(&at.y)
}

/// Whether a rectangle lies in another.
pub fn holds(outer: &Rect, inner: &Rect) -> bool {
    inner.x >= outer.x
        && inner.y >= outer.y
        && inner.x + inner.width <= outer.x + outer.width
        && inner.y + inner.height <= outer.y + outer.height
}

/// Whether a straight piece runs through a rectangle.
fn crosses(from: Point, to: Point, room: &Rect) -> bool {
    room.part_within(from, to).is_some()
}

/// A text over a plot, at the head of a line that runs down from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Hanging {
    /// Where its line is.
    pub at: f64,
    /// Left end of the text.
    pub left: f64,
    /// Its row, 0 next to the plot.
    pub row: usize,
    /// Its words.
    pub text: String,
}

/// Rows for texts over a plot: none overlaps another, and none stands on the line of one above it.
pub fn hang(texts: &[(f64, String)], left: f64, right: f64) -> Vec<Hanging> {
    let mut hung: Vec<Hanging> = Vec::new();
    for (at, text) in texts {
        let width = wide(text);
        let start = (at - width / 2.0).min(right - width).max(left);
        let end = start + width;
        let free = |row: usize, lines: bool| {
            hung.iter().all(|other| {
                let (from, to) = (other.left - 8.0, other.left + wide(&other.text) + 8.0);
                match other.row.cmp(&row) {
                    Ordering::Equal => end < from || start > to,
                    Ordering::Less => !lines || *at < from + 4.0 || *at > to - 4.0,
                    Ordering::Greater => !lines || other.at < start - 4.0 || other.at > end + 4.0,
                }
            })
        };
        // Two at one place can't but hang over one another; then only the texts are kept apart.
        let rows = 0..=hung.len();
        let row = rows.clone().find(|row| free(*row, true));
        let row = row.or_else(|| rows.clone().find(|row| free(*row, false)));
        hung.push(Hanging {
            at: *at,
            left: start,
            row: row.unwrap_or(0),
            text: text.clone(),
        });
    }
    hung
}

/// Heights for texts beside the ends of lines, at least a row apart, as near to the wished heights as that allows.
pub fn spread(wished: &[f64], row: f64, top: f64, low: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wished.len()).collect();
    order.sort_by(|one, other| wished[*one].total_cmp(&wished[*other]));
    let mut heights = vec![0.0; wished.len()];
    let mut free = top;
    for number in &order {
        heights[*number] = wished[*number].max(free);
        free = heights[*number] + row;
    }
    let mut limit = low;
    for number in order.iter().rev() {
        heights[*number] = heights[*number].min(limit);
        limit = heights[*number] - row;
    }
    heights
}
