//! Where things go that were given no place: layers from the drive to the right, elements between their shafts.

/// Distance between two shafts that are placed side by side, in bench units.
pub const SHAFT_PITCH: f64 = 160.0;
/// Distance between grid lines, in bench units.
pub const GRID: f64 = 20.0;
