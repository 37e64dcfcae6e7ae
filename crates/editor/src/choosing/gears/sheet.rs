//! What the part with gears shows: everything formatted.

use super::{GearsColumn, GearsSwitch, OfferedBin};
use crate::choosing::{Choice, Entry};

/// What it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct GearsSheet {
    /// The wanted ratio.
    pub ratio: Entry,
    /// The ratio in words, and what turning it round would make of it.
    pub echo: Option<Echo>,
    /// The tolerance.
    pub tolerance: Entry,
    /// Stages at most.
    pub stages: Choice,
    /// Which way the output turns.
    pub sense: Choice,
    /// Whether idlers may turn it round.
    pub idlers: Tick,
    /// The gears at hand.
    pub bin: BinSheet,
    /// What can be built.
    pub rules: RulesSheet,
    /// The line over all that.
    pub conditions: Conditions,
    /// Where a train would go: a sentence.
    pub place: String,
    /// The trains.
    pub results: Results,
    /// Fractions near the ratio.
    pub fractions: Fractions,
}

/// What the search goes by, in a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Conditions {
    /// In words: `Within 0.1 %, up to 2 stages, from a bin of 19 tooth counts`.
    pub told: String,
    /// Whether something there has to be seen to first.
    pub open: bool,
}

/// What can be done about a search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// Stop it.
    Stop,
    /// Begin it again.
    Again,
}

/// A ratio said back.
#[derive(Clone, Debug, PartialEq)]
pub struct Echo {
    /// In words.
    pub told: String,
    /// The name of the button that turns it round.
    pub turn: String,
}

/// Something to switch on or off.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// What it is.
    pub switch: GearsSwitch,
    /// A name that is unique on the page.
    pub key: String,
    /// Its label.
    pub label: String,
    /// Whether it is on.
    pub on: bool,
}

/// The gears at hand.
#[derive(Clone, Debug, PartialEq)]
pub struct BinSheet {
    /// All of them in one field.
    pub entry: Entry,
    /// One row for each tooth count.
    pub rows: Vec<BinRow>,
    /// Bins to begin with, where there are none, with the name of the button.
    pub offers: Vec<(OfferedBin, String)>,
    /// How many there are.
    pub summary: String,
}

/// Gears of one tooth count.
#[derive(Clone, Debug, PartialEq)]
pub struct BinRow {
    /// Tooth count.
    pub teeth: u32,
    /// How many: `2`, `any number`.
    pub count: String,
    /// Whether there are as many as wanted.
    pub any: bool,
    /// Their material.
    pub material: String,
}

/// What can be built.
#[derive(Clone, Debug, PartialEq)]
pub struct RulesSheet {
    /// Whether anything is asked for, so that the fold should stand open.
    pub in_force: bool,
    /// Input and output in line.
    pub coaxial: Tick,
    /// Pairs that are not to mesh.
    pub excluded: Entry,
    /// Module.
    pub module: Entry,
    /// How far apart shafts can be.
    pub spacing: Choice,
    /// Fields that go with that.
    pub lengths: Vec<(super::GearsField, Entry)>,
}

/// The trains.
#[derive(Clone, Debug, PartialEq)]
pub struct Results {
    /// How many there are, or what to do.
    pub summary: String,
    /// What can be done about the search, as long as it has not come to its end.
    pub run: Option<Run>,
    /// Why the trains are not those of what is typed.
    pub stale: Option<String>,
    /// What became of the layout by the train that was put in last.
    pub became: Option<String>,
    /// Columns with their names; which one they are sorted by.
    pub columns: Vec<(GearsColumn, String)>,
    /// The column that they are sorted by, and whether backwards.
    pub sorted: (GearsColumn, bool),
    /// Trains of equal ratio together.
    pub groups: Vec<RatioGroup>,
    /// The name of the button that shows more.
    pub more: Option<String>,
    /// The nearest train where there is none within the tolerance.
    pub nearest: Option<TrainRow>,
    /// Where the efficiency comes from.
    pub note: String,
    /// The name of the buttons that put a train somewhere.
    pub put_in: String,
}

/// Trains of one ratio.
#[derive(Clone, Debug, PartialEq)]
pub struct RatioGroup {
    /// The exact ratio: `1/12`.
    pub ratio: String,
    /// How far off it is: `exact`, `+0.0123 %`.
    pub error: String,
    /// The trains.
    pub rows: Vec<TrainRow>,
}

/// A train.
#[derive(Clone, Debug, PartialEq)]
pub struct TrainRow {
    /// Its place in the answer.
    pub index: usize,
    /// The exact ratio.
    pub ratio: String,
    /// How far off it is.
    pub error: String,
    /// Its stages as gear pairs: `12→36 · 15→40`.
    pub stages: String,
    /// The same as a screen reader should say it.
    pub spoken: String,
    /// How many gears.
    pub gears: String,
    /// Which way the output turns.
    pub sense: String,
    /// Efficiency.
    pub efficiency: String,
    /// Size with its unit.
    pub size: String,
    /// The same gears paired off otherwise, the most efficient first.
    pub pairings: Vec<PairingRow>,
    /// The name of the button that shows the rest of them.
    pub more_pairings: Option<String>,
}

/// The gears of a train paired off otherwise.
#[derive(Clone, Debug, PartialEq)]
pub struct PairingRow {
    /// Its place among the pairings.
    pub index: usize,
    /// Its stages: `also 8→42 · 11→28`.
    pub stages: String,
    /// The same as a screen reader should say it.
    pub spoken: String,
    /// Efficiency.
    pub efficiency: String,
    /// Size with its unit.
    pub size: String,
}

/// Fractions near the ratio.
#[derive(Clone, Debug, PartialEq)]
pub struct Fractions {
    /// The largest number in them.
    pub largest: Entry,
    /// The fractions.
    pub rows: Vec<FractionRow>,
}

/// A fraction near the ratio.
#[derive(Clone, Debug, PartialEq)]
pub struct FractionRow {
    /// The fraction.
    pub fraction: String,
    /// How far off it is.
    pub error: String,
    /// Gears from the bin that make it exactly.
    pub train: String,
    /// Whether it is a convergent, nearer than all simpler ones.
    pub strong: bool,
}
