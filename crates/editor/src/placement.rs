//! Where things go that were given no place: on the grid, a free spot beside a shaft. Setting out everything anew is in
//! [`crate::arranging`].

use layshaft_layout::Layout;

use crate::geometry::Point;

/// Distance between two shafts that are placed side by side, in bench units.
pub const SHAFT_PITCH: f64 = 160.0;
/// Distance between two rows of shafts, in bench units.
pub const ROW_PITCH: f64 = 140.0;
/// Distance between grid lines, in bench units.
pub const GRID: f64 = 20.0;
/// Distance between the symbol and the shafts that are placed with it.
pub const REACH: f64 = SHAFT_PITCH / 2.0;

/// A place on the grid.
#[must_use]
pub fn on_grid(at: Point) -> Point {
    Point::new((at.x / GRID).round() * GRID, (at.y / GRID).round() * GRID)
}

/// A free place for a shaft beside another one: to the right if there is room, else below, above or further off.
#[must_use]
pub fn free_spot(layout: &Layout, beside: Point, taken: &[Point]) -> Point {
    let is_free = |at: Point| {
        let shafts = layout.shafts.iter().map(|shaft| Point::from(shaft.at));
        shafts
            .chain(taken.iter().copied())
            .all(|other| other.distance(at) >= SHAFT_PITCH * 0.55)
    };
    let rows = [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0];
    let mut candidates = (1..8).flat_map(|column| {
        rows.map(|row| beside + Point::new(f64::from(column) * SHAFT_PITCH, row * ROW_PITCH))
    });
    on_grid(
        candidates
            .find(|at| is_free(*at))
            .unwrap_or(beside + Point::new(SHAFT_PITCH, 0.0)),
    )
}
