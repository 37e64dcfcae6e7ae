//! What lies under a pointer.

use crate::geometry::Point;
use crate::scene::Scene;
use crate::target::{FieldRef, Target};

/// What was hit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Hit {
    /// A number that can be edited where it stands.
    Edit(FieldRef),
    /// A thing.
    Thing(Target),
    /// Bare bench.
    Bench,
}

/// What lies at a point of the bench, within a tolerance in bench units.
#[must_use]
pub fn hit(scene: &Scene, at: Point, tolerance: f64) -> Hit {
    scene
        .shafts
        .iter()
        .find(|shaft| shaft.at.distance(at) <= shaft.radius + tolerance)
        .map_or(Hit::Bench, |shaft| Hit::Thing(Target::Shaft(shaft.id.clone())))
}
