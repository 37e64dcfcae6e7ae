//! Snapping: to the line of another shaft where one is near, else to the grid.

use crate::geometry::Point;
use crate::placement::GRID;

/// How near the line of another shaft draws, in bench units.
const REACH: f64 = 7.0;

/// A snapped place with the lines that show why.
#[derive(Clone, Debug, PartialEq)]
pub struct Snapped {
    /// The place.
    pub at: Point,
    /// Lines to what it is aligned with.
    pub guides: Vec<(Point, Point)>,
}

/// Snaps a place beside others.
#[must_use]
pub fn snap(at: Point, others: impl Iterator<Item = Point> + Clone) -> Snapped {
    let nearest = |distance: fn(Point, Point) -> f64| {
        let near = others.clone().filter(move |other| distance(*other, at) <= REACH);
        near.min_by(|one, other| {
            let first = (distance(*one, at), one.distance(at));
            let second = (distance(*other, at), other.distance(at));
            first.0.total_cmp(&second.0).then(first.1.total_cmp(&second.1))
        })
    };
    let upright = nearest(|other, at| (other.x - at.x).abs());
    let level = nearest(|other, at| (other.y - at.y).abs());
    let at = Point::new(
        upright.map_or_else(|| to_grid(at.x), |other| other.x),
        level.map_or_else(|| to_grid(at.y), |other| other.y),
    );
    let guides = upright
        .into_iter()
        .chain(level)
        .map(|other| (other, at))
        .collect();
    Snapped { at, guides }
}

/// The nearest grid line.
fn to_grid(value: f64) -> f64 {
    (value / GRID).round() * GRID
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(at: (f64, f64), others: &[(f64, f64)], expected: (f64, f64), guides: usize) {
        let others = others.iter().map(|(x, y)| Point::new(*x, *y));
        let snapped = snap(Point::new(at.0, at.1), others);
        assert_eq!(
            (snapped.at, snapped.guides.len()),
            (Point::new(expected.0, expected.1), guides)
        );
    }

    #[test]
    fn the_grid_holds_where_nothing_is_near() {
        check((33.0, 48.0), &[(200.0, 200.0)], (40.0, 40.0), 0);
    }

    #[test]
    fn another_shaft_s_line_comes_before_the_grid() {
        check((203.0, 48.0), &[(200.0, 205.0)], (200.0, 40.0), 1);
        check(
            (203.0, 208.0),
            &[(200.0, 300.0), (100.0, 205.0)],
            (200.0, 205.0),
            2,
        );
    }
}
