//! Bearing loads as vectors: forces on a shaft that pull against one another load its bearings less than their sum.
//!
//! Journals rub with the scalar sum of the forces on them, a safe bound. Where the places of the axes are known, the
//! directions of the forces are too: each shaft's sum is multiplied by vector over scalar, and the train solved again
//! until that settles. Directions are in the plane across the shafts; positive rotation turns x toward y.

/// Which way an element pulls the shaft at one of its ports: force in N = `bearing_force (L along + |L| separating)`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PortPull {
    /// Part that turns round with the sign of the multiplier: tangential force of teeth, skew of a belt's strand.
    pub along: [f64; 2],
    /// Part that keeps its direction: what drives teeth apart, what draws pulleys together.
    pub separating: [f64; 2],
}
