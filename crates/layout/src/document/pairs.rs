//! Elements that join two shafts at a fixed ratio: meshes, chains, belts, friction wheels, worms.

use layshaft_powerflow::materials::{Material, MaterialPair};

use super::Id;

/// Form of a mesh.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum MeshForm {
    /// Both gears toothed outside.
    #[default]
    External,
    /// `b` is a ring gear.
    Internal,
    /// Shafts at an angle.
    Bevel,
}

/// Which way round something turns against its partner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Sense {
    /// Opposite ways.
    #[default]
    Opposite,
    /// The same way.
    Same,
}

/// What a mesh loses, or the meshes of a set.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub enum MeshLoss {
    /// Nothing was said: lossless, with a finding that says so.
    #[default]
    NotGiven,
    /// Efficiency, 0 < n ≤ 1; of a set the basic one, carrier held.
    Efficiency(f64),
    /// Coefficient of tooth friction; the loss follows from the tooth counts.
    Friction(f64),
    /// Materials of the teeth, whose friction is a range.
    MaterialPair(&'static MaterialPair),
}

impl MeshLoss {
    /// The typed efficiency.
    #[must_use]
    pub const fn efficiency(self) -> Option<f64> {
        match self {
            Self::Efficiency(efficiency) => Some(efficiency),
            Self::NotGiven | Self::Friction(_) | Self::MaterialPair(_) => None,
        }
    }

    /// An efficiency where one is given.
    #[must_use]
    pub const fn typed(efficiency: Option<f64>) -> Self {
        match efficiency {
            Some(efficiency) => Self::Efficiency(efficiency),
            None => Self::NotGiven,
        }
    }
}

/// Two gears in contact.
#[derive(Clone, Debug, PartialEq)]
pub struct Mesh {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
    /// Tooth counts on `a` and `b`.
    pub teeth: [u32; 2],
    /// External, internal, bevel.
    pub form: MeshForm,
    /// Bevel only.
    pub sense: Sense,
    /// Loss.
    pub loss: MeshLoss,
    /// Normal module in mm, where known.
    pub module_mm: Option<f64>,
    /// Pressure angle in degrees.
    pub pressure_angle_deg: f64,
    /// Material of the weaker gear, for the strength of its teeth.
    pub material: Option<&'static Material>,
    /// Face width in mm.
    pub width_mm: Option<f64>,
    /// Measured torque at `a` in N·m at which teeth skip.
    pub skip_nm: Option<f64>,
}

/// Chain or toothed belt.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
    /// Tooth counts of the sprockets.
    pub teeth: [u32; 2],
    /// Efficiency; none: lossless.
    pub efficiency: Option<f64>,
    /// Pitch in mm, where known.
    pub pitch_mm: Option<f64>,
    /// Pull in each strand at rest, in N.
    pub pretension_n: f64,
}

/// Plain belt.
#[derive(Clone, Debug, PartialEq)]
pub struct Belt {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
    /// Pulley diameters in mm.
    pub diameters_mm: [f64; 2],
    /// Crossed: the pulleys turn opposite ways.
    pub crossed: bool,
    /// Efficiency; none: lossless.
    pub efficiency: Option<f64>,
    /// Torque at `a` in N·m above which it slips; none: never.
    pub slip_nm: Option<f64>,
    /// Pull in each strand at rest, in N.
    pub pretension_n: f64,
}

/// Which way round two wheels touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum WheelForm {
    /// Side by side.
    #[default]
    External,
    /// `a` runs inside `b`.
    Internal,
}

/// Two wheels pressed together.
#[derive(Clone, Debug, PartialEq)]
pub struct FrictionWheel {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
    /// Diameters in mm where they touch.
    pub diameters_mm: [f64; 2],
    /// Side by side, or one inside the other.
    pub form: WheelForm,
    /// Efficiency; none: lossless.
    pub efficiency: Option<f64>,
    /// Torque at `a` in N·m above which they slip; none: never.
    pub slip_nm: Option<f64>,
    /// Force in N that presses them together.
    pub press_n: f64,
}

/// Hand of a worm's thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Hand {
    /// The wheel turns positive for a positive worm.
    #[default]
    Right,
    /// The wheel turns negative for a positive worm.
    Left,
}

/// Worm and wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct Worm {
    /// Shaft of the worm.
    pub worm: Id,
    /// Shaft of the wheel.
    pub wheel: Id,
    /// Threads on the worm.
    pub starts: u32,
    /// Teeth of the wheel.
    pub teeth: u32,
    /// Hand of the thread.
    pub hand: Hand,
    /// Lead angle in degrees.
    pub lead_angle_deg: f64,
    /// Coefficient of friction.
    pub friction: f64,
    /// Normal pressure angle in degrees.
    pub pressure_angle_deg: f64,
    /// Pitch diameter of the wheel in mm, where known.
    pub wheel_mm: Option<f64>,
    /// Mean diameter of the worm's thrust collar in mm; none: a bearing that loses nothing.
    pub collar_mm: Option<f64>,
    /// Friction of the collar; none: that of the thread.
    pub collar_friction: Option<f64>,
}
