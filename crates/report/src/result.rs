//! What a report holds: plain data, SI quantities inside, signs as the file format defines them.
//!
//! Port torque and power are *into the element*. Parts that do not apply are `None` or empty.

use std::rc::Rc;

use layshaft_kinematics::Ratio;
use layshaft_layout::Id;
use layshaft_quantity::{Angle, AngularSpeed, Current, Force, Power, Speed, Torque};

/// Everything computed about a layout.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// The shaft whose ratio is 1; none in a layout without shafts.
    pub drive: Option<Id>,
    /// One entry per shift position, in document order.
    pub positions: Vec<Rc<PositionReport>>,
    /// All findings, the most important first.
    pub findings: Vec<Finding>,
}

/// The state as the file format names it, first that applies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
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
    /// Other consistent states.
    pub others: Vec<OtherState>,
    /// Circulating power, one entry per strongly connected part.
    pub loops: Vec<PowerLoop>,
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
        /// Efficiency that follows.
        efficiency: f64,
        /// Whether `H` came from the integral, the polynomial being outside its range.
        integrated: bool,
        /// Whether a pinion would be undercut.
        undercut: bool,
    },
    /// Sliding of a worm's thread.
    WormFriction {
        /// Efficiency with the worm driving.
        driving: f64,
        /// Efficiency with the wheel driving; 0 or less: self-locking.
        back: f64,
    },
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
    /// Planetary elements: rolling power as a multiple of output.
    pub rolling_times_output: Option<f64>,
    /// Winch: speed of the rope; vehicle: speed over ground.
    pub line_speed: Option<Speed>,
}

/// What a pull is limited by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
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

/// A finding with the place it was found in.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The position it speaks of; none: the layout as a whole.
    pub position: Option<Id>,
    /// What was found, with its evidence.
    pub kind: FindingKind,
}

/// What was found, with evidence. Words are in `editor::wording`.
#[derive(Clone, Debug, PartialEq)]
pub enum FindingKind {
    /// A position geared lower pulls less than one geared higher.
    LowerPullsLess {
        /// The position geared lower.
        lower: Id,
        /// The position geared higher.
        higher: Id,
        /// Pull in `lower` over pull in `higher` (0 where it cannot move at all).
        pull_ratio: f64,
        /// The element of `lower` that loses most, with its share of the drive's power.
        culprit: Option<(Id, f64)>,
    },
    /// The drive cannot turn: a loop of fixed ratios contradicts itself.
    JammedLoop {
        /// Elements round the loop, in order.
        elements: Vec<Id>,
        /// What one turn comes back as; none where differentials are in the loop.
        product: Option<Ratio>,
    },
    /// The drive cannot turn: brakes hold it.
    JammedBrakes {
        /// The brakes, then what joins them to the drive.
        elements: Vec<Id>,
    },
    /// Shafts that turn independently of the drive though they carry torque.
    Undetermined {
        /// The free shafts.
        shafts: Vec<Id>,
        /// Loads and other elements that nothing balances.
        elements: Vec<Id>,
    },
    /// Shafts free to turn without carrying torque.
    FreeShafts {
        /// The shafts.
        shafts: Vec<Id>,
    },
    /// Shafts that no engaged element joins to the drive.
    Unreached {
        /// The shafts.
        shafts: Vec<Id>,
    },
    /// More than one consistent state.
    Ambiguous {
        /// Elements in question.
        elements: Vec<Id>,
        /// Lowest drive torque among them.
        lowest: Torque,
        /// Highest drive torque among them.
        highest: Torque,
    },
    /// No drive torque moves this load.
    SelfLocking {
        /// Where it locks.
        elements: Vec<Id>,
        /// It locks whichever way the load acts.
        by_own_friction: bool,
    },
    /// An element holds by its friction.
    HeldByFriction {
        /// The element.
        element: Id,
        /// The shaft it holds.
        shaft: Id,
    },
    /// The drive is too weak.
    Stalled {
        /// The source.
        element: Id,
        /// Torque it would need.
        needed: Torque,
        /// Torque it has.
        available: Torque,
    },
    /// Clutches, brakes or belts slip before they carry the load.
    LetsGo {
        /// Those that slip.
        elements: Vec<Id>,
    },
    /// Power goes round.
    CirculatingPower {
        /// Elements in flow order.
        elements: Vec<Id>,
        /// Circulating power.
        power: Power,
        /// As a multiple of output.
        times_output: Option<f64>,
    },
    /// Both ends of a worm feed power into its friction.
    FedFromBothEnds {
        /// The worm.
        element: Id,
        /// What becomes heat there.
        loss: Power,
    },
    /// The load drives the source.
    Overhauling {
        /// The source.
        element: Id,
        /// Power it has to take up.
        power: Power,
    },
    /// One element takes more than a third of the loss.
    MainLoss {
        /// The element.
        element: Id,
        /// Its share of the whole loss.
        share: f64,
        /// Its share of the drive's power.
        of_input: f64,
    },
    /// Consistent parallel paths: the split is by stiffness, not by rigid bodies.
    RedundantLoop {
        /// Elements of the loop.
        elements: Vec<Id>,
    },
    /// No loss was given: taken as lossless.
    NoLossGiven {
        /// The elements.
        elements: Vec<Id>,
    },
    /// Motor data with `Kt > Ke`: the sheet makes energy.
    SheetMakesEnergy {
        /// The motor.
        element: Id,
    },
    /// A pinion would be undercut.
    Undercut {
        /// The mesh.
        element: Id,
    },
    /// Several blocks of equations too large to search whole.
    NotProven {
        /// Elements of the block.
        elements: Vec<Id>,
    },
}

impl FindingKind {
    /// Its code in files.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::LowerPullsLess { .. } => "lower-pulls-less",
            Self::JammedLoop { .. } | Self::JammedBrakes { .. } => "jammed",
            Self::Undetermined { .. } => "undetermined",
            Self::FreeShafts { .. } => "free-shaft",
            Self::Unreached { .. } => "unreached",
            Self::Ambiguous { .. } => "ambiguous",
            Self::SelfLocking { .. } => "self-locking",
            Self::HeldByFriction { .. } => "held-by-friction",
            Self::Stalled { .. } => "stalled",
            Self::LetsGo { .. } => "lets-go",
            Self::CirculatingPower { .. } => "circulating-power",
            Self::FedFromBothEnds { .. } => "fed-from-both-ends",
            Self::Overhauling { .. } => "overhauling",
            Self::MainLoss { .. } => "main-loss",
            Self::RedundantLoop { .. } => "redundant-loop",
            Self::NoLossGiven { .. } => "no-loss-given",
            Self::SheetMakesEnergy { .. } => "sheet-makes-energy",
            Self::Undercut { .. } => "undercut",
            Self::NotProven { .. } => "not-proven",
        }
    }
}
