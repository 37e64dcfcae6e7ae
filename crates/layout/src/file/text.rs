//! Layout to text: one line per shaft, element and position, defaults left out.

use std::io;

use serde::Serialize;
use serde_json::ser::{Formatter, Serializer};
use serde_json::{Map, Value};

use super::tables::{TOP, VERSION};
use super::write;
use crate::document::Layout;

/// Writes a layout file: readable JSON, one line per shaft, element and position.
///
/// ```
/// let text = "{\n  \"layshaft\": 1,\n  \"shafts\": [\n    {\"id\": \"a\", \"at\": [0, 0]}\n  ]\n}\n";
/// let layout = layshaft_layout::decode(text).unwrap();
/// assert_eq!(layshaft_layout::encode(&layout), text);
/// ```
#[must_use]
pub fn encode(layout: &Layout) -> String {
    let mut text = String::from("{");
    for (place, (name, value)) in document(layout).iter().enumerate() {
        text.push_str(if place == 0 { "\n  " } else { ",\n  " });
        text.push_str(&one_line(&Value::from(name.as_str())));
        text.push_str(": ");
        match value {
            Value::Array(things) if is_list_of_things(name) => push_things(&mut text, things),
            other => text.push_str(&one_line(other)),
        }
    }
    text.push_str("\n}\n");
    text
}

/// Writes a layout in as few characters as JSON allows.
#[must_use]
pub fn encode_compact(layout: &Layout) -> String {
    Value::Object(document(layout)).to_string()
}

/// The whole file as one JSON object, in the order in which it is written.
fn document(layout: &Layout) -> Map<String, Value> {
    let mut file = Map::new();
    let mut put = |name: &str, value: Value| file.insert(name.to_owned(), value);
    put("layshaft", Value::from(VERSION));
    for (name, text) in [("title", &layout.title), ("notes", &layout.notes)] {
        if !text.is_empty() {
            put(name, Value::from(text.as_str()));
        }
    }
    if let Some(drive) = &layout.drive {
        put("drive", Value::from(drive.as_str()));
    }
    if let Some(pair) = layout.material_pair {
        put("material_pair", Value::from(pair.name));
    }
    if layout.last_number > layout.largest_number() {
        put("last_number", Value::from(layout.last_number));
    }
    put_things(&mut put, "shafts", layout.shafts.iter().map(write::shaft));
    put_things(&mut put, "elements", layout.elements.iter().map(write::element));
    put_things(
        &mut put,
        "positions",
        layout.positions.iter().map(write::position),
    );
    // In the order of the table, which undo cannot upset.
    for field in TOP.fields {
        if field.name == "course" {
            put_things(&mut put, field.name, layout.course.iter().map(write::stretch));
        } else if field.name == "groups" {
            put_things(&mut put, field.name, layout.groups.iter().map(write::group));
        } else if field.name == "plan" {
            let plan = super::plan::written(&layout.plan);
            if !plan.is_empty() {
                put(field.name, Value::Object(plan));
            }
        } else if let Some(value) = layout.carried.get(field.name) {
            put(field.name, value.clone());
        }
    }
    file
}

fn put_things(
    put: &mut impl FnMut(&str, Value) -> Option<Value>,
    name: &str,
    things: impl Iterator<Item = Map<String, Value>>,
) {
    let things: Vec<Value> = things.map(Value::Object).collect();
    if !things.is_empty() {
        put(name, Value::Array(things));
    }
}

fn is_list_of_things(name: &str) -> bool {
    matches!(name, "shafts" | "elements" | "positions" | "groups")
}

fn push_things(text: &mut String, things: &[Value]) {
    text.push('[');
    for (place, thing) in things.iter().enumerate() {
        text.push_str(if place == 0 { "\n    " } else { ",\n    " });
        text.push_str(&one_line(thing));
    }
    text.push_str("\n  ]");
}

/// A value on one line, with a space after each comma and colon.
fn one_line(value: &Value) -> String {
    let mut bytes = Vec::new();
    let written = value.serialize(&mut Serializer::with_formatter(&mut bytes, Spaced));
    debug_assert!(written.is_ok(), "writing to memory cannot fail");
    String::from_utf8(bytes).expect("JSON is written as UTF-8")
}

/// Puts a space after each comma and colon.
struct Spaced;

impl Formatter for Spaced {
    fn begin_array_value<W: ?Sized + io::Write>(&mut self, writer: &mut W, first: bool) -> io::Result<()> {
        if first { Ok(()) } else { writer.write_all(b", ") }
    }

    fn begin_object_key<W: ?Sized + io::Write>(&mut self, writer: &mut W, first: bool) -> io::Result<()> {
        if first { Ok(()) } else { writer.write_all(b", ") }
    }

    fn begin_object_value<W: ?Sized + io::Write>(&mut self, writer: &mut W) -> io::Result<()> {
        writer.write_all(b": ")
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::arbitrary;
    use crate::file::decode;

    proptest! {
        #[test]
        fn what_was_written_reads_back(layout in arbitrary::layout()) {
            prop_assert_eq!(decode(&encode(&layout)), Ok(layout.clone()));
            prop_assert_eq!(decode(&encode_compact(&layout)), Ok(layout));
        }
    }

    #[test]
    fn numbers_are_written_as_short_as_they_can_be() {
        let short = |value: f64| one_line(&write::number(value));
        assert_eq!(short(20.0), "20");
        assert_eq!(short(0.1), "0.1");
        assert_eq!(short(-0.0), "0");
        assert_eq!(short(1e300), "1e+300");
        assert_eq!(short(5e-324), "5e-324");
    }

    #[test]
    fn a_used_up_number_is_kept_only_where_no_id_tells_it() {
        let mut layout = Layout::new();
        layout.last_number = 7;
        assert!(encode(&layout).contains("\"last_number\": 7"));
        let text = r#"{"layshaft": 1, "shafts": [{"id": "s7"}]}"#;
        assert!(!encode(&decode(text).expect("sound")).contains("last_number"));
    }
}
