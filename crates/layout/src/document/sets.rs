//! Elements with a carrier: differentials, planetary sets, stepped planets.

use super::{Id, MeshLoss};

/// Plain pins that planets turn on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pins {
    /// Coefficient of friction; 0: they lose nothing.
    pub friction: f64,
    /// Radius of the pin over pitch radius of the planet.
    pub ratio: f64,
}

impl Pins {
    /// A pin as thick as is usual for its planet; common practice, no source.
    pub const USUAL_RATIO: f64 = 0.3;
    /// Pins that nothing was said about.
    pub const NOT_GIVEN: Self = Self {
        friction: 0.0,
        ratio: Self::USUAL_RATIO,
    };
}

/// Tooth counts of a bevel differential.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BevelTeeth {
    /// Teeth of either side gear.
    pub side: u32,
    /// Teeth of each planet.
    pub planet: u32,
}

/// Bevel differential.
#[derive(Clone, Debug, PartialEq)]
pub struct Differential {
    /// The two side gears' shafts.
    pub sides: [Id; 2],
    /// The carrier's shaft.
    pub carrier: Id,
    /// Tooth counts, where known.
    pub teeth: Option<BevelTeeth>,
    /// Loss with the carrier held; friction needs `teeth`.
    pub loss: MeshLoss,
    /// The planets' pins.
    pub pins: Pins,
}

/// Planets of a planetary set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Planets {
    /// One planet between sun and ring.
    #[default]
    Single,
    /// Two planets in mesh with one another.
    Double,
}

/// Planetary set.
#[derive(Clone, Debug, PartialEq)]
pub struct Planetary {
    /// Sun's shaft.
    pub sun: Id,
    /// Ring's shaft.
    pub ring: Id,
    /// Carrier's shaft.
    pub carrier: Id,
    /// Teeth of the sun.
    pub sun_teeth: u32,
    /// Teeth of the ring.
    pub ring_teeth: u32,
    /// Single or double.
    pub planets: Planets,
    /// Loss with the carrier held.
    pub loss: MeshLoss,
    /// The planets' pins.
    pub pins: Pins,
    /// How many planets (or pairs), where said.
    pub count: Option<u32>,
}

/// How the basic ratio of a stepped set was given.
#[derive(Clone, Debug, PartialEq)]
pub enum SteppedRatio {
    /// `(w_first − w_carrier) / (w_second − w_carrier)` as numerator and denominator.
    Basic([i64; 2]),
    /// Tooth counts: first with its planet, second's planet with the second.
    Teeth {
        /// Teeth of first central gear and of its planet.
        first: [u32; 2],
        /// Teeth of the other planet and of the second central gear.
        second: [u32; 2],
        /// The first central gear is a ring gear.
        first_is_ring: bool,
        /// The second central gear is a ring gear.
        second_is_ring: bool,
    },
}

/// Two central gears through stepped planets.
#[derive(Clone, Debug, PartialEq)]
pub struct Stepped {
    /// First central gear's shaft.
    pub first: Id,
    /// Second central gear's shaft.
    pub second: Id,
    /// Carrier's shaft.
    pub carrier: Id,
    /// Its ratio with the carrier held.
    pub ratio: SteppedRatio,
    /// Loss with the carrier held; friction needs tooth counts.
    pub loss: MeshLoss,
    /// The planets' pins.
    pub pins: Pins,
}
