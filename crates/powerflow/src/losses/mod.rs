//! Losses by kind of element: what `d_p` each adds per size of the multiplier, `torque on shaft = L c_p + |L| d_p`.
//!
//! A loss opposes the relative sliding there, so its sign comes from the known speeds; at no relative speed it is 0 (the
//! middle of what friction could be).

mod carrier;
mod mesh;
mod worm;

pub use worm::{Collar, STATIC_OVER_KINETIC, WormFriction};

use layshaft_kinematics::{Element, Motion, Port, Turning};

/// Where an element's loss comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Loss {
    /// None.
    None,
    /// Efficiency of a pair, whichever side drives.
    Pair {
        /// Efficiency.
        efficiency: f64,
    },
    /// Basic efficiency of an element with a carrier: carrier held.
    Basic {
        /// Efficiency.
        efficiency: f64,
    },
    /// Sliding of a worm's thread.
    Worm(WormFriction),
}

impl Loss {
    /// Whether nothing is lost, whatever flows.
    #[must_use]
    pub fn is_none(&self) -> bool {
        match self {
            Self::None => true,
            Self::Pair { efficiency } | Self::Basic { efficiency } => *efficiency >= 1.0,
            Self::Worm(friction) => friction.is_none(),
        }
    }

    /// The same surfaces at rest. What was given as an efficiency stays; see [`crate::ElementLoss::efficiency_at_rest`].
    #[must_use]
    pub fn at_rest(&self) -> Self {
        match self {
            Self::Worm(friction) => Self::Worm(friction.at_rest()),
            Self::None | Self::Pair { .. } | Self::Basic { .. } => *self,
        }
    }

    /// The same with another efficiency, where it has one.
    #[must_use]
    pub fn with_efficiency(&self, efficiency: f64) -> Self {
        match self {
            Self::Pair { .. } => Self::Pair { efficiency },
            Self::Basic { .. } => Self::Basic { efficiency },
            Self::None | Self::Worm(_) => *self,
        }
    }

    /// `d_p` per port at the given motion.
    #[must_use]
    pub fn absolute(&self, element: &Element, rotation: &Rotation<'_>) -> [f64; 3] {
        match self {
            Self::None => [0.0; 3],
            Self::Pair { efficiency } => mesh::absolute(*efficiency, element, rotation),
            Self::Basic { efficiency } => carrier::absolute(*efficiency, element, rotation),
            Self::Worm(friction) => worm::absolute(friction, element, rotation),
        }
    }
}

/// `k = (1 − n) / (1 + n)`: share by which the driving side carries more and the driven side less than the mean.
#[must_use]
pub fn half_difference(efficiency: f64) -> f64 {
    (1.0 - efficiency) / (1.0 + efficiency)
}

/// Which way everything turns.
#[derive(Clone, Copy)]
pub struct Rotation<'a> {
    /// Speeds as combinations of the sources'.
    pub motion: &'a Motion,
    /// The sources' speeds.
    pub turning: &'a Turning,
    /// Per shaft: sign of its speed, so that it is looked up and not found anew at every port.
    pub signs: &'a [f64],
}

impl Rotation<'_> {
    fn sign(&self, port: Port) -> f64 {
        port.shaft().map_or(0.0, |shaft| self.signs[shaft.at()])
    }

    fn relative_sign(&self, a: Port, b: Port) -> f64 {
        f64::from(self.motion.relative_sign(a, b, self.turning))
    }
}
