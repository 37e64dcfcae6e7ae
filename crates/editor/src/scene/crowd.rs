//! Who stands in whose way: rectangles and lines on a coarse grid, so that asking is cheap with hundreds of them.
//!
//! The grid only finds who may be met; what is met is measured by itself, once, in however many cells it lies.

use std::cell::Cell;
use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

use crate::geometry::{Point, Rect};

/// Side of a grid cell in bench units: about the size of a label.
const CELL: f64 = 80.0;

/// The most cells that one thing reaches in a direction. A bench is never so large; the cap keeps an absurd coordinate
/// from filling the memory.
const FARTHEST: i64 = 200;

/// What is taken, each with the price of covering one unit of its area.
#[derive(Debug, Default)]
pub struct Crowd {
    taken: Vec<Taken>,
    /// Looked up only, never gone through: its order shows nowhere.
    cells: HashMap<(i64, i64), Vec<usize>, BuildHasherDefault<CellHasher>>,
    /// Counts the questions, so that what lies in several cells is met once in each.
    question: Cell<u32>,
    /// Where questions are asked; none: anywhere.
    asked: Option<Rect>,
}

/// Mixes the two numbers of a cell. There are thousands of look-ups for every drawing, and nobody chooses the numbers to
/// slow it down, so that the usual careful hash is not needed.
#[derive(Debug, Default)]
struct CellHasher(u64);

impl Hasher for CellHasher {
    fn write(&mut self, bytes: &[u8]) {
        for &byte in bytes {
            self.write_i64(i64::from(byte));
        }
    }

    fn write_i64(&mut self, number: i64) {
        // The constant is that of the golden ratio, an odd number without pattern.
        self.0 = (self.0.rotate_left(26) ^ number.cast_unsigned()).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    }

    fn finish(&self) -> u64 {
        self.0
    }
}

/// Something taken.
#[derive(Debug)]
struct Taken {
    shape: Shape,
    price: f64,
    /// The last question that met it.
    met: Cell<u32>,
}

/// Its shape.
#[derive(Clone, Copy, Debug)]
enum Shape {
    Rect(Rect),
    Line(Line),
}

/// A straight band.
#[derive(Clone, Copy, Debug)]
struct Line {
    from: Point,
    to: Point,
    width: f64,
}

/// Covering a thin line costs less than its neighbourhood is worth, so that lines count as sparse dots down from here.
const SOLID: f64 = 8.0;

impl Crowd {
    /// A crowd that is asked within a rectangle alone: what no such question can meet is not kept. Two that share a cell
    /// can meet, so the rectangle counts with a cell round it.
    pub fn within(asked: Rect) -> Self {
        Self {
            asked: Some(asked.grown(CELL)),
            ..Self::default()
        }
    }

    /// Whether a question can meet what lies there.
    fn can_be_met(&self, room: &Rect) -> bool {
        self.asked.is_none_or(|asked| {
            room.x <= asked.right()
                && asked.x <= room.right()
                && room.y <= asked.bottom()
                && asked.y <= room.bottom()
        })
    }

    /// Takes a rectangle.
    pub fn take(&mut self, rect: Rect, price: f64) {
        if !self.can_be_met(&rect) {
            return;
        }
        let number = self.add(Shape::Rect(rect), price);
        for cell in cells(&rect) {
            self.cells.entry(cell).or_default().push(number);
        }
    }

    /// Takes a straight piece of a connection.
    pub fn take_line(&mut self, from: Point, to: Point, width: f64, price: f64) {
        let line = Line { from, to, width };
        if !self.can_be_met(&Rect::between(from, to).grown(width)) {
            return;
        }
        let number = self.add(Shape::Line(line), price);
        for cell in line.cells() {
            self.cells.entry(cell).or_default().push(number);
        }
    }

    fn add(&mut self, shape: Shape, price: f64) -> usize {
        self.taken.push(Taken {
            shape,
            price,
            met: Cell::new(0),
        });
        self.taken.len() - 1
    }

    /// What it would cost to cover a rectangle.
    #[must_use]
    pub fn price(&self, rect: &Rect) -> f64 {
        self.price_up_to(rect, f64::INFINITY)
    }

    /// The same, except that what is as high as the limit or higher need not be added up.
    #[must_use]
    pub fn price_up_to(&self, rect: &Rect, limit: f64) -> f64 {
        self.sum(cells(rect), limit, |taken| {
            let area = match &taken.shape {
                Shape::Rect(other) => rect.overlap(other),
                Shape::Line(line) => line.covered_by(rect),
            };
            area * taken.price
        })
    }

