//! The document: what a person drew and typed, as the layout file names it. No results live here.
//!
//! Numbers keep the unit they are typed in (the unit is in the field's name), because the file must give back the same
//! decimal and exact ratios are taken from it; [`crate::lower`] turns them into quantities. Invariants are the
//! validator's ([`crate::decode`]): ids unique, references known, values within their limits. The kinds of elements are in
//! the files below: pairs, sets with a carrier, what holds, and the ends of a train.

mod ends;
mod groups;
mod holds;
mod pairs;
mod plan;
mod sets;

use std::fmt;
use std::sync::Arc;

use layshaft_powerflow::materials::MaterialPair;

pub use ends::*;
pub use groups::*;
pub use holds::*;
pub use pairs::*;
pub use plan::*;
pub use sets::*;

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
    /// Named sub-assemblies; a shaft or element is in one of them at most.
    pub groups: Vec<Group>,
    /// Settings of the plan.
    pub plan: Plan,
    /// Parts of the file that this crate carries unchanged for others (`bin`, `tests`, `view`).
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

impl Shaft {
    /// A shaft that loses nothing by itself and has no inertia.
    #[must_use]
    pub const fn plain(id: Id, at: [f64; 2]) -> Self {
        Self {
            id,
            at,
            axis_mm: None,
            drag_nm: 0.0,
            viscous_nms: 0.0,
            inertia_kgm2: 0.0,
            journal_friction: 0.0,
            journal_radius_mm: 0.0,
            overhang: 1.0,
        }
    }
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
