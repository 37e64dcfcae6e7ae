//! A drawing as data: every shape with its path, every label with its place and its words, nothing left to compute.
//!
//! Items compare by value and sit in `Rc`, so that a page redraws only what changed. Path data is SVG's, in bench
//! coordinates unless it says otherwise. [`flow`] builds the flow drawing.

pub mod flow;
mod items;

pub use items::*;
