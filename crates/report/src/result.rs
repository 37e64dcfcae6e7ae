//! What a report holds: plain data, SI quantities inside, signs as the file format defines them.
//!
//! What is found out about them is in `finding`. Port torque and power are *into the element*. Parts that do not apply are `None` or empty.

use std::rc::Rc;

use layshaft_kinematics::Ratio;
use layshaft_layout::Id;
use layshaft_powerflow::materials::MaterialPair;
use layshaft_quantity::{Angle, AngularSpeed, Current, Force, Power, Speed, Time, Torque};
use serde::{Deserialize, Serialize};

use crate::finding::Finding;

/// Everything computed about a layout.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Report {
    /// The shaft whose ratio is 1; none in a layout without shafts.
    pub drive: Option<Id>,
    /// One entry per shift position, in document order.
    pub positions: Vec<Rc<PositionReport>>,
    /// What every torque switch does over a range of loads, in document order.
    pub shifting: Vec<Shifting>,
    /// All findings, the most important first.
    pub findings: Vec<Finding>,
}

/// The state as the file format names it, first that applies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum State {
    /// The drive cannot turn.
    Jammed,
    /// A shaft that carries torque has no determined speed.
    Undetermined,
    /// More than one consistent solution.
    Ambiguous,
    /// No drive torque, however large, moves this load.
    SelfLocking,
    /// It would move, but the drive is too weak.
    Stalled,
    /// At rest, nothing asked of the drive.
    Held,
    /// It runs.
    Runs,
}

impl State {
    /// Its word in files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Jammed => "jammed",
            Self::Undetermined => "undetermined",
            Self::Ambiguous => "ambiguous",
            Self::SelfLocking => "self-locking",
            Self::Stalled => "stalled",
            Self::Held => "held",
            Self::Runs => "runs",
        }
    }
}

/// One shift position's results.
#[derive(Clone, Debug, PartialEq)]
pub struct PositionReport {
    /// The position's id (`only` where implied).
    pub id: Id,
    /// Its name for people.
    pub name: String,
    /// Freedom of the connected part that holds the drive (rank only).
    pub mobility: usize,
    /// Elements that hold by friction and so take a freedom away.
    pub held: Vec<Id>,
    /// The state.
    pub state: State,
    /// The sense in which the sources turn the first load: −1, 0, 1; 0 also where nothing settles it.
    pub load_sense: i8,
    /// Every shaft, in document order.
    pub shafts: Vec<ShaftResult>,
    /// Every element, in document order.
    pub elements: Vec<ElementResult>,
    /// Power into loads over power out of sources.
    pub efficiency: Option<f64>,
    /// Power out of source shafts.
    pub input_power: Option<Power>,
    /// Power into loads.
    pub output_power: Option<Power>,
    /// The largest load that the drive can just keep moving.
    pub stall: Option<Stall>,
    /// The largest load that the drive can start, friction being that of surfaces at rest.
    pub start: Option<Stall>,
    /// Whether what pulls is held with the motor off.
    pub holding: Option<Holding>,
    /// Other consistent states; empty also where they were not asked for.
    pub others: Vec<OtherState>,
    /// What comes out with the least and with the most friction; none where no friction is a range.
    pub range: Option<Range>,
    /// Circulating power, one entry per strongly connected part.
    pub loops: Vec<PowerLoop>,
    /// How far parallel paths may share otherwise, one entry per redundant loop.
    pub shares: Vec<Vec<PathShare>>,
    /// For a layout with a vehicle.
    pub vehicle: Option<VehicleResult>,
    /// Findings of this position, the most important first.
    pub findings: Vec<Finding>,
}

/// A shaft's results.
#[derive(Clone, Debug, PartialEq)]
pub struct ShaftResult {
    /// Its id.
    pub id: Id,
    /// Speed over the drive's speed, exact; none where free, unreached, jammed or fed by several drives.
    pub ratio: Option<Ratio>,
    /// Its speed as an exact sum of so much of each source's, where several drives settle it together; else empty.
    pub of_sources: Vec<(Id, Ratio)>,
    /// Its speed is not settled by the drive.
    pub free: bool,
    /// No engaged element joins it to the drive's part.
    pub unreached: bool,
    /// Its speed at the operating point.
    pub speed: Option<AngularSpeed>,
    /// What it hands through, with the sign in which the driving element turns it.
    pub torque: Option<Torque>,
    /// Loss by drag and bearings on this shaft.
    pub loss: Option<Power>,
    /// How the forces on its plain bearings were added; none without plain bearings.
    pub bearings: Option<Bearings>,
}

