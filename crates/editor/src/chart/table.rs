//! The numbers of a plot as a table and as comma-separated values.

use super::lines::value_at;
use super::{Chart, axes};
use crate::numbers::significant;

/// Rows of a table on the page: more than these nobody reads; all are in the CSV.
const MOST_ROWS: usize = 60;

/// Numbers as a table.
#[derive(Clone, Debug, PartialEq)]
pub struct NumberTable {
    /// What it shows.
    pub caption: String,
    /// Headings with units; the first names the rows.
    pub columns: Vec<String>,
    /// Rows; the first cell is the place.
    pub rows: Vec<Vec<String>>,
    /// Places that are marked: place, empty where the words say it, and words.
    pub marks: Vec<(String, String)>,
}

/// A cell, quoted where it has to be.
pub fn quoted(text: &str) -> String {
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

impl Chart {
    fn columns(&self) -> Vec<String> {
        let lines = self
            .spec
            .all_lines()
            .map(|(axis, line)| match line.name.as_str() {
                "" => axis.heading(),
                name => format!("{name}: {}", axis.heading()),
            });
        std::iter::once(self.spec.across.heading()).chain(lines).collect()
    }

    /// As a table to be read, thinned where there are many places.
    #[must_use]
    pub fn table(&self) -> NumberTable {
        let every = self.stops.len().div_ceil(MOST_ROWS).max(1);
        let counts = self.spec.counts();
        let row = |at: f64| {
            let values = self
                .spec
                .all_lines()
                .map(|(_, line)| value_at(line, at).map_or_else(|| "–".to_owned(), significant));
            std::iter::once(axes::number(at, counts)).chain(values).collect()
        };
        let last = self.stops.len().saturating_sub(1);
        let kept = self.stops.iter().enumerate();
        let kept = kept.filter(|(number, _)| number % every == 0 || *number == last);
        let mark = |mark: &super::MarkSpec| {
            // Most marks say where they are themselves.
            let at = axes::number(mark.at, counts);
            let told = mark.text.contains(&at);
            let at = if told {
                String::new()
            } else {
                self.spec.across.written(&at)
            };
            (at, mark.text.clone())
        };
        let said = self.spec.marks.iter().filter(|mark| !mark.text.is_empty());
        NumberTable {
            caption: self.spec.title.clone(),
            columns: self.columns(),
            rows: kept.map(|(_, at)| row(*at)).collect(),
            marks: said.map(mark).collect(),
        }
    }

    /// All of it as comma-separated values with a heading line, numbers in full.
    #[must_use]
    pub fn csv(&self) -> String {
        let head: Vec<String> = self.columns().iter().map(|column| quoted(column)).collect();
        let mut text = head.join(",") + "\r\n";
        for at in &self.stops {
            let values = self
                .spec
                .all_lines()
                .map(|(_, line)| value_at(line, *at).map_or_else(String::new, |value| format!("{value}")));
            let cells: Vec<String> = std::iter::once(format!("{at}")).chain(values).collect();
            text.push_str(&cells.join(","));
            text.push_str("\r\n");
        }
        text
    }
}
