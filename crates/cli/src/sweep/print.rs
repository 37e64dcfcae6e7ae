//! Rows of a sweep as JSON, as comma-separated values and as a table for people.

use std::fmt::Write;

use layshaft_editor::numbers;
use serde_json::{Map, Value, json};

use super::{Row, Varied};

pub fn json(varied: &[Varied], paths: &[String], rows: &[Row]) -> String {
    let vary = varied
        .iter()
        .map(|varied| json!({ "path": varied.path, "values": varied.values }));
    let row = |row: &Row| {
        let there = paths.iter().zip(&row.values);
        let values: Map<String, Value> = there
            .filter_map(|(path, value)| Some((path.clone(), value.clone()?)))
            .collect();
        json!({ "at": row.at, "values": values })
    };
    let whole = json!({
        "vary": vary.collect::<Vec<Value>>(),
        "show": paths,
        "rows": rows.iter().map(row).collect::<Vec<Value>>(),
    });
    let text = serde_json::to_string_pretty(&whole).expect("a JSON value can be written");
    text + "\n"
}

pub fn csv(varied: &[Varied], paths: &[String], rows: &[Row]) -> String {
    let mut out = String::new();
    let inputs = varied.iter().map(|varied| quoted(&varied.path));
    line(&mut out, inputs.chain(paths.iter().map(|path| quoted(path))));
    for row in rows {
        let values = row
            .values
            .iter()
            .map(|value| value.as_ref().map_or_else(String::new, exact));
        line(&mut out, row.at.iter().map(f64::to_string).chain(values));
    }
    out
}

fn line(out: &mut String, cells: impl Iterator<Item = String>) {
    let cells: Vec<String> = cells.collect();
    writeln!(out, "{}", cells.join(",")).expect("text can always be written to a string");
}

/// A value with all its digits.
fn exact(value: &Value) -> String {
    match value {
        Value::String(text) => quoted(text),
        Value::Object(_) | Value::Array(_) => quoted(&value.to_string()),
        _ => value.to_string(),
    }
}

/// RFC 4180: quotes where a comma or quote stands in the text.
fn quoted(text: &str) -> String {
    if text.contains(['"', ',', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

pub fn text(varied: &[Varied], paths: &[String], rows: &[Row]) -> String {
    let inputs = varied.iter().map(|varied| varied.path.clone());
    let mut table: Vec<Vec<String>> = vec![inputs.chain(paths.iter().map(|path| short(path))).collect()];
    for row in rows {
        let at = row.at.iter().map(|value| trimmed(*value));
        let values = row.values.iter().map(|value| match value {
            None => "–".to_owned(),
            Some(value) => readable(value),
        });
        table.push(at.chain(values).collect());
    }
    let width = |column: usize| {
        let cells = table.iter().map(|row| row[column].chars().count());
        cells.max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..table[0].len()).map(width).collect();
    let mut out = String::new();
    for row in &table {
        let cells = row
            .iter()
            .zip(&widths)
            .map(|(cell, width)| format!("{cell:>width$}"));
        let cells: Vec<String> = cells.collect();
        writeln!(out, "{}", cells.join("  ")).expect("text can always be written to a string");
    }
    out
}

/// Without the word that all begin with.
fn short(path: &str) -> String {
    path.strip_prefix("positions.").unwrap_or(path).to_owned()
}

/// An input's value with at most ten digits.
fn trimmed(value: f64) -> String {
    let short = format!("{value:.10}");
    let short = short.trim_end_matches('0').trim_end_matches('.');
    if short.len() < value.to_string().len() {
        short.to_owned()
    } else {
        value.to_string()
    }
}

fn readable(value: &Value) -> String {
    match (value, value.as_f64()) {
        (_, Some(number)) => numbers::significant(number),
        (Value::String(text), _) => text.clone(),
        _ => value.to_string(),
    }
}
