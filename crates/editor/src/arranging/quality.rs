//! How good a drawing is as it will be drawn, with straight wires: the lower the better.

use super::graph::Graph;
use crate::geometry::Point;

/// Price of two wires that cross.
const CROSSING: f64 = 300.0;
/// Price of a wire through a shaft or a symbol that it does not belong to.
const THROUGH: f64 = 900.0;
/// How near a wire may pass.
const CLEAR: f64 = 34.0;
/// Above this many wires the prices of pairs are left out: they would take too long.
const MOST_PAIRED: usize = 400;

/// The price of these places.
pub fn price(graph: &Graph, places: &[Point]) -> f64 {
    let length: f64 = graph
        .edges
        .iter()
        .map(|(one, other)| {
            let along = places[*other] - places[*one];
            // A wire that climbs is worse than one that is long.
            along.length() * 0.2 + along.y.abs() * 0.8
        })
        .sum();
    if graph.edges.len() > MOST_PAIRED {
        return length;
    }
    length + crossings(graph, places) + passages(graph, places)
}

fn crossings(graph: &Graph, places: &[Point]) -> f64 {
    let mut count = 0.0;
    for (number, (a, b)) in graph.edges.iter().enumerate() {
        for (c, d) in &graph.edges[number + 1..] {
            let shares_an_end = a == c || b == d || a == d || b == c;
            if !shares_an_end && cross(places[*a], places[*b], places[*c], places[*d]) {
                count += 1.0;
            }
        }
    }
    count * CROSSING
}

fn passages(graph: &Graph, places: &[Point]) -> f64 {
    let mut sum = 0.0;
    for (a, b) in &graph.edges {
        for node in (0..places.len()).filter(|node| node != a && node != b) {
            let distance = distance_to(places[*a], places[*b], places[node]);
            if distance < CLEAR {
                sum += THROUGH * (1.0 - distance / CLEAR * 0.7);
            }
        }
    }
    sum
}

/// Whether two straight pieces cross within both.
fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |from: Point, to: Point, at: Point| {
        (to.x - from.x) * (at.y - from.y) - (to.y - from.y) * (at.x - from.x)
    };
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

fn distance_to(from: Point, to: Point, at: Point) -> f64 {
    let along = to - from;
    let square = along.x * along.x + along.y * along.y;
    if square < 1e-9 {
        return at.distance(from);
    }
    let share = (((at.x - from.x) * along.x + (at.y - from.y) * along.y) / square).clamp(0.0, 1.0);
    at.distance(from + along * share)
}
