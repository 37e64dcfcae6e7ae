//! The document: what a person drew and typed, as the layout file names it. No results live here.
//!
//! Numbers keep the unit they are typed in (the unit is in the field's name), because the file must give back the same
//! decimal and exact ratios are taken from it; [`crate::lower`] turns them into quantities. Invariants are the
//! validator's ([`crate::decode`]): ids unique, references known, values within their limits.

use std::fmt;
use std::sync::Arc;

use layshaft_powerflow::materials::{Material, MaterialPair};

/// The name of a shaft, element or position within a layout.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Id(Arc<str>);

impl Id {
    /// The name as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl AsRef<str> for Id {
    fn as_ref(&self) -> &str {
        &self.0
    }
}

impl<T: AsRef<str> + ?Sized> From<&T> for Id {
    fn from(text: &T) -> Self {
        Self(Arc::from(text.as_ref()))
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Debug for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", &*self.0)
    }
}

/// The id that stands for the fixed frame wherever a shaft is named.
pub const FRAME: &str = "frame";

/// A whole layout.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Its name, for people.
    pub title: String,
    /// Free text of its owner.
    pub notes: String,
    /// The shaft that ratios refer to, where it is not the first source's.
    pub drive: Option<Id>,
    /// Material pair of meshes that give no loss of their own.
    pub material_pair: Option<&'static MaterialPair>,
    /// Shafts in document order.
    pub shafts: Vec<Shaft>,
    /// Elements in document order.
    pub elements: Vec<Element>,
    /// Shift positions; empty means one implied position `only` with nothing engaged.
    pub positions: Vec<Position>,
    /// The way that a run goes, stretch by stretch.
    pub course: Vec<Stretch>,
    /// Parts of the file that this crate carries unchanged for others (`groups`, `bin`, `tests`, `view`).
    pub carried: serde_json::Map<String, serde_json::Value>,
    /// Highest number ever used in a made-up id; never falls, so that no id is used twice even after undo.
    pub last_number: u64,
}

/// A shaft: one rotation.
#[derive(Clone, Debug, PartialEq)]
pub struct Shaft {
    /// Its name.
    pub id: Id,
    /// Where it is drawn.
    pub at: [f64; 2],
    /// Where its axis really is, seen along the shafts, in mm, positive rotation turning x toward y; none: not known.
    pub axis_mm: Option<[f64; 2]>,
    /// Constant friction torque in N·m, opposing rotation.
    pub drag_nm: f64,
    /// Viscous torque in N·m·s, opposing rotation.
    pub viscous_nms: f64,
    /// Moment of inertia in kg·m²; used by runs in time only.
    pub inertia_kgm2: f64,
    /// Friction coefficient of its plain bearings; 0: none.
    pub journal_friction: f64,
    /// Radius of its plain bearings in mm.
    pub journal_radius_mm: f64,
    /// Bearing load over applied load, 1 where the load sits between the bearings.
    pub overhang: f64,
}

/// An element with its place in the document.
#[derive(Clone, Debug, PartialEq)]
pub struct Element {
    /// Its name.
    pub id: Id,
    /// Where its symbol is drawn; none: between its shafts.
    pub at: Option<[f64; 2]>,
    /// What it is.
    pub kind: ElementKind,
}

/// Every kind of element, with its fields. Shafts are named by id; `"frame"` is the frame.
#[derive(Clone, Debug, PartialEq)]
pub enum ElementKind {
    /// Two gears in contact.
    Mesh(Mesh),
    /// Chain or toothed belt over two sprockets.
    Chain(Chain),
    /// Belt over two pulleys.
    Belt(Belt),
    /// Two wheels pressed together.
    FrictionWheel(FrictionWheel),
    /// Worm and wheel.
    Worm(Worm),
    /// Bevel differential.
    Differential(Differential),
    /// Planetary set with sun, ring and carrier.
    Planetary(Planetary),
    /// Two central gears through stepped planets.
    Stepped(Stepped),
    /// Dog clutch.
    Clutch(Clutch),
    /// Brake.
    Brake(Brake),
    /// One-way clutch.
    OneWay(OneWay),
    /// Clutch that slips above a torque.
    SlipClutch(SlipClutch),
    /// Coupling that shifts by the torque through it.
    TorqueSwitch(TorqueSwitch),
    /// DC motor.
    Motor(Motor),
    /// Hand crank or a source of given speed.
    Crank(Crank),
    /// A torque that resists.
    Load(Load),
    /// A vehicle on its wheels.
    Vehicle(Vehicle),
    /// A drum that winds a rope.
    Winch(Winch),
}

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

/// Dog clutch, engaged in the positions that list it.
#[derive(Clone, Debug, PartialEq)]
pub struct Clutch {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
}

/// Brake, on in the positions that list it.
#[derive(Clone, Debug, PartialEq)]
pub struct Brake {
    /// The shaft it holds.
    pub shaft: Id,
    /// Largest torque it holds in N·m; none: as much as needed.
    pub limit_nm: Option<f64>,
}

/// Which way round a one-way clutch drives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum OneWaySense {
    /// `a` never turns faster than `b`; engaged, it drives `b` positive.
    #[default]
    Positive,
    /// The signs turned round.
    Negative,
}

