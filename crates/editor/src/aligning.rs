//! Aligning and spreading out several things: how far each has to move. Where they stand is the session's.

use crate::geometry::{Point, Rect};

/// What things are brought into line by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Alignment {
    /// Their left edges.
    Left,
    /// Their middles, in one column.
    Centre,
    /// Their right edges.
    Right,
    /// Their upper edges.
    Top,
    /// Their middles, in one row.
    Middle,
    /// Their lower edges.
    Bottom,
}

/// Along which line things are spread out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// From left to right.
    Across,
    /// From top to bottom.
    Down,
}

/// How far each of several things moves so that they stand in line; edges go to the outermost one.
#[must_use]
pub fn aligned(things: &[Rect], by: Alignment) -> Vec<Point> {
    let Some(all) = things.iter().copied().reduce(|all, rect| all.union(&rect)) else {
        return Vec::new();
    };
    let way = |rect: &Rect| match by {
        Alignment::Left => Point::new(all.x - rect.x, 0.0),
        Alignment::Centre => Point::new(all.centre().x - rect.centre().x, 0.0),
        Alignment::Right => Point::new(all.right() - rect.right(), 0.0),
        Alignment::Top => Point::new(0.0, all.y - rect.y),
        Alignment::Middle => Point::new(0.0, all.centre().y - rect.centre().y),
        Alignment::Bottom => Point::new(0.0, all.bottom() - rect.bottom()),
    };
    things.iter().map(way).collect()
}

/// How far each of several things moves so that their middles are equally far from each other; the outermost stay.
#[must_use]
pub fn spread(things: &[Rect], along: Axis) -> Vec<Point> {
    let place = |rect: &Rect| match along {
        Axis::Across => rect.centre().x,
        Axis::Down => rect.centre().y,
    };
    let mut order: Vec<usize> = (0..things.len()).collect();
    order.sort_by(|one, other| place(&things[*one]).total_cmp(&place(&things[*other])));
    let mut ways = vec![Point::default(); things.len()];
    let (Some(first), Some(last)) = (order.first(), order.last()) else {
        return ways;
    };
    let (start, end) = (place(&things[*first]), place(&things[*last]));
    let step = (end - start) / (things.len() as f64 - 1.0).max(1.0);
    for (rank, number) in order.into_iter().enumerate() {
        let by = start + step * rank as f64 - place(&things[number]);
        ways[number] = match along {
            Axis::Across => Point::new(by, 0.0),
            Axis::Down => Point::new(0.0, by),
        };
    }
    ways
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rects() -> Vec<Rect> {
        let around = |x, y, size| Rect::around(Point::new(x, y), size, size);
        vec![
            around(0.0, 0.0, 40.0),
            around(100.0, 30.0, 20.0),
            around(30.0, 90.0, 20.0),
        ]
    }

    fn check(ways: &[Point], expected: [(f64, f64); 3]) {
        assert_eq!(ways, expected.map(|(x, y)| Point::new(x, y)));
    }

    #[test]
    fn edges_go_to_the_outermost() {
        check(
            &aligned(&rects(), Alignment::Left),
            [(0.0, 0.0), (-110.0, 0.0), (-40.0, 0.0)],
        );
        check(
            &aligned(&rects(), Alignment::Bottom),
            [(0.0, 80.0), (0.0, 60.0), (0.0, 0.0)],
        );
        check(
            &aligned(&rects(), Alignment::Middle),
            [(0.0, 40.0), (0.0, 10.0), (0.0, -50.0)],
        );
    }

    #[test]
    fn the_outermost_stay_when_things_are_spread_out() {
        check(
            &spread(&rects(), Axis::Across),
            [(0.0, 0.0), (0.0, 0.0), (20.0, 0.0)],
        );
        check(
            &spread(&rects(), Axis::Down),
            [(0.0, 0.0), (0.0, 15.0), (0.0, 0.0)],
        );
        assert_eq!(spread(&[], Axis::Down), Vec::new());
    }
}
