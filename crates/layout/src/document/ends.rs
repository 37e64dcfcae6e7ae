//! The ends of a train: motors, cranks, loads, vehicles, winches.

use super::Id;

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
