//! Who stands in whose way: rectangles on a coarse grid, so that asking is cheap with hundreds of them.

use std::collections::BTreeMap;

use crate::geometry::{Point, Rect};

/// Side of a grid cell in bench units: about the size of a label.
const CELL: f64 = 80.0;

/// Rectangles that are taken, each with the price of covering one unit of its area.
#[derive(Debug, Default)]
pub struct Crowd {
    taken: Vec<(Rect, f64)>,
    cells: BTreeMap<(i64, i64), Vec<usize>>,
}

impl Crowd {
    /// Takes a rectangle.
    pub fn take(&mut self, rect: Rect, price: f64) {
        let number = self.taken.len();
        self.taken.push((rect, price));
        for cell in cells(&rect) {
            self.cells.entry(cell).or_default().push(number);
        }
    }

    /// Takes a straight piece of a connection, as a row of small squares.
    pub fn take_line(&mut self, from: Point, to: Point, width: f64, price: f64) {
        for at in along(from, to, width.max(8.0)) {
            self.take(Rect::around(at, width, width), price);
        }
    }

    /// What it would cost to cover a rectangle.
    #[must_use]
    pub fn price(&self, rect: &Rect) -> f64 {
        let mut sum = 0.0;
        for cell in cells(rect) {
            for &number in self.cells.get(&cell).map_or(&[][..], Vec::as_slice) {
                let (taken, price) = &self.taken[number];
                let corner = Point::new(rect.x.max(taken.x), rect.y.max(taken.y));
                // A pair that shares several cells is counted in that of the upper left corner of their overlap.
                if cell_of(corner) == cell {
                    sum += rect.overlap(taken) * price;
                }
            }
        }
        sum
    }

    /// What it would cost to draw a line of some width.
    #[must_use]
    pub fn line_price(&self, from: Point, to: Point, width: f64) -> f64 {
        along(from, to, width.max(8.0))
            .map(|at| self.price(&Rect::around(at, width, width)))
            .sum()
    }
}

/// Points along a line, neither of its ends among them.
fn along(from: Point, to: Point, step: f64) -> impl Iterator<Item = Point> {
    // A line is never longer than a bench; the cap keeps an absurd coordinate from filling the memory.
    let count = (from.distance(to) / step).floor().clamp(1.0, 2000.0);
    (1..count as usize).map(move |n| from + (to - from) * (n as f64 / count))
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a saturated cell number is still a cell"
)]
fn cell_of(at: Point) -> (i64, i64) {
    ((at.x / CELL).floor() as i64, (at.y / CELL).floor() as i64)
}

fn cells(rect: &Rect) -> impl Iterator<Item = (i64, i64)> {
    let (left, top) = cell_of(Point::new(rect.x, rect.y));
    let (right, bottom) = cell_of(Point::new(rect.right(), rect.bottom()));
    (left..=right.min(left + 40)).flat_map(move |x| (top..=bottom.min(top + 40)).map(move |y| (x, y)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_overlap_across_cells_is_counted_once() {
        let mut crowd = Crowd::default();
        crowd.take(
            Rect {
                x: 0.0,
                y: 0.0,
                width: 200.0,
                height: 200.0,
            },
            1.0,
        );
        let price = crowd.price(&Rect {
            x: 100.0,
            y: 100.0,
            width: 200.0,
            height: 50.0,
        });
        assert!((price - 5000.0).abs() < 1e-9, "{price}");
    }
}
