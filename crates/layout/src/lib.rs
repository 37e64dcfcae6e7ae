//! The layout document: types, file, link, commands and undo, and its lowering to a train.
//!
//! Nothing here knows a screen or a clock. Results live in `report`, words for people in `editor`; only what is wrong
//! with a text is worded here ([`Problem`]), because the command line and the page must say the same.

#[cfg(any(test, feature = "arbitrary"))]
pub mod arbitrary;
pub mod document;
mod edit;
mod file;
pub mod link;
pub mod lower;
mod problem;
mod words;

pub use document::*;
pub use edit::*;
pub use file::*;
pub use problem::*;
