//! From a layout to everything computed about it, per shift position, with findings as typed evidence.
//!
//! The page and the command line both call [`report`], so they can't disagree. Words for people are added by
//! `editor::wording`; the JSON that the command line prints is made in `cli`.

mod result;

pub use result::*;
