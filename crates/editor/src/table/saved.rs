//! A table as a file: comma-separated values after RFC 4180, numbers in full and their unit in the heading.

use super::{Cell, Column, Row, Table};
use crate::numbers::MINUS;

impl Table {
    /// As comma-separated values with a heading line (RFC 4180): a decimal point, every digit, units in the heading.
    #[must_use]
    pub fn csv(&self) -> String {
        let line = |cells: Vec<String>| {
            let quoted: Vec<String> = cells.iter().map(|cell| field(cell)).collect();
            quoted.join(",") + "\r\n"
        };
        self.lines().into_iter().map(line).collect()
    }

    /// The same with tabs between the cells, as spreadsheets paste it.
    #[must_use]
    pub fn tabbed(&self) -> String {
        let line = |cells: Vec<String>| cells.join("\t") + "\n";
        self.lines().into_iter().map(line).collect()
    }

    fn lines(&self) -> Vec<Vec<String>> {
        let units: Vec<Option<&'static str>> = (0..self.columns.len())
            .map(|place| common_unit(&self.rows, place))
            .collect();
        let head = self
            .columns
            .iter()
            .zip(&units)
            .map(|(column, unit)| heading(column, *unit));
        let rows = self.rows.iter().map(|row| {
            let cells = row.cells.iter().zip(&units);
            cells.map(|(cell, unit)| plain(cell, unit.is_some())).collect()
        });
        std::iter::once(head.collect()).chain(rows).collect()
    }
}

/// The unit that all numbers of a column have; none where they differ or there are none.
fn common_unit(rows: &[Row], place: usize) -> Option<&'static str> {
    let mut units = rows.iter().filter_map(|row| match row.cells.get(place) {
        Some(Cell::Number(measure)) => Some(measure.plain_unit),
        _ => None,
    });
    let first = units.next()?;
    units.all(|unit| unit == first).then_some(first)
}

fn heading(column: &Column, unit: Option<&str>) -> String {
    match unit {
        None | Some("") => column.title.to_owned(),
        Some(unit) => format!("{} ({unit})", column.title),
    }
}

/// A cell without the niceties of print.
fn plain(cell: &Cell, unit_is_above: bool) -> String {
    match cell {
        Cell::Number(measure) if unit_is_above || measure.plain_unit.is_empty() => {
            format!("{}", measure.value)
        }
        Cell::Number(measure) => format!("{} {}", measure.value, measure.plain_unit),
        Cell::Ratio(ratio) => ratio.exact().replace(MINUS, "-"),
        Cell::Blank | Cell::Empty => String::new(),
        Cell::Text(text) => text.clone(),
    }
}

/// Quoted where it has to be: with a comma, a quotation mark or a line break in it.
fn field(text: &str) -> String {
    if text.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::super::{TableName, *};
    use crate::numbers::{percent, power};
    use crate::units::{Switchable, Units};
    use layshaft_layout::Id;
    use layshaft_quantity::{Power, Torque};

    #[test]
    fn numbers_are_saved_in_full_and_words_quoted_where_they_must_be() {
        let units = Units::default().with(Switchable::Torque, "N·cm");
        let column = |title| Column {
            title,
            help: "",
            numeric: true,
        };
        let row = |name: &str, torque: f64, mixed: Cell| Row {
            target: Target::Shaft(Id::from("a")),
            group: "",
            cells: vec![
                Cell::Text(name.to_owned()),
                Cell::Number(units.torque(Torque::newton_metres(torque))),
                mixed,
            ],
            current: false,
            explains: None,
        };
        let table = Table {
            name: TableName::Ledger,
            caption: String::new(),
            columns: vec![column("Name"), column("Torque"), column("Mixed")],
            rows: vec![
                row("a \"quoted\", one", 0.001_234_567, Cell::Number(percent(0.5))),
                row("b", -1.25, Cell::Number(power(Power::watts(0.01)))),
                row("c", 0.0, Cell::Blank),
            ],
            empty: "",
            sorted: None,
            choice: Vec::new(),
        };
        assert_eq!(
            table.csv(),
            "Name,Torque (N·cm),Mixed\r\n\"a \"\"quoted\"\", one\",0.1234567,50 %\r\nb,-125,0.01 W\r\nc,0,\r\n"
        );
        assert!(table.tabbed().starts_with("Name\tTorque (N·cm)\tMixed\n"));
    }
}
