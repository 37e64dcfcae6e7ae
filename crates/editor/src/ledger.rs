//! The ledger: every shaft and every connection with speed, torque, power and loss.

use layshaft_layout::Layout;
use layshaft_report::PositionReport;

use crate::table::Table;

/// The ledger of one position.
#[must_use]
pub fn ledger(layout: &Layout, position: &PositionReport) -> Table {
    let _ = (layout, position);
    Table {
        caption: "Ledger".to_owned(),
        columns: Vec::new(),
        rows: Vec::new(),
        empty: "Place a shaft to fill the ledger.",
    }
}
