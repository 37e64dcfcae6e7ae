//! Which inputs move a result, and how far results are known.

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum InfluenceInput {}

/// What a session keeps about it.
#[derive(Clone, Debug, Default)]
pub struct State {}

/// What it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct InfluenceSheet {}
