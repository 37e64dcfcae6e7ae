//! One or two inputs over a range: what is varied, what is looked at, the plot and its marks.

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum SweepInput {}

/// What a session keeps about it.
#[derive(Clone, Debug, Default)]
pub struct State {}

/// What it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct SweepSheet {}
