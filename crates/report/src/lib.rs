//! From a layout to everything computed about it, per shift position, with findings as typed evidence.
//!
//! The page and the command line both call [`report`], so they can't disagree. Words for people are added by
//! `editor::wording`; the JSON that the command line prints is made in `cli`.

mod result;
mod working;

pub use result::*;
pub use working::*;

use layshaft_layout::{Id, Layout};

/// A layout that can be read but not computed, with the place in the file.
#[derive(Clone, Debug, PartialEq)]
pub struct ReportError {
    /// Path into the file, such as `elements[3].shaft`.
    pub path: String,
    /// What is wrong.
    pub problem: ReportProblem,
}

/// What is wrong with a layout that can be read but not computed.
#[derive(Clone, Debug, PartialEq)]
pub enum ReportProblem {
    /// In this position more sources than freedoms meet on one train.
    TooManySources {
        /// The position.
        position: Id,
        /// The source that leaves no room.
        source: Id,
    },
}

/// Computes everything about a layout.
///
/// # Errors
/// All of [`ReportProblem`], each with its path.
pub fn report(layout: &Layout) -> Result<Report, Vec<ReportError>> {
    let _ = layout;
    Ok(Report { drive: None, positions: Vec::new(), findings: Vec::new() })
}

/// The working of one shaft's ratio in one position; `None` where the drive does not settle its speed.
#[must_use]
pub fn working(layout: &Layout, position: &Id, shaft: &Id) -> Option<Working> {
    let _ = (layout, position, shaft);
    None
}
