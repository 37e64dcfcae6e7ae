//! Arrangements with two speeds: what is wanted, and what was found.

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum TwoSpeedsInput {}

/// What a session keeps about it.
#[derive(Clone, Debug, Default)]
pub struct State {}

/// What it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct TwoSpeedsSheet {}
