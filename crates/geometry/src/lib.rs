//! Geometry of toothed wheels in their plane: sizes, tooth outlines, pairs of gears, wraps of belts and chains.
//!
//! Nothing here knows shafts, layouts, speeds or screens. The plane is measured in millimetres and angles in radians,
//! positive from x toward y; every length's name ends in `_mm`. Trigonometry goes through libm, so that all machines
//! draw the same outline to the bit.

mod gear;
mod outline;
mod pair;
mod wrap;

pub use gear::{Gear, Rim, least_teeth_without_undercut, profile_angle};
pub use outline::{involute, outline};
pub use pair::{Pair, PairFault};
pub use wrap::{chain_links, crossed_belt_mm, open_belt_mm, sprocket_diameter_mm};

/// The involute function: `inv α = tan α − α`.
///
/// # Source
/// ISO 21771, "Gears – Cylindrical involute gears and gear pairs – Concepts and geometry" (from memory).
///
/// ```
/// assert!((layshaft_geometry::inv(20.0_f64.to_radians()) - 0.014_904_4).abs() < 1e-7);
/// ```
#[must_use]
pub fn inv(angle: f64) -> f64 {
    libm::tan(angle) - angle
}
