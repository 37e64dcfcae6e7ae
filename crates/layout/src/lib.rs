//! The layout document: types, file, link, commands and undo, and its lowering to a train.
//!
//! Nothing here knows a screen or a clock. Results live in `report`, words for people in `editor`.

pub mod document;

pub use document::*;
