//! Gears for a ratio: the bin, what is wanted, the trains found.

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum GearsInput {}

/// What a session keeps about it.
#[derive(Clone, Debug, Default)]
pub struct State {}

/// What it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct GearsSheet {}