/// One-way clutch; with `a` the frame, a backstop.
#[derive(Clone, Debug, PartialEq)]
pub struct OneWay {
    /// The driving side.
    pub a: Id,
    /// The driven side, which may overrun.
    pub b: Id,
    /// Which way round.
    pub sense: OneWaySense,
}

/// Clutch that slips above a torque.
#[derive(Clone, Debug, PartialEq)]
pub struct SlipClutch {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
    /// Torque above which it slips, in N·m.
    pub limit_nm: f64,
}

/// Coupling that shifts by the torque through it.
#[derive(Clone, Debug, PartialEq)]
pub struct TorqueSwitch {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
    /// Torque above which it shifts from `from` to `to`, in N·m.
    pub up_nm: f64,
    /// Torque below which it shifts back, in N·m; less than `up_nm`.
    pub down_nm: f64,
    /// The position that it shifts up from.
    pub from: Id,
    /// The position that it shifts up to.
    pub to: Id,
}

/// DC motor by its data sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Motor {
    /// Its shaft.
    pub shaft: Id,
    /// Voltage that the data sheet is for.
    pub nominal_v: f64,
    /// Speed without load at nominal voltage.
    pub no_load_rpm: f64,
    /// Current without load.
    pub no_load_a: f64,
    /// Torque when held still.
    pub stall_nm: f64,
    /// Current when held still.
    pub stall_a: f64,
    /// Supply voltage; none: nominal.
    pub supply_v: Option<f64>,
    /// Resistance of supply and leads.
    pub supply_ohm: f64,
    /// Moment of inertia of the rotor, at this shaft, in kg·m²; used by runs in time only.
    pub rotor_kgm2: f64,
    /// Temperature of the winding in °C; the data sheet is for 20 °C.
    pub winding_c: f64,
    /// Charge of the battery in mAh, where known.
    pub battery_mah: Option<f64>,
    /// Heat in W that it stands for long, where known.
    pub heat_limit_w: Option<f64>,
}

/// Source of given speed.
#[derive(Clone, Debug, PartialEq)]
pub struct Crank {
    /// Its shaft.
    pub shaft: Id,
    /// Its speed; the sign is the sense.
    pub speed_rpm: f64,
    /// Largest torque; none: as much as needed.
    pub limit_nm: Option<f64>,
}

/// Torques that resist rotation.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// Its shaft.
    pub shaft: Id,
    /// Constant, friction-like torque.
    pub torque_nm: f64,
    /// Torque per speed.
    pub viscous_nms: f64,
    /// Torque per square of speed.
    pub fan_nms2: f64,
    /// Moment of inertia; used by runs in time only.
    pub inertia_kgm2: f64,
}

/// The sense of rotation that drives a vehicle forward or lifts a weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum LiftSense {
    /// The sense that the drive gives this shaft in the first position.
    #[default]
    Drive,
    /// Positive rotation.
    Positive,
    /// Negative rotation.
    Negative,
}

/// Which axles are driven.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum DrivenAxles {
    /// All wheels.
    #[default]
    All,
    /// The rear axle.
    Rear,
    /// The front axle.
    Front,
}

/// A vehicle on a slope.
#[derive(Clone, Debug, PartialEq)]
pub struct Vehicle {
    /// Shafts of the driven wheels.
    pub shafts: Vec<Id>,
    /// Wheel diameter.
    pub wheel_mm: f64,
    /// Mass with all on board.
    pub mass_kg: f64,
    /// Coefficient of rolling resistance.
    pub rolling: f64,
    /// Slope that it is to climb.
    pub slope_deg: f64,
    /// Friction between tyre and ground; none: no traction limit is given.
    pub tyre_friction: Option<f64>,
    /// Distance between axles.
    pub wheelbase_mm: Option<f64>,
    /// Height of the centre of gravity.
    pub cg_height_mm: Option<f64>,
    /// Centre of gravity before the rear axle.
    pub cg_from_rear_mm: Option<f64>,
    /// Driven axles.
    pub driven: DrivenAxles,
    /// Share of the torque that an open centre differential gives the rear axle; none: the axles are joined rigidly.
    pub rear_share: Option<f64>,
    /// Which sense of the wheels is forward.
    pub forward: LiftSense,
}

/// What hangs on a winch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WinchLoad {
    /// A mass in kg.
    Mass(f64),
    /// A pull in N.
    Pull(f64),
}

/// A drum that winds a rope.
#[derive(Clone, Debug, PartialEq)]
pub struct Winch {
    /// Its shaft.
    pub shaft: Id,
    /// Diameter of the drum.
    pub drum_mm: f64,
    /// Diameter of the rope.
    pub rope_mm: f64,
    /// Layer that is being wound, 1 = on the bare drum.
    pub layers: u32,
    /// What hangs on it.
    pub load: WinchLoad,
    /// Which sense lifts.
    pub lifts: LiftSense,
}

/// A shift position.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// Its name in references.
    pub id: Id,
    /// Its name for people.
    pub name: String,
    /// Clutches and brakes that are engaged.
    pub engaged: Vec<Id>,
}

/// A stretch of a course.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// How long it is, in m.
    pub length_m: f64,
    /// How steep it rises, in degrees.
    pub slope_deg: f64,
}
