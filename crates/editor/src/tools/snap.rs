//! Snapping: to the line of another shaft or to equal distances where one is near, else to the grid.

use crate::geometry::Point;
use crate::placement::GRID;

/// How near a line or an equal distance draws, in bench units.
const REACH: f64 = 7.0;

/// A snapped place with the lines that show why.
#[derive(Clone, Debug, PartialEq)]
pub struct Snapped {
    /// The place.
    pub at: Point,
    /// Lines to what it is aligned with.
    pub guides: Vec<(Point, Point)>,
    /// Pairs of gaps that are equally wide.
    pub gaps: Vec<(Point, Point)>,
}

/// One coordinate, and why it is this one.
enum Held {
    Grid,
    /// In line with another.
    Line(Point),
    /// Two gaps are equal, each from one end to the other along this axis.
    Gaps([(f64, f64); 2]),
}

/// Snaps a place beside others.
#[must_use]
pub fn snap(at: Point, others: impl Iterator<Item = Point> + Clone) -> Snapped {
    let upright = nearest(at, others.clone(), |point| point.x);
    let level = nearest(at, others.clone(), |point| point.y);
    let row = row_of(level.map_or(at.y, |other| other.y), others.clone(), |point| {
        (point.y, point.x)
    });
    let column = row_of(upright.map_or(at.x, |other| other.x), others, |point| {
        (point.x, point.y)
    });
    let (x, why_x) = settle(at.x, upright.map(|other| (other.x, other)), &row);
    let (y, why_y) = settle(at.y, level.map(|other| (other.y, other)), &column);
    let at = Point::new(x, y);
    let (mut guides, mut gaps) = (Vec::new(), Vec::new());
    match why_x {
        Held::Line(other) => guides.push((other, at)),
        Held::Gaps(both) => gaps.extend(both.map(|(from, to)| (Point::new(from, y), Point::new(to, y)))),
        Held::Grid => {}
    }
    match why_y {
        Held::Line(other) => guides.push((other, at)),
        Held::Gaps(both) => gaps.extend(both.map(|(from, to)| (Point::new(x, from), Point::new(x, to)))),
        Held::Grid => {}
    }
    Snapped { at, guides, gaps }
}

/// The other that is nearest in line, of those within reach.
fn nearest(at: Point, others: impl Iterator<Item = Point>, along: fn(Point) -> f64) -> Option<Point> {
    let off = |other: &Point| (along(*other) - along(at)).abs();
    others.filter(|other| off(other) <= REACH).min_by(|one, other| {
        let far = one.distance(at).total_cmp(&other.distance(at));
        off(one).total_cmp(&off(other)).then(far)
    })
}

/// Where others of the same row stand along it, in order.
fn row_of(row: f64, others: impl Iterator<Item = Point>, split: fn(Point) -> (f64, f64)) -> Vec<f64> {
    let in_row = others
        .map(split)
        .filter(|(across, _)| (across - row).abs() <= REACH);
    let mut places: Vec<f64> = in_row.map(|(_, along)| along).collect();
    places.sort_by(f64::total_cmp);
    places.dedup();
    places
}

/// The nearest of line, equal gaps and grid; a line comes before gaps that are no nearer.
fn settle(value: f64, line: Option<(f64, Point)>, row: &[f64]) -> (f64, Held) {
    let off = |candidate: f64| (candidate - value).abs();
    let gaps = row
        .windows(2)
        .flat_map(|pair| {
            let (one, other) = (pair[0], pair[1]);
            let gap = other - one;
            [
                (other + gap, [(one, other), (other, other + gap)]),
                (one - gap, [(one - gap, one), (one, other)]),
                (
                    one + gap / 2.0,
                    [(one, one + gap / 2.0), (one + gap / 2.0, other)],
                ),
            ]
        })
        .filter(|(candidate, _)| off(*candidate) <= REACH)
        .min_by(|one, other| off(one.0).total_cmp(&off(other.0)));
    match (line, gaps) {
        (Some((place, _)), Some((candidate, both))) if off(candidate) < off(place) => {
            (candidate, Held::Gaps(both))
        }
        (Some((place, other)), _) => (place, Held::Line(other)),
        (None, Some((candidate, both))) => (candidate, Held::Gaps(both)),
        (None, None) => (to_grid(value), Held::Grid),
    }
}

/// The nearest grid line.
fn to_grid(value: f64) -> f64 {
    (value / GRID).round() * GRID
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(at: (f64, f64), others: &[(f64, f64)], expected: (f64, f64), guides: usize, gaps: usize) {
        let others = others.iter().map(|(x, y)| Point::new(*x, *y));
        let snapped = snap(Point::new(at.0, at.1), others);
        assert_eq!(
            (snapped.at, snapped.guides.len(), snapped.gaps.len()),
            (Point::new(expected.0, expected.1), guides, gaps)
        );
    }

    #[test]
    fn the_grid_holds_where_nothing_is_near() {
        check((33.0, 48.0), &[(200.0, 200.0)], (40.0, 40.0), 0, 0);
    }

    #[test]
    fn another_shaft_s_line_comes_before_the_grid() {
        check((203.0, 48.0), &[(200.0, 205.0)], (200.0, 40.0), 1, 0);
        check(
            (203.0, 208.0),
            &[(200.0, 300.0), (100.0, 205.0)],
            (200.0, 205.0),
            2,
            0,
        );
    }

    #[test]
    fn equal_distances_in_a_row_draw() {
        // Beyond two that stand 130 apart, before them, and between them.
        check((264.0, 3.0), &[(0.0, 0.0), (130.0, 0.0)], (260.0, 0.0), 1, 2);
        check((-127.0, 3.0), &[(0.0, 0.0), (130.0, 0.0)], (-130.0, 0.0), 1, 2);
        check((61.0, 3.0), &[(0.0, 0.0), (130.0, 0.0)], (65.0, 0.0), 1, 2);
        // Those of another row don't count.
        check((264.0, 83.0), &[(0.0, 0.0), (130.0, 0.0)], (260.0, 80.0), 0, 0);
    }

    #[test]
    fn equal_distances_in_a_column_draw() {
        check((2.0, 255.0), &[(0.0, 0.0), (0.0, 130.0)], (0.0, 260.0), 1, 2);
    }
}
