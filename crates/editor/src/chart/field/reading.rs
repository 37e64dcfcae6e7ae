//! Reading a field of values: the value next to a pointer or stepped to by key; the numbers as a table and as files.

use super::FieldMap;
use crate::chart::picture::svg;
use crate::chart::table::quoted;
use crate::chart::{NumberTable, Reading, Shape};
use crate::geometry::Point;
use crate::numbers::{MINUS, significant};

/// Columns and rows of a table on the page; all are in the CSV.
const MOST_COLUMNS: usize = 8;
const MOST_ROWS: usize = 24;

/// A value of the field by its column and row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// From the left.
    pub column: usize,
    /// From below.
    pub row: usize,
}

/// Where the reading goes by key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FieldMove {
    /// So many values to the right.
    Right(i32),
    /// So many values up.
    Up(i32),
    /// To the first column.
    First,
    /// To the last column.
    Last,
}

fn nearest(values: &[f64], wanted: f64) -> usize {
    let far = |number: &usize| (values[*number] - wanted).abs();
    let nearest = (0..values.len()).min_by(|one, other| far(one).total_cmp(&far(other)));
    nearest.unwrap_or(0)
}

fn stepped(from: usize, by: i32, count: usize) -> usize {
    let far = usize::try_from(by.unsigned_abs()).unwrap_or(0);
    if by < 0 {
        from.saturating_sub(far)
    } else {
        from.saturating_add(far).min(count.saturating_sub(1))
    }
}

impl FieldMap {
    /// The value next to a place in pixels.
    #[must_use]
    pub fn nearest(&self, at: Point) -> Place {
        let share = |value: f64, from: f64, room: f64| ((value - from) / room).clamp(0.0, 1.0);
        let x = share(at.x, self.field.x, self.field.width);
        let y = 1.0 - share(at.y, self.field.y, self.field.height);
        let x = self.across.least + x * (self.across.greatest - self.across.least);
        let y = self.up.least + y * (self.up.greatest - self.up.least);
        Place {
            column: nearest(&self.spec.columns, x),
            row: nearest(&self.spec.rows, y),
        }
    }

    /// Where a key leads; from none, to where the layout is now.
    #[must_use]
    pub fn moved(&self, from: Option<Place>, by: FieldMove) -> Place {
        let Some(from) = from else {
            let (x, y) = self.spec.present.unwrap_or((self.across.least, self.up.least));
            return Place {
                column: nearest(&self.spec.columns, x),
                row: nearest(&self.spec.rows, y),
            };
        };
        match by {
            FieldMove::Right(by) => Place {
                column: stepped(from.column, by, self.spec.columns.len()),
                ..from
            },
            FieldMove::Up(by) => Place {
                row: stepped(from.row, by, self.spec.rows.len()),
                ..from
            },
            FieldMove::First => Place { column: 0, ..from },
            FieldMove::Last => Place {
                column: self.spec.columns.len().saturating_sub(1),
                ..from
            },
        }
    }

    /// The value at a place.
    #[must_use]
    pub fn reading(&self, place: Place) -> Option<Reading> {
        let x = *self.spec.columns.get(place.column)?;
        let y = *self.spec.rows.get(place.row)?;
        let value = self
            .spec
            .values
            .get(place.row)?
            .get(place.column)
            .copied()
            .flatten();
        let told = value.map_or_else(
            || "none".to_owned(),
            |value| self.spec.value.written(&significant(value)),
        );
        let across = self.spec.across.written(&significant(x));
        let up = self.spec.up.written(&significant(y));
        let at = format!("{} {across}, {} {up}", self.spec.across.title, self.spec.up.title);
        let dot = Shape::Dot {
            class: "plot-dot is-turn",
            at: self.at(x, y),
            radius: 5.0,
        };
        Some(Reading {
            spoken: format!("{told} at {at}").replace(MINUS, "minus "),
            at,
            values: vec![(self.spec.value.title.clone(), told)],
            shapes: vec![dot],
        })
    }

    /// What the map shows, in one sentence, for those who don't see it.
    #[must_use]
    pub fn spoken(&self) -> String {
        let mut said = format!(
            "Map: {}. Across: {}. Up: {}.",
            self.spec.title,
            self.spec.across.heading(),
            self.spec.up.heading()
        );
        if let Some((x, y)) = self.spec.present {
            let across = self.spec.across.written(&significant(x));
            let up = self.spec.up.written(&significant(y));
            said.push_str(&format!(" The layout is at {across} and {up}."));
        }
        said
    }

    /// As a table to be read, thinned.
    #[must_use]
    pub fn table(&self) -> NumberTable {
        let thinned = |count: usize, most: usize| -> Vec<usize> {
            let every = count.div_ceil(most).max(1);
            (0..count)
                .filter(|number| number % every == 0 || number + 1 == count)
                .collect()
        };
        let columns = thinned(self.spec.columns.len(), MOST_COLUMNS);
        let rows = thinned(self.spec.rows.len(), MOST_ROWS);
        let corner = format!("{} \\ {}", self.spec.up.heading(), self.spec.across.heading());
        let head = columns
            .iter()
            .map(|column| significant(self.spec.columns[*column]));
        let row = |row: &usize| {
            let values = columns.iter().map(|column| {
                let value = self.spec.values.get(*row).and_then(|values| values.get(*column));
                value
                    .copied()
                    .flatten()
                    .map_or_else(|| "–".to_owned(), significant)
            });
            std::iter::once(significant(self.spec.rows[*row]))
                .chain(values)
                .collect()
        };
        NumberTable {
            caption: format!("{} ({})", self.spec.title, self.spec.value.heading()),
            columns: std::iter::once(corner).chain(head).collect(),
            rows: rows.iter().rev().map(row).collect(),
            marks: Vec::new(),
        }
    }

    /// All values as comma-separated rows of both places and the value.
    #[must_use]
    pub fn csv(&self) -> String {
        let axes = [&self.spec.across, &self.spec.up, &self.spec.value];
        let head: Vec<String> = axes.iter().map(|axis| quoted(&axis.heading())).collect();
        let mut text = head.join(",") + "\r\n";
        for (y, values) in self.spec.rows.iter().zip(&self.spec.values) {
            for (x, value) in self.spec.columns.iter().zip(values) {
                let value = value.map_or_else(String::new, |value| format!("{value}"));
                text.push_str(&format!("{x},{y},{value}\r\n"));
            }
        }
        text
    }

    /// The map as a picture file of its own.
    #[must_use]
    pub fn svg(&self) -> String {
        svg(&self.spec.title, &self.spoken(), self.size, &self.shapes)
    }
}