/// How the forces on the plain bearings of a shaft were added.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bearings {
    /// By size, as if all pulled one way: a safe bound, since directions are not known.
    Sum,
    /// With their directions.
    Vector {
        /// Size of the vector sum over the sum of sizes.
        relief: f64,
    },
}

/// An element's mode.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Mode {
    /// Clutch or brake on.
    Engaged,
    /// Clutch or brake off.
    Disengaged,
    /// Holds by friction.
    Held,
    /// Slips at its limit.
    Slipping,
    /// A one-way clutch whose driven side runs ahead.
    Overrunning,
}

impl Mode {
    /// Its word in files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Engaged => "engaged",
            Self::Disengaged => "disengaged",
            Self::Held => "held",
            Self::Slipping => "slipping",
            Self::Overrunning => "overrunning",
        }
    }
}

/// Which model an element's loss comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LossModel {
    /// Nothing was said: lossless.
    NotGiven,
    /// An efficiency was typed.
    Efficiency(f64),
    /// Tooth friction through the loss factor `H`; efficiency `1 − f H`.
    ToothFriction {
        /// Coefficient of friction.
        friction: f64,
        /// The tooth-loss factor.
        loss_factor: f64,
        /// Efficiency that follows, of a set with its carrier held.
        efficiency: f64,
        /// Whether `H` came from the integral, the polynomial being outside its range.
        integrated: bool,
        /// Whether a pinion would be undercut.
        undercut: bool,
        /// How many meshes lie in a row; 0 where only planet pins rub.
        meshes: usize,
        /// What the planets' pins let through; 1 where nothing was said of them.
        pins: f64,
        /// The materials that the friction comes from.
        materials: Option<Materials>,
    },
    /// Sliding of a worm's thread.
    WormFriction {
        /// Efficiency with the worm driving.
        driving: f64,
        /// Efficiency with the wheel driving; 0 or less: self-locking.
        back: f64,
        /// Share of the wheel's torque, taken over to the worm, that its thrust collar takes; none: no collar.
        collar: Option<f64>,
    },
}

/// Friction of a pair of materials: a range, of which the middle is computed with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Materials {
    /// The pair, with its range, its source and what that is worth.
    pub pair: &'static MaterialPair,
    /// Whether it is the layout's, the element saying nothing.
    pub by_default: bool,
    /// Efficiency with the most and with the least friction.
    pub efficiency: [f64; 2],
}

/// One port of an element: torque and power *into the element*.
#[derive(Clone, Debug, PartialEq)]
pub struct PortResult {
    /// The shaft, or `frame`.
    pub shaft: Id,
    /// Torque into the element.
    pub torque: Torque,
    /// Power into the element.
    pub power: Power,
}

/// An element's results.
#[derive(Clone, Debug, PartialEq)]
pub struct ElementResult {
    /// Its id.
    pub id: Id,
    /// Ports in the order of the kind's fields; empty where no flow was computed.
    pub ports: Vec<PortResult>,
    /// Power that becomes heat here; none for sources and loads.
    pub loss: Option<Power>,
    /// Share of the whole loss, 0 to 1.
    pub loss_share: Option<f64>,
    /// Power leaving over power entering.
    pub efficiency: Option<f64>,
    /// Where its loss comes from; none for elements that can't lose.
    pub loss_model: Option<LossModel>,
    /// Mode, where one means something.
    pub mode: Option<Mode>,
    /// Motor: electric power taken.
    pub electric: Option<Power>,
    /// Motor: current.
    pub current: Option<Current>,
    /// Motor: heat.
    pub heat: Option<Power>,
    /// Motor: where it would run best on its supply.
    pub best: Option<BestPoint>,
    /// Motor: how long its battery lasts at this current.
    pub battery: Option<Time>,
    /// Mesh: torque at its first shaft that its teeth bear.
    pub tooth_limit: Option<Torque>,
    /// A set that turns as one block: the torques at its central members are known within this share of them.
    pub split_within: Option<f64>,
    /// Planetary elements: rolling power as a multiple of output.
    pub rolling_times_output: Option<f64>,
    /// Winch: speed of the rope; vehicle: speed over ground.
    pub line_speed: Option<Speed>,
}

/// A motor at its best efficiency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BestPoint {
    /// Speed.
    pub speed: AngularSpeed,
    /// Torque.
    pub torque: Torque,
    /// Current.
    pub current: Current,
    /// Mechanical over electric power.
    pub efficiency: f64,
}

