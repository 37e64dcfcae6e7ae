//! A table as data: columns, rows of formatted cells, and what each row speaks of.
//!
//! How a person wants it (sorted by which column, without which columns) is in [`TableChoice`]; what it becomes as a file
//! is in `table::saved`.

mod saved;

use std::cmp::Ordering;
use std::collections::BTreeSet;

use crate::numbers::{Measure, RatioText};
use crate::target::Target;

/// Tables that can be sorted and saved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TableName {
    /// All shafts and connections.
    Ledger,
    /// Positions side by side.
    Positions,
    /// What a layout is built from.
    Parts,
}

impl TableName {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Ledger, Self::Positions, Self::Parts];

    /// Its name in what is kept and in the names of files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Ledger => "ledger",
            Self::Positions => "positions",
            Self::Parts => "parts",
        }
    }
}

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Which.
    pub name: TableName,
    /// What it shows, as its caption.
    pub caption: String,
    /// Columns from left to right; the first names the row.
    pub columns: Vec<Column>,
    /// Rows from top to bottom.
    pub rows: Vec<Row>,
    /// What to do, where there are no rows.
    pub empty: &'static str,
    /// The column it is sorted by, by its title.
    pub sorted: Option<Sorting>,
    /// All columns that can be left out, and whether they are shown.
    pub choice: Vec<(&'static str, bool)>,
}

/// By what a table is sorted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sorting {
    /// The column's title.
    pub column: &'static str,
    /// Whether the greatest comes first.
    pub falling: bool,
}

/// How a person wants a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TableChoice {
    /// By what it is sorted; none: as it is made.
    pub sorted: Option<Sorting>,
    /// Titles of columns that are left out.
    pub left_out: BTreeSet<String>,
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
    /// Which end of an element its numbers are of; none where pressing a number explains nothing.
    pub explains: Option<usize>,
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

impl TableChoice {
    /// A heading was pressed: rising, then falling, then as it was made.
    pub fn press(&mut self, column: &'static str) {
        self.sorted = match self.sorted {
            Some(Sorting { column: now, falling }) if now == column => (!falling).then_some(Sorting {
                column,
                falling: true,
            }),
            _ => Some(Sorting {
                column,
                falling: false,
            }),
        };
    }

    /// A column is shown or left out.
    pub fn show(&mut self, column: &str, shown: bool) {
        if shown {
            self.left_out.remove(column);
        } else {
            self.left_out.insert(column.to_owned());
        }
    }
}

impl Table {
    /// As a person wants it. Groups stay together, equal rows in their order, and cells without a value at the end.
    #[must_use]
    pub fn arranged(mut self, choice: &TableChoice) -> Self {
        let sorted = choice.sorted.and_then(|sorting| {
            let place = self
                .columns
                .iter()
                .position(|column| column.title == sorting.column)?;
            Some((sorting, place))
        });
        if let Some((sorting, place)) = sorted {
            let groups: Vec<&'static str> = self.rows.iter().map(|row| row.group).collect();
            let rank = |group: &str| groups.iter().position(|other| *other == group);
            self.rows.sort_by(|one, other| {
                rank(one.group)
                    .cmp(&rank(other.group))
                    .then_with(|| one.cells[place].order(&other.cells[place], sorting.falling))
            });
        }
        self.sorted = sorted.map(|(sorting, _)| sorting);
        let shown: Vec<bool> = self
            .columns
            .iter()
            .enumerate()
            .map(|(place, column)| place == 0 || !choice.left_out.contains(column.title))
            .collect();
        self.choice = self
            .columns
            .iter()
            .zip(&shown)
            .skip(1)
            .map(|(column, shown)| (column.title, *shown))
            .collect();
        retain(&mut self.columns, &shown);
        for row in &mut self.rows {
            retain(&mut row.cells, &shown);
        }
        self
    }
}

fn retain<T>(list: &mut Vec<T>, keep: &[bool]) {
    let mut keep = keep.iter();
    list.retain(|_| keep.next().copied().unwrap_or(true));
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

    /// Where it stands when sorted: numbers before words, what has no value last whichever way.
    fn order(&self, other: &Self, falling: bool) -> Ordering {
        let turned = |order: Ordering| if falling { order.reverse() } else { order };
        match (self.number(), other.number()) {
            (Some(one), Some(other)) => turned(one.total_cmp(&other)),
            (Some(_), None) => Ordering::Less,
            (None, Some(_)) => Ordering::Greater,
            (None, None) => match (self, other) {
                (Self::Text(one), Self::Text(other)) if !one.is_empty() && !other.is_empty() => {
                    turned(one.to_lowercase().cmp(&other.to_lowercase()))
                }
                _ => other.has_words().cmp(&self.has_words()),
            },
        }
    }

    fn has_words(&self) -> bool {
        matches!(self, Self::Text(text) if !text.is_empty())
    }

    fn number(&self) -> Option<f64> {
        match self {
            Self::Number(measure) => Some(measure.value),
            Self::Ratio(ratio) => Some(ratio.value()),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Units;
    use layshaft_layout::Id;
    use layshaft_quantity::Torque;

    fn table() -> Table {
        let row = |name: &str, group, torque: Option<f64>| Row {
            target: Target::Shaft(Id::from(name)),
            group,
            cells: vec![
                Cell::Text(name.to_owned()),
                torque.map_or(Cell::Empty, |torque| {
                    Cell::Number(Units::default().torque(Torque::newton_metres(torque)))
                }),
            ],
            current: false,
            explains: None,
        };
        let column = |title, numeric| Column {
            title,
            help: "",
            numeric,
        };
        Table {
            name: TableName::Ledger,
            caption: "Test".to_owned(),
            columns: vec![column("Name", false), column("Torque", true)],
            rows: vec![
                row("a", "One", Some(0.05)),
                row("b", "One", None),
                row("c", "One", Some(0.3)),
                row("d", "One", Some(0.05)),
                row("e", "Other", Some(-7.0)),
            ],
            empty: "",
            sorted: None,
            choice: Vec::new(),
        }
    }

    fn names(table: &Table) -> String {
        table.rows.iter().map(|row| row.cells[0].text()).collect()
    }

    #[test]
    fn a_heading_sorts_up_then_down_then_not_at_all() {
        let mut choice = TableChoice::default();
        for expected in ["adcbe", "cadbe", "abcde"] {
            choice.press("Torque");
            assert_eq!(names(&table().arranged(&choice)), expected);
        }
        choice.press("Torque");
        choice.press("Name");
        assert!(
            choice
                .sorted
                .is_some_and(|sorting| sorting.column == "Name" && !sorting.falling)
        );
    }

    #[test]
    fn columns_that_are_left_out_take_their_cells_along() {
        let mut choice = TableChoice::default();
        choice.show("Torque", false);
        choice.show("Name", false);
        let table = table().arranged(&choice);
        assert_eq!(table.columns.len(), 1);
        assert!(table.rows.iter().all(|row| row.cells.len() == 1));
        assert_eq!(table.choice, [("Torque", false)]);
    }
}