    /// How many things of this price or a higher one a rectangle would cover some of.
    #[must_use]
    pub fn met(&self, rect: &Rect, least_price: f64) -> f64 {
        self.sum(cells(rect), f64::INFINITY, |taken| {
            let area = match &taken.shape {
                Shape::Rect(other) => rect.overlap(other),
                Shape::Line(line) => line.covered_by(rect),
            };
            f64::from(u8::from(taken.price >= least_price && area > 0.0))
        })
    }

    /// How many things of this price or a higher one a line of some width would meet.
    #[must_use]
    pub fn met_by_line(&self, from: Point, to: Point, width: f64, least_price: f64) -> f64 {
        let line = Line { from, to, width };
        self.sum(line.cells().into_iter(), f64::INFINITY, |taken| {
            let meets = taken.price >= least_price
                && match &taken.shape {
                    Shape::Rect(other) => line.covered_by(other) > 0.0,
                    Shape::Line(other) => line.overlap(other) > 0.0,
                };
            f64::from(u8::from(meets))
        })
    }

    /// What it would cost to draw a line of some width.
    #[must_use]
    pub fn line_price(&self, from: Point, to: Point, width: f64) -> f64 {
        let line = Line { from, to, width };
        self.sum(line.cells().into_iter(), f64::INFINITY, |taken| {
            let area = match &taken.shape {
                Shape::Rect(other) => line.covered_by(other),
                Shape::Line(other) => line.overlap(other),
            };
            area * taken.price
        })
    }

    /// Adds up the costs of all that is met in some cells.
    fn sum(&self, cells: impl Iterator<Item = (i64, i64)>, limit: f64, cost: impl Fn(&Taken) -> f64) -> f64 {
        let question = self.question.get() + 1;
        self.question.set(question);
        let mut sum = 0.0;
        for cell in cells {
            for &number in self.cells.get(&cell).map_or(&[][..], Vec::as_slice) {
                let taken = &self.taken[number];
                if taken.met.replace(question) != question {
                    sum += cost(taken);
                }
            }
            if sum >= limit {
                break;
            }
        }
        sum
    }
}

impl Line {
    /// Area per unit of length.
    fn weight(&self) -> f64 {
        self.width * self.width / self.width.max(SOLID)
    }

    /// Area that lies within a rectangle.
    fn covered_by(&self, rect: &Rect) -> f64 {
        let within = rect.grown(self.width / 2.0).part_within(self.from, self.to);
        within.map_or(0.0, |(first, last)| {
            (last - first) * self.from.distance(self.to) * self.weight()
        })
    }

    /// Area that two bands share: a rhombus where they cross, a strip where they run side by side.
    fn overlap(&self, other: &Self) -> f64 {
        let (along, across) = (self.to - self.from, other.to - other.from);
        let (length, other_length) = (along.length(), across.length());
        let turn = along.x * across.y - along.y * across.x;
        let sine = turn.abs() / (length * other_length).max(1e-9);
        let weights = self.weight().min(self.width) * other.weight().min(other.width);
        if sine < 0.1 {
            return self.strip(other, along * (1.0 / length.max(1e-9)));
        }
        let between = other.from - self.from;
        let here = (between.x * across.y - between.y * across.x) / turn;
        let there = (between.x * along.y - between.y * along.x) / turn;
        let meet = (0.0..=1.0).contains(&here) && (0.0..=1.0).contains(&there);
        if meet { weights / sine } else { 0.0 }
    }

    /// The strip shared with a nearly parallel band; `unit` points along this one.
    fn strip(&self, other: &Self, unit: Point) -> f64 {
        let place = |at: Point| {
            let from = at - self.from;
            (
                from.x * unit.x + from.y * unit.y,
                from.x * unit.y - from.y * unit.x,
            )
        };
        let ((one, one_off), (two, two_off)) = (place(other.from), place(other.to));
        let shared = one.max(two).min(self.from.distance(self.to)) - one.min(two).max(0.0);
        let apart = ((one_off + two_off) / 2.0).abs();
        let common = ((self.width + other.width) / 2.0 - apart).min(self.width.min(other.width));
        shared.max(0.0) * common.max(0.0)
    }

