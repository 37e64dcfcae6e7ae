//! Gears for a ratio: the bin, what is wanted, the trains found.

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum GearsInput {
    /// Gears are wanted for this ratio: the part opens with it.
    Want {
        /// Output turns per input turn.
        ratio: f64,
        /// The element whose place they are to take.
        replaces: Option<layshaft_layout::Id>,
    },
}

/// What a session keeps about it.
#[derive(Clone, Debug, Default)]
pub struct State {}

/// What it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct GearsSheet {}
