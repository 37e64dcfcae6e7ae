//! A table as data: columns, rows of formatted cells, and what each row speaks of.

use crate::numbers::{Measure, RatioText};
use crate::target::Target;

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What it shows, as its caption.
    pub caption: String,
    /// Columns from left to right; the first names the row.
    pub columns: Vec<Column>,
    /// Rows from top to bottom.
    pub rows: Vec<Row>,
    /// What to do, where there are no rows.
    pub empty: &'static str,
}

/// A column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its heading.
    pub title: &'static str,
    /// What its numbers are, for pointing at.
    pub help: &'static str,
    /// Whether its cells are numbers, set flush right.
    pub numeric: bool,
}

/// A row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it speaks of; pressing the row selects this.
    pub target: Target,
    /// Which group of rows it belongs to (`Shafts`, `Connections`).
    pub group: &'static str,
    /// One cell for each column.
    pub cells: Vec<Cell>,
    /// Whether it is the row of what is selected or of the current position.
    pub current: bool,
}

/// A cell.
#[derive(Clone, Debug, PartialEq, Default)]
pub enum Cell {
    /// Nothing applies here.
    #[default]
    Empty,
    /// Words.
    Text(String),
    /// A number with its unit.
    Number(Measure),
    /// An exact ratio.
    Ratio(RatioText),
    /// An answer that is to be worked out.
    Blank,
}

impl Table {
    /// As comma-separated values with a heading line; numbers keep their units.
    #[must_use]
    pub fn csv(&self) -> String {
        let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
        let head = self
            .columns
            .iter()
            .map(|column| quoted(column.title))
            .collect::<Vec<_>>()
            .join(",");
        let rows = self.rows.iter().map(|row| {
            row.cells
                .iter()
                .map(|cell| quoted(&cell.text()))
                .collect::<Vec<_>>()
                .join(",")
        });
        std::iter::once(head)
            .chain(rows)
            .map(|line| line + "\r\n")
            .collect()
    }
}

impl Cell {
    /// Leaves a blank where an answer stands.
    pub fn hide(&mut self) {
        if *self != Self::Empty {
            *self = Self::Blank;
        }
    }

    /// As one line of text.
    #[must_use]
    pub fn text(&self) -> String {
        match self {
            Self::Empty => String::new(),
            Self::Text(text) => text.clone(),
            Self::Number(measure) => measure.text(),
            Self::Ratio(ratio) => ratio.text(),
            Self::Blank => "…".to_owned(),
        }
    }

    /// As a screen reader should say it.
    #[must_use]
    pub fn spoken(&self) -> String {
        match self {
            Self::Empty => "none".to_owned(),
            Self::Text(text) => text.clone(),
            Self::Number(measure) => measure.spoken(),
            Self::Ratio(ratio) => ratio.spoken(),
            Self::Blank => "to be worked out".to_owned(),
        }
    }
}
