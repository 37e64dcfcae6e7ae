//! Losses by kind of element: what `d_p` each adds per size of the multiplier, `torque on shaft = L c_p + |L| d_p`.
//!
//! A loss opposes the relative sliding there, so its sign comes from the known speeds; at no relative speed it is 0 (the
//! middle of what friction could be).

mod carrier;
mod mesh;
mod worm;

pub use worm::WormFriction;

use layshaft_kinematics::{Element, Motion, Turning};

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
    /// `d_p` per port at the given motion.
    #[must_use]
    pub fn absolute(&self, element: &Element, motion: &Motion, turning: &Turning) -> [f64; 3] {
        match self {
            Self::None => [0.0; 3],
            Self::Pair { efficiency } => mesh::absolute(*efficiency, element, motion, turning),
            Self::Basic { efficiency } => carrier::absolute(*efficiency, element, motion, turning),
            Self::Worm(friction) => worm::absolute(friction, element, motion, turning),
        }
    }
}

/// `k = (1 − n) / (1 + n)`: share by which the driving side carries more and the driven side less than the mean.
#[must_use]
pub fn half_difference(efficiency: f64) -> f64 {
    (1.0 - efficiency) / (1.0 + efficiency)
}

fn sign_at(motion: &Motion, turning: &Turning, port: layshaft_kinematics::Port) -> f64 {
    port.shaft()
        .map_or(0.0, |shaft| f64::from(motion.sign(shaft, turning)))
}
