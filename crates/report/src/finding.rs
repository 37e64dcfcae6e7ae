//! Findings: what was found about a layout, typed, with evidence. Words are in `editor::wording`.
//!
//! Where each is found is in `findings`, for what only shows beside other positions in `compare`.

use layshaft_kinematics::Ratio;
use layshaft_layout::Id;
use layshaft_powerflow::materials::MaterialPair;
use layshaft_quantity::{Angle, Length, Power, Torque};

use crate::result::{LoadUnit, OtherState, PathShare};

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
        /// Torque that it would have to carry, where it is one that slips and that is known.
        needed: Option<Torque>,
    },
    /// Clutches, brakes or belts slip while the rest runs.
    Slips {
        /// The one that slips.
        element: Id,
        /// Torque at which it slips.
        limit: Torque,
        /// Torque that it would have to carry; none where that is not known.
        needed: Option<Torque>,
        /// What becomes heat there.
        heat: Power,
    },
    /// Friction alone keeps a load where it is.
    StandsByFriction {
        /// The load.
        element: Id,
    },
    /// What can let go could stand otherwise as well.
    OtherStates {
        /// The other ways.
        states: Vec<OtherState>,
    },
    /// The slope asks for more grip than the tyres have, or would before the drive is at its end.
    TractionBeforeTorque {
        /// The vehicle.
        element: Id,
        /// Steepest slope by grip.
        traction: Angle,
        /// Steepest slope by torque; none: the drive has no limit.
        torque: Option<Angle>,
        /// The present slope, where it is steeper than the tyres can climb.
        slope: Option<Angle>,
    },
    /// The drive is at its end before the tyres slip.
    TorqueBeforeTraction {
        /// The vehicle.
        element: Id,
        /// Steepest slope by torque.
        torque: Angle,
        /// Steepest slope by grip.
        traction: Angle,
    },
    /// On this slope the vehicle tips over backwards.
    Tips {
        /// The vehicle.
        element: Id,
        /// The slope.
        slope: Angle,
        /// Where it tips.
        tipping: Angle,
    },
    /// With the motor off the load runs back.
    BackDrives {
        /// The motor.
        element: Id,
        /// Torque that it would take to hold, at the motor's shaft.
        needed: Option<Torque>,
        /// Torque that the motor's own friction holds.
        available: Torque,
    },
    /// A motor makes more heat than it stands for long.
    Overheats {
        /// The motor.
        element: Id,
        /// Its heat.
        heat: Power,
        /// What it stands.
        limit: Power,
    },
    /// A motor carries much more than where it runs best.
    PastBestEfficiency {
        /// The motor.
        element: Id,
        /// Its torque.
        torque: Torque,
        /// Its torque where it runs best.
        best: Torque,
        /// Its efficiency there.
        best_efficiency: f64,
    },
    /// A torque switch shifts to and fro under the same load.
    Hunting {
        /// The switch.
        element: Id,
        /// Position it shifts up from.
        from: Id,
        /// Position it shifts up to.
        to: Id,
        /// From which load to which.
        loads: [f64; 2],
        /// What they are in.
        unit: LoadUnit,
    },
    /// A torque switch shifts into a position that cannot carry the load.
    ShiftsAndStalls {
        /// The switch.
        element: Id,
        /// Position it shifts up from.
        from: Id,
        /// Position it shifts up to.
        to: Id,
        /// From which load to which.
        loads: [f64; 2],
        /// What they are in.
        unit: LoadUnit,
    },
    /// More torque in a mesh than its teeth bear.
    TeethOverloaded {
        /// The mesh.
        element: Id,
        /// Torque at its first shaft.
        torque: Torque,
        /// What the teeth bear there.
        limit: Torque,
        /// Whether that was measured; else worked out from bending.
        measured: bool,
    },
    /// So many planets can't be put in at equal distances.
    PlanetAssembly {
        /// The set.
        element: Id,
        /// How many planets.
        count: u32,
        /// Teeth that have to be a multiple of that: of sun and ring together (double planets: the difference).
        teeth: u32,
        /// The nearest count that can be put in; none from 2 to 8.
        fits: Option<u32>,
    },
    /// So many planets get in one another's way.
    PlanetsCollide {
        /// The set.
        element: Id,
        /// How many planets.
        count: u32,
        /// The most that have room and can be put in.
        fits: Option<u32>,
    },
    /// Two axes are not as far apart as their gears need.
    CentreDistance {
        /// The mesh.
        element: Id,
        /// The shaft to be moved for it.
        shaft: Id,
        /// Distance of the axes.
        found: Length,
        /// Distance that module and tooth counts need.
        wanted: Length,
        /// Where the shaft's axis would be right, in mm.
        axis_mm: [f64; 2],
    },
    /// Friction of materials that only memory or a guess stands behind.
    FrictionRange {
        /// The pair.
        pair: &'static MaterialPair,
        /// The elements that take their friction from it.
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
        /// How far each may carry more or less; empty where nothing flows.
        shares: Vec<PathShare>,
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
            Self::Slips { .. } => "slips",
            Self::StandsByFriction { .. } => "stands-by-friction",
            Self::OtherStates { .. } => "other-states",
            Self::TractionBeforeTorque { .. } => "traction-before-torque",
            Self::TorqueBeforeTraction { .. } => "torque-before-traction",
            Self::Tips { .. } => "tips",
            Self::BackDrives { .. } => "back-drives",
            Self::Overheats { .. } => "overheats",
            Self::PastBestEfficiency { .. } => "past-best-efficiency",
            Self::Hunting { .. } => "hunting",
            Self::ShiftsAndStalls { .. } => "shifts-and-stalls",
            Self::TeethOverloaded { .. } => "teeth-overloaded",
            Self::PlanetAssembly { .. } => "planet-assembly",
            Self::PlanetsCollide { .. } => "planets-collide",
            Self::CentreDistance { .. } => "centre-distance",
            Self::FrictionRange { .. } => "friction-range",
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

impl FindingKind {
    /// The elements that it names.
    #[must_use]
    pub fn elements(&self) -> Vec<&Id> {
        match self {
            Self::JammedLoop { elements, .. }
            | Self::JammedBrakes { elements }
            | Self::Undetermined { elements, .. }
            | Self::Ambiguous { elements, .. }
            | Self::SelfLocking { elements, .. }
            | Self::LetsGo { elements, .. }
            | Self::CirculatingPower { elements, .. }
            | Self::RedundantLoop { elements, .. }
            | Self::NoLossGiven { elements }
            | Self::FrictionRange { elements, .. }
            | Self::NotProven { elements } => elements.iter().collect(),
            Self::HeldByFriction { element, .. }
            | Self::Stalled { element, .. }
            | Self::Slips { element, .. }
            | Self::StandsByFriction { element }
            | Self::TractionBeforeTorque { element, .. }
            | Self::TorqueBeforeTraction { element, .. }
            | Self::Tips { element, .. }
            | Self::BackDrives { element, .. }
            | Self::Overheats { element, .. }
            | Self::PastBestEfficiency { element, .. }
            | Self::Hunting { element, .. }
            | Self::ShiftsAndStalls { element, .. }
            | Self::TeethOverloaded { element, .. }
            | Self::PlanetAssembly { element, .. }
            | Self::PlanetsCollide { element, .. }
            | Self::CentreDistance { element, .. }
            | Self::FedFromBothEnds { element, .. }
            | Self::Overhauling { element, .. }
            | Self::MainLoss { element, .. }
            | Self::SheetMakesEnergy { element }
            | Self::Undercut { element } => vec![element],
            Self::LowerPullsLess { culprit, .. } => culprit.iter().map(|(id, _)| id).collect(),
            Self::OtherStates { states } => distinct(states),
            Self::FreeShafts { .. } | Self::Unreached { .. } => Vec::new(),
        }
    }
}

fn distinct(states: &[OtherState]) -> Vec<&Id> {
    let mut ids: Vec<&Id> = Vec::new();
    for (id, _) in states.iter().flat_map(|state| &state.modes) {
        if !ids.contains(&id) {
            ids.push(id);
        }
    }
    ids
}
