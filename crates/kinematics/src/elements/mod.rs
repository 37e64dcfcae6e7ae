//! Element kinds, one per file: their fields and the constraint that each puts on the speeds at its ports.

mod carrier;
mod coupling;
mod pair;
mod worm;

pub use carrier::{CarrierGear, Differential, Planetary, Planets, Stepped};
pub use coupling::{Coupling, Hold, Loose, Rolling};
pub use pair::{Belt, Mesh};
pub use worm::Worm;

use crate::train::{Constraint, Port};

/// An element of a train.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Element {
    /// Two gears in contact; also sprockets with a chain or toothed belt.
    Mesh(Mesh),
    /// Belt over two pulleys.
    Belt(Belt),
    /// Worm and wheel.
    Worm(Worm),
    /// Bevel differential.
    Differential(Differential),
    /// Planetary set.
    Planetary(Planetary),
    /// Two central gears through stepped planets.
    Stepped(Stepped),
    /// Two shafts joined.
    Coupling(Coupling),
    /// Two ports joined by something that lets go: connected, not constrained.
    Loose(Loose),
    /// A shaft held to the frame.
    Hold(Hold),
    /// A wheel that rolls without slip.
    Rolling(Rolling),
}

impl Element {
    /// Its constraint on the speeds at its ports.
    #[must_use]
    pub fn constraint(&self) -> Constraint {
        match self {
            Self::Mesh(mesh) => mesh.constraint(),
            Self::Belt(belt) => belt.constraint(),
            Self::Worm(worm) => worm.constraint(),
            Self::Differential(differential) => differential.as_carrier_gear().constraint(),
            Self::Planetary(planetary) => planetary.as_carrier_gear().constraint(),
            Self::Stepped(stepped) => stepped.as_carrier_gear().constraint(),
            Self::Coupling(coupling) => coupling.constraint(),
            Self::Loose(loose) => loose.constraint(),
            Self::Hold(hold) => hold.constraint(),
            Self::Rolling(rolling) => rolling.constraint(),
        }
    }

    /// The common form of elements with a carrier; none for the others.
    #[must_use]
    pub fn as_carrier_gear(&self) -> Option<CarrierGear> {
        match self {
            Self::Differential(differential) => Some(differential.as_carrier_gear()),
            Self::Planetary(planetary) => Some(planetary.as_carrier_gear()),
            Self::Stepped(stepped) => Some(stepped.as_carrier_gear()),
            _ => None,
        }
    }

    /// An element that constrains nothing: a hold of the frame.
    #[must_use]
    pub const fn inert() -> Self {
        Self::Hold(Hold { shaft: Port::Frame })
    }

    /// Whether it is a brake or another hold to the frame.
    #[must_use]
    pub const fn is_hold(&self) -> bool {
        matches!(self, Self::Hold(_))
    }
}
