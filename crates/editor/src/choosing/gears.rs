//! Gears for a ratio: the bin, what is wanted, the trains found.
//!
//! What is typed for the ratio is read in [`wish`], where a train would go in the layout in [`place`]; what is shown is in
//! [`sheet`].

pub mod place;
pub mod sheet;
pub mod wish;

use std::collections::BTreeSet;
use std::rc::Rc;

use layshaft_choose::gears::{Bin, GearAnswer, GearJob};
use layshaft_layout::{Id, Layout};

use super::Typed;
use crate::units::Units;

pub use sheet::*;

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum GearsInput {
    /// Gears are wanted for this ratio: the part opens with it.
    Want {
        /// Output turns per input turn.
        ratio: f64,
        /// The element whose place they are to take.
        replaces: Option<Id>,
        /// How far off it may be, as a share; none: as it is set.
        tolerance: Option<f64>,
    },
    /// Text was typed into a field.
    Type(GearsField, String),
    /// A field was left, or Enter was pressed in it.
    Keep(GearsField),
    /// One of several words was chosen.
    Choose(GearsChoice, String),
    /// Something was switched on or off.
    Switch(GearsSwitch, bool),
    /// Slower becomes faster by as much, and the other way round.
    TurnRound,
    /// One more gear of this tooth count.
    More(u32),
    /// One less; the last one goes.
    Less(u32),
    /// As many gears of this tooth count as wanted, or one only.
    AnyNumber(u32, bool),
    /// A bin that was offered is taken.
    TakeBin(OfferedBin),
    /// Trains in the order of a column; once more: the other way round.
    Sort(GearsColumn),
    /// More trains are shown.
    ShowMore,
    /// A train, by its place in the answer, goes into the layout, or becomes a layout of its own.
    PutIn(usize),
    /// The same gears paired off otherwise, by the places of the train and of the pairing.
    PutPairingIn(usize, usize),
    /// All pairings of a train are shown.
    ShowPairings(usize),
    /// The search that was stopped is begun again.
    SearchAgain,
    /// The nearest train goes into the layout, though it is outside the tolerance.
    PutNearestIn,
}

/// A field to type into.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum GearsField {
    /// The ratio.
    Ratio,
    /// The tolerance.
    Tolerance,
    /// The bin.
    Bin,
    /// Pairs that are not to mesh.
    Excluded,
    /// Module.
    Module,
    /// Centre distances.
    Distances,
    /// From bore to bore.
    Pitch,
    /// How much a distance may be off.
    Slack,
    /// The largest number in the table of fractions.
    Largest,
}

/// A list to choose from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GearsChoice {
    /// Stages at most.
    Stages,
    /// Which way the output turns.
    Sense,
    /// How far apart shafts can be.
    Spacing,
}

/// Something that is on or off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GearsSwitch {
    /// Idlers may turn the output round.
    Idlers,
    /// Input and output in line.
    Coaxial,
}

/// A bin for a layout that has none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OfferedBin {
    /// The one used last.
    Last,
    /// Tooth counts that many sets of gears have.
    Common,
}

/// A column of the table of trains.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum GearsColumn {
    /// How far off the ratio is.
    #[default]
    Error,
    /// The ratio.
    Ratio,
    /// How many gears.
    Gears,
    /// Efficiency.
    Efficiency,
    /// Size.
    Size,
}

/// How far apart shafts can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Spacing {
    /// As the gears want.
    #[default]
    Any,
    /// One of those typed.
    Listed,
    /// From hole to hole of a pattern.
    Bores,
}

/// Trains shown at first, and more at a time.
pub(crate) const PAGE: usize = 100;
/// Trains kept at most.
pub(crate) const MOST_TRAINS: u32 = 500;
/// Tooth counts that many sets of gears have.
pub(crate) const COMMON: &str = "12, 15, 16, 18, 20, 24, 30, 36, 40, 45, 48, 60";

/// What a session keeps about it.
#[derive(Clone, Debug)]
pub struct State {
    pub(crate) ratio: String,
    pub(crate) tolerance: String,
    /// While it is being typed; else the bin is the layout's.
    pub(crate) bin: Option<String>,
    /// The last text that could be read, while it is being typed.
    pub(crate) read_bin: Option<Rc<Bin>>,
    pub(crate) last_bin: Rc<Bin>,
    /// Whether the layout's bin is one that came with a demo.
    pub(crate) example: bool,
    /// The meshes whose ratio was filled in last.
    pub(crate) filled: Vec<Id>,
    pub(crate) stages: u32,
    pub(crate) sense: layshaft_choose::gears::WantedSense,
    pub(crate) idlers: bool,
    pub(crate) coaxial: bool,
    pub(crate) excluded: String,
    pub(crate) module: Typed,
    pub(crate) spacing: Spacing,
    pub(crate) distances: Typed,
    pub(crate) pitch: Typed,
    pub(crate) slack: Typed,
    pub(crate) largest: String,
    pub(crate) sort: GearsColumn,
    pub(crate) backwards: bool,
    pub(crate) shown: usize,
    /// What was asked last.
    pub(crate) asked: Option<Rc<GearJob>>,
    /// What came of it, and whether that is all.
    pub(crate) answer: Option<Rc<GearAnswer>>,
    pub(crate) whole: bool,
    /// Trains all of whose pairings are shown.
    pub(crate) unfolded: BTreeSet<usize>,
    /// What became of a layout by the train that was put in.
    pub(crate) became: Option<(Rc<Layout>, String)>,
}

impl Default for State {
    fn default() -> Self {
        Self {
            ratio: String::new(),
            tolerance: "0.1".to_owned(),
            bin: None,
            read_bin: None,
            last_bin: Rc::default(),
            example: false,
            filled: Vec::new(),
            stages: 2,
            sense: layshaft_choose::gears::WantedSense::Any,
            idlers: false,
            coaxial: false,
            excluded: String::new(),
            module: Typed::default(),
            spacing: Spacing::Any,
            distances: Typed::default(),
            pitch: Typed::new("8", Units::default()),
            slack: Typed::new("0.1", Units::default()),
            largest: "500".to_owned(),
            sort: GearsColumn::Error,
            backwards: false,
            shown: PAGE,
            asked: None,
            answer: None,
            whole: false,
            unfolded: BTreeSet::new(),
            became: None,
        }
    }
}