    /// The cells that it goes through, column by column.
    fn cells(&self) -> Vec<(i64, i64)> {
        let along = self.to - self.from;
        let room = Rect::between(self.from, self.to).grown(self.width / 2.0);
        let (left, top) = cell_of(Point::new(room.x, room.y));
        let (right, bottom) = cell_of(Point::new(room.right(), room.bottom()));
        let mut found = Vec::new();
        for column in left..=right.min(left + FARTHEST) {
            let strip = Rect {
                x: column as f64 * CELL,
                width: CELL,
                ..room
            }
            .grown(self.width / 2.0);
            let Some((first, last)) = strip.part_within(self.from, self.to) else {
                continue;
            };
            let part =
                Rect::between(self.from + along * first, self.from + along * last).grown(self.width / 2.0);
            let from = cell_of(Point::new(part.x, part.y)).1.max(top);
            let to = cell_of(Point::new(part.right(), part.bottom())).1.min(bottom);
            found.extend((from..=to.min(from + FARTHEST)).map(|row| (column, row)));
        }
        found
    }
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
    (left..=right.min(left.saturating_add(40)))
        .flat_map(move |x| (top..=bottom.min(top.saturating_add(40))).map(move |y| (x, y)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rect(x: f64, y: f64, width: f64, height: f64) -> Rect {
        Rect { x, y, width, height }
    }

    fn check(found: f64, expected: f64) {
        assert!((found - expected).abs() < 1e-9, "{found} instead of {expected}");
    }

    #[test]
    fn an_overlap_across_cells_is_counted_once() {
        let mut crowd = Crowd::default();
        crowd.take(rect(0.0, 0.0, 200.0, 200.0), 1.0);
        check(crowd.price(&rect(100.0, 100.0, 200.0, 50.0)), 5000.0);
    }

    #[test]
    fn a_crowd_that_is_asked_nearby_answers_as_a_whole_one() {
        let asked = rect(-60.0, -40.0, 130.0, 90.0);
        let (mut whole, mut near) = (Crowd::default(), Crowd::within(asked));
        for n in 0..200_i32 {
            let at = Point::new(f64::from(n * 37 % 900) - 450.0, f64::from(n * 71 % 700) - 350.0);
            let to = at + Point::new(f64::from(n * 13 % 500) - 250.0, f64::from(n * 29 % 300) - 150.0);
            for crowd in [&mut whole, &mut near] {
                crowd.take(Rect::around(at, 40.0, 20.0), 2.0);
                crowd.take_line(at, to, 6.0, 1.2);
            }
        }
        assert!(near.taken.len() < whole.taken.len());
        let (from, to) = (Point::new(-50.0, -30.0), Point::new(60.0, 40.0));
        for (one, other) in [
            (near.price(&asked), whole.price(&asked)),
            (near.line_price(from, to, 10.0), whole.line_price(from, to, 10.0)),
        ] {
            assert_eq!(one.to_bits(), other.to_bits());
        }
    }

    #[test]
    fn a_line_across_cells_is_counted_once() {
        let mut crowd = Crowd::default();
        crowd.take_line(Point::new(-500.0, 0.0), Point::new(500.0, 0.0), 10.0, 2.0);
        // Half the line's width is added to either end of the rectangle.
        check(crowd.price(&rect(-100.0, -20.0, 190.0, 40.0)), 200.0 * 10.0 * 2.0);
        check(crowd.price(&rect(-100.0, 6.0, 190.0, 40.0)), 0.0);
    }

    #[test]
    fn a_line_meets_what_it_touches_and_is_dear_enough() {
        let mut crowd = Crowd::default();
        crowd.take(rect(0.0, 0.0, 60.0, 16.0), 4.0);
        crowd.take(rect(100.0, 0.0, 60.0, 16.0), 2.0);
        crowd.take_line(Point::new(200.0, -50.0), Point::new(200.0, 50.0), 4.0, 4.0);
        let met = |y: f64| crowd.met_by_line(Point::new(-50.0, y), Point::new(250.0, y), 4.0, 4.0);
        check(met(8.0), 2.0);
        check(met(40.0), 1.0);
        check(met(60.0), 0.0);
    }

    #[test]
    fn lines_are_met_where_they_cross_or_run_side_by_side() {
        let mut crowd = Crowd::default();
        crowd.take_line(Point::new(-300.0, 0.0), Point::new(300.0, 0.0), 10.0, 1.0);
        let price = |from: (f64, f64), to: (f64, f64)| {
            crowd.line_price(Point::new(from.0, from.1), Point::new(to.0, to.1), 10.0)
        };
        check(price((50.0, -100.0), (50.0, 100.0)), 100.0);
        check(price((50.0, 20.0), (50.0, 100.0)), 0.0);
        check(price((100.0, 4.0), (400.0, 4.0)), 200.0 * 6.0);
        check(price((100.0, 12.0), (400.0, 12.0)), 0.0);
    }
}
