//! The sheet on which a builder chooses: sweeps, gears, two speeds, what matters, variants side by side.
//!
//! [`Choosing`] is the state that a session keeps; each part of the sheet has a file here with its state, its inputs and what
//! it shows, and one in `session::choosing` that deals with its inputs. Long work is a [`Job`] that the page has
//! carried out in its worker; what comes back is [`News`].

pub mod compare;
mod entry;
pub mod gears;
pub mod influence;
pub mod sweep;
pub mod two_speeds;

use std::collections::BTreeMap;
use std::rc::Rc;

pub use layshaft_choose::task::{Answer, Job, Progress};

pub use compare::{CompareInput, CompareSheet};
pub use entry::{Choice, ChoiceOption, Entry, Typed};
pub use gears::{
    BinRow, BinSheet, Conditions, Echo, FractionRow, Fractions, GearsChoice, GearsColumn, GearsField,
    GearsInput, GearsSheet, GearsSwitch, OfferedBin, PairingRow, RatioGroup, Results, RulesSheet, Run,
    Spacing, Tick, TrainRow,
};
pub use influence::{InfluenceInput, InfluenceSheet};
pub use sweep::{SweepInput, SweepSheet};
pub use two_speeds::{TwoSpeedsInput, TwoSpeedsSheet};

/// A part of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Tab {
    /// One or two inputs over a range.
    #[default]
    Sweep,
    /// Gears for a ratio.
    Gears,
    /// Arrangements with two speeds.
    TwoSpeeds,
    /// Which inputs move a result, and how far it is known.
    Influence,
    /// Variants side by side.
    Compare,
}

impl Tab {
    /// All, in the order in which they stand.
    pub const ALL: [Self; 5] = [
        Self::Sweep,
        Self::Gears,
        Self::TwoSpeeds,
        Self::Influence,
        Self::Compare,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sweep => "Vary",
            Self::Gears => "Gears",
            Self::TwoSpeeds => "Two speeds",
            Self::Influence => "What matters",
            Self::Compare => "Compare",
        }
    }

    /// The question that it answers.
    #[must_use]
    pub const fn question(self) -> &'static str {
        match self {
            Self::Sweep => "What happens when one number changes?",
            Self::Gears => "Which of my gears make this ratio?",
            Self::TwoSpeeds => "What can be built for two speeds?",
            Self::Influence => "Which numbers decide the result, and how well is it known?",
            Self::Compare => "How do variants differ?",
        }
    }
}

/// Names one piece of long work for the life of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WorkNumber(pub u64);

/// What the page tells of long work.
#[derive(Clone, Debug, PartialEq)]
pub enum News {
    /// It is this far.
    Progress(Progress),
    /// There is so much of it already.
    SoFar(Rc<Answer>),
    /// It is done.
    Done(Rc<Answer>),
    /// It can't be done: a sentence.
    Failed(String),
}

/// Something that happened on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum ChooseInput {
    /// Show a part.
    Show(Tab),
    /// How wide the sheet is, in pixels: what plots may take.
    Width(f64),
    /// On the part that varies inputs.
    Sweep(SweepInput),
    /// On the part with gears.
    Gears(GearsInput),
    /// On the part with arrangements.
    TwoSpeeds(TwoSpeedsInput),
    /// On the part with influences.
    Influence(InfluenceInput),
    /// On the part with variants.
    Compare(CompareInput),
    /// Stop the long work of the part shown.
    Stop,
    /// Save what a plot shows as a file.
    Save {
        /// Its name.
        name: String,
        /// Its text.
        text: String,
    },
    /// News of long work.
    News(WorkNumber, News),
}

/// Work that has not come back.
#[derive(Clone, Debug, PartialEq)]
pub struct Waiting {
    /// Its number.
    pub number: WorkNumber,
    /// How far it is.
    pub progress: Option<Progress>,
}

/// What a session keeps about choosing. Everything large is shared, because sessions are copied at every input.
#[derive(Clone, Debug, Default)]
pub struct Choosing {
    pub(crate) tab: Tab,
    pub(crate) width: f64,
    pub(crate) last_number: u64,
    pub(crate) waiting: BTreeMap<Tab, Waiting>,
    /// Why the last work of a part could not be done.
    pub(crate) fault: Option<(Tab, String)>,
    /// The part whose work was stopped by hand, until it is begun anew.
    pub(crate) stopped: Option<Tab>,
    /// How far that work was.
    pub(crate) stopped_at: Option<Progress>,
    pub(crate) sweep: sweep::State,
    pub(crate) gears: gears::State,
    pub(crate) two_speeds: two_speeds::State,
    pub(crate) influence: influence::State,
    pub(crate) compare: compare::State,
}

/// Width of plots until the page has said how much room there is.
const USUAL_WIDTH: f64 = 560.0;

impl Choosing {
    /// Room for plots.
    pub(crate) fn room(&self) -> f64 {
        if self.width > 0.0 { self.width } else { USUAL_WIDTH }
    }
}

/// The sheet as it is shown: its parts, the one shown, what it waits for.
#[derive(Clone, Debug, PartialEq)]
pub struct ChooseSheet {
    /// The part shown.
    pub tab: Tab,
    /// Its work that has not come back.
    pub waiting: Option<Waiting>,
    /// Why its last work could not be done.
    pub fault: Option<String>,
    /// Its last work was stopped by hand: a sentence.
    pub stopped: Option<&'static str>,
    /// What the part shows.
    pub part: Part,
}

/// What a part shows.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// One or two inputs over a range.
    Sweep(Rc<SweepSheet>),
    /// Gears for a ratio.
    Gears(Rc<GearsSheet>),
    /// Arrangements with two speeds.
    TwoSpeeds(Rc<TwoSpeedsSheet>),
    /// Which inputs move a result.
    Influence(Rc<InfluenceSheet>),
    /// Variants side by side.
    Compare(Rc<CompareSheet>),
}
