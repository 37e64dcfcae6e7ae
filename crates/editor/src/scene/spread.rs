//! Places for labels: beside what they speak of, where they cover nothing.

use super::crowd::Crowd;
use crate::geometry::{Point, Rect};

/// Price of covering a symbol or a shaft.
pub const THING: f64 = 2.0;
/// Price of covering another label: two texts on one another can't be read at all.
pub const TEXT: f64 = 4.0;
/// Width that a line from a label to its thing counts with.
const LEADER: f64 = 4.0;
/// Price of writing over a text or such a line however little, and of leading a line through one.
const ON_TEXT: f64 = 1500.0;
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
    for (rank, (centre, rank_price)) in candidates(at, half, size, below).into_iter().enumerate() {
        let rect = Rect::around(centre, size.0, size.1);
        if rank_price >= best.0 {
            // Whatever comes later costs more by its rank alone.
            break;
        }
        let mut price = crowd.price_up_to(&rect.grown(2.0), best.0 - rank_price) + rank_price;
        // Where nothing is covered nothing can be written over.
        if price < best.0 && price > rank_price {
            price += ON_TEXT * crowd.met(&rect, TEXT);
        }
        if price < best.0
            && let Some((from, to)) = leader(at, half, &rect, rank)
        {
            price += crowd.line_price(from, to, 1.0) + ON_TEXT * crowd.met_by_line(from, to, LEADER, TEXT);
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

/// The room of all places that are tried for a label, with the lines to its thing.
pub fn reach(at: Point, half: (f64, f64), size: (f64, f64)) -> Rect {
    let places = candidates(at, half, size, true).into_iter();
    places
        .map(|(centre, _)| Rect::around(centre, size.0, size.1))
        .fold(Rect::around(at, size.0, size.1), |all, room| all.union(&room))
        .grown(LEADER)
}

/// Rank from which on a candidate is so far off that it needs a line to its thing.
const FIRST_FAR: usize = 8;
/// How many steps away a label looks for room.
const FARTHEST: u8 = 8;

/// Places to try, the best first, each with the price of being no better.
fn candidates(at: Point, half: (f64, f64), size: (f64, f64), below: bool) -> Vec<(Point, f64)> {
    let up = if below { -1.0 } else { 1.0 };
    let x = half.0 + size.0 / 2.0 + 5.0;
    let y = half.1 + size.1 / 2.0 + 4.0;
    let near = [
        at - Point::new(0.0, up * y),
        at + Point::new(0.0, up * y),
        at + Point::new(x, -up * y * 0.7),
        at + Point::new(-x, -up * y * 0.7),
        at + Point::new(x, up * y * 0.7),
        at + Point::new(-x, up * y * 0.7),
        at + Point::new(x, 0.0),
        at + Point::new(-x, 0.0),
    ];
    let near = near.into_iter().enumerate();
    let mut found: Vec<(Point, f64)> = near.map(|(rank, place)| (place, rank as f64 * 6.0)).collect();
    for step in 1..=FARTHEST {
        let far = f64::from(step) * 26.0;
        for (rank, (dx, dy)) in [
            (0.0, -up),
            (0.0, up),
            (1.0, -up),
            (-1.0, -up),
            (1.0, up),
            (-1.0, up),
            (2.0, -up),
            (-2.0, -up),
            (2.0, up),
            (-2.0, up),
        ]
        .into_iter()
        .enumerate()
        {
            let away = Point::new(dx * (x * 0.8 + far * 0.6), dy * (y + far));
            found.push((at + away, 12.0 + f64::from(step) * 36.0 + rank as f64 * 3.5));
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
