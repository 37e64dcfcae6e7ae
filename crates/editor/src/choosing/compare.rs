//! Variants side by side: which they are, their rows, a plot of all.

/// Something that happened there.
#[derive(Clone, Debug, PartialEq)]
pub enum CompareInput {}

/// What a session keeps about it.
#[derive(Clone, Debug, Default)]
pub struct State {}

/// What it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct CompareSheet {}