/// What a pull is limited by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Limit {
    /// The motor's torque.
    Motor,
    /// The crank's torque.
    Crank,
    /// The tyres.
    Traction,
    /// It would tip over.
    Tipping,
    /// It locks by its own friction.
    SelfLocking,
    /// A clutch, brake or belt slips.
    Slip,
    /// Teeth skip or break.
    Tooth,
}

impl Limit {
    /// Its word in files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Motor => "motor",
            Self::Crank => "crank",
            Self::Traction => "traction",
            Self::Tipping => "tipping",
            Self::SelfLocking => "self-locking",
            Self::Slip => "slip",
            Self::Tooth => "tooth",
        }
    }
}

/// The largest load that the drive can just keep moving.
#[derive(Clone, Debug, PartialEq)]
pub struct Stall {
    /// The load element that was scaled.
    pub load: Id,
    /// Pull at rope or wheel rim; none for a plain load.
    pub pull: Option<Force>,
    /// Torque at the load's shaft.
    pub torque: Torque,
    /// For a vehicle.
    pub slope: Option<Angle>,
    /// What gives first.
    pub limit: Limit,
    /// The element that gives first, where it is one that slips or breaks.
    pub limiting: Option<Id>,
}

/// Whether what pulls is held with the motor off, friction being that of surfaces at rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holding {
    /// It is.
    pub holds: bool,
    /// Torque at the motor's shaft against running away; negative where it would have to be driven, none where no torque
    /// there makes it run.
    pub needed: Option<Torque>,
    /// Torque that the motor's own friction holds.
    pub available: Torque,
}

/// Another way in which what can let go could stand.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherState {
    /// Elements that stand otherwise than in the state reported.
    pub modes: Vec<(Id, Mode)>,
}

/// Steepest slope by each limit.
#[derive(Clone, Debug, PartialEq)]
pub struct VehicleResult {
    /// By the grip of the tyres.
    pub traction: Option<Angle>,
    /// By tipping over backwards.
    pub tipping: Option<Angle>,
    /// By the drive's torque.
    pub torque: Option<Angle>,
    /// Speed on level ground.
    pub top_speed: Option<Speed>,
}

/// What comes out where friction is a range. Pairs stand with the least number first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// State with the least friction and with the most.
    pub states: [State; 2],
    /// Efficiency.
    pub efficiency: Option<[f64; 2]>,
    /// Stall pull.
    pub pull: Option<[Force; 2]>,
    /// Stall torque at the load's shaft; 0 where it locks itself.
    pub torque: Option<[Torque; 2]>,
    /// Steepest slope.
    pub slope: Option<[Angle; 2]>,
}

/// What one of several parallel paths carries.
#[derive(Clone, Debug, PartialEq)]
pub struct PathShare {
    /// The element.
    pub element: Id,
    /// Its first shaft.
    pub shaft: Id,
    /// Torque into it there, as shared by stiffness.
    pub torque: Torque,
    /// The same where this path carries least and most, the smaller number first.
    pub range: [Torque; 2],
}

/// What the loads of a torque switch are measured in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadUnit {
    /// Pull of a rope in N.
    Pull,
    /// Torque of a load in N·m.
    Torque,
    /// Slope under a vehicle in degrees.
    Slope,
}

impl LoadUnit {
    /// The field of a stall that has it.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Pull => "pull_n",
            Self::Torque => "torque_nm",
            Self::Slope => "slope_deg",
        }
    }
}

/// When a torque switch shifts, over all sizes of the first load.
#[derive(Clone, Debug, PartialEq)]
pub struct Shifting {
    /// The switch.
    pub switch: Id,
    /// The position it shifts up from.
    pub from: Id,
    /// The position it shifts up to.
    pub to: Id,
    /// What the loads below are in.
    pub unit: LoadUnit,
    /// Smallest load at which it shifts up.
    pub up_at: Option<f64>,
    /// Largest load at which it shifts back.
    pub back_at: Option<f64>,
    /// Loads at which it shifts to and fro.
    pub hunting: Option<[f64; 2]>,
    /// Loads at which it shifts into a position that cannot carry them.
    pub stalls: Option<[f64; 2]>,
}

/// Power that goes round in a strongly connected part.
#[derive(Clone, Debug, PartialEq)]
pub struct PowerLoop {
    /// Its elements in flow order.
    pub elements: Vec<Id>,
    /// The largest power that any one connection of it sends round.
    pub power: Power,
    /// As a multiple of output power (of input power where output is zero).
    pub times_output: Option<f64>,
}
