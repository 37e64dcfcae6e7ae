//! Places for labels: beside what they speak of, where they cover nothing.

use super::crowd::Crowd;
use crate::geometry::{Point, Rect};

/// Price of covering a symbol or a shaft.
pub const THING: f64 = 2.0;
/// Price of covering another label: two texts on one another can't be read at all.
pub const TEXT: f64 = 4.0;
/// Width that a line from a label to its thing counts with: it is thin, but must not cross what is written.
const LEADER: f64 = 3.0;
/// Price of covering a ribbon.
pub const WIRE: f64 = 1.2;

/// Finds the room for a label of some size beside a thing of some half size, and takes it. `below`: whether the
/// place below is the natural one, else above. Gives the room and, where it had to move away, a line to the thing.
pub fn settle(
    crowd: &mut Crowd,
    at: Point,
    half: (f64, f64),
    size: (f64, f64),
    below: bool,
) -> (Rect, Option<(Point, Point)>) {
    let mut best = (f64::INFINITY, Rect::around(at, size.0, size.1), 0);
    for (rank, centre) in candidates(at, half, size, below).into_iter().enumerate() {
        let rect = Rect::around(centre, size.0, size.1);
        let rank_price = rank as f64 * 6.0;
        if rank_price >= best.0 {
            // Whatever comes later costs more by its rank alone.
            break;
        }
        let mut price = crowd.price_up_to(&rect.grown(2.0), best.0 - rank_price) + rank_price;
        if price < best.0
            && let Some((from, to)) = leader(at, half, &rect, rank)
        {
            price += crowd.line_price(from, to, LEADER);
        }
        if price < best.0 {
            best = (price, rect, rank);
        }
    }
    let (_, rect, rank) = best;
    crowd.take(rect, TEXT);
    let leader = leader(at, half, &rect, rank);
    if let Some((from, to)) = leader {
        crowd.take_line(from, to, LEADER, TEXT);
    }
    (rect, leader)
}

/// The line to its thing of a label that had to move away.
fn leader(at: Point, half: (f64, f64), rect: &Rect, rank: usize) -> Option<(Point, Point)> {
    (rank >= FIRST_FAR).then(|| {
        let end = nearest(rect, at);
        (at + (end - at).unit() * (half.1 + 3.0).min(end.distance(at)), end)
    })
}

/// Rank from which on a candidate is so far off that it needs a line to its thing.
const FIRST_FAR: usize = 8;

fn candidates(at: Point, half: (f64, f64), size: (f64, f64), below: bool) -> Vec<Point> {
    let up = if below { -1.0 } else { 1.0 };
    let x = half.0 + size.0 / 2.0 + 5.0;
    let y = half.1 + size.1 / 2.0 + 4.0;
    let mut found = vec![
        at - Point::new(0.0, up * y),
        at + Point::new(0.0, up * y),
        at + Point::new(x, -up * y * 0.7),
        at + Point::new(-x, -up * y * 0.7),
        at + Point::new(x, up * y * 0.7),
        at + Point::new(-x, up * y * 0.7),
        at + Point::new(x, 0.0),
        at + Point::new(-x, 0.0),
    ];
    for step in 1..6 {
        let far = f64::from(step) * 26.0;
        for (dx, dy) in [
            (0.0, -up),
            (0.0, up),
            (1.0, -up),
            (-1.0, -up),
            (1.0, up),
            (-1.0, up),
        ] {
            found.push(at + Point::new(dx * (x * 0.8 + far * 0.6), dy * (y + far)));
        }
    }
    found
}

fn nearest(rect: &Rect, to: Point) -> Point {
    Point::new(
        to.x.clamp(rect.x, rect.right()),
        to.y.clamp(rect.y, rect.bottom()),
    )
}
