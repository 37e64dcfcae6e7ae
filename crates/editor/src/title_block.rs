//! The title block: the result of the sheet in a few rows.

use crate::table::Cell;

/// The title block.
#[derive(Clone, Debug, PartialEq)]
pub struct TitleBlock {
    /// Name of the layout.
    pub title: String,
    /// Name of the position shown.
    pub position: String,
    /// Rows from top to bottom.
    pub rows: Vec<BlockRow>,
}

/// A row of the title block.
#[derive(Clone, Debug, PartialEq)]
pub struct BlockRow {
    /// What it is: `Overall ratio`.
    pub label: &'static str,
    /// Its value.
    pub value: Cell,
    /// A second form of it: the decimal beside the fraction, what limits beside the pull.
    pub also: String,
}
