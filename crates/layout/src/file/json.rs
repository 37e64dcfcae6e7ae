//! Text to JSON value, with the caps of the file and a sentence for whatever is not JSON.
//!
//! The value is built by our own visitor because a plain one keeps the last of two fields of one name and says nothing.

use std::cell::{Cell, RefCell};
use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_json::map::Entry;
use serde_json::{Map, Value};

use super::place::Place;
use super::tables::{MOST_BYTES, MOST_DIGITS, MOST_ERRORS, MOST_LEVELS, MOST_VALUES};
use crate::problem::{DocumentError, Problem};

/// What reading a JSON text gave.
pub(super) struct Parsed {
    /// The value.
    pub value: Value,
    /// Fields that stand twice.
    pub errors: Vec<DocumentError>,
}

/// Reads a JSON text.
///
/// # Errors
/// The one problem that keeps the text from being read at all.
pub(super) fn parse(text: &str) -> Result<Parsed, Problem> {
    if text.len() > MOST_BYTES {
        return Err(Problem::TextTooLong {
            bytes: text.len(),
            most: MOST_BYTES,
        });
    }
    if text.starts_with('\u{feff}') {
        return Err(Problem::ByteOrderMark);
    }
    if let Some(at) = long_number(text.as_bytes()) {
        let (line, column) = line_and_column(text, at);
        return Err(Problem::TooManyDigits {
            line,
            column,
            most: MOST_DIGITS,
        });
    }
    let notes = Notes {
        errors: RefCell::new(Vec::new()),
        values: Cell::new(0),
    };
    let mut reader = serde_json::Deserializer::from_str(text);
    let seed = Seed {
        place: &Place::Root,
        level: 0,
        notes: &notes,
    };
    let value = seed
        .deserialize(&mut reader)
        .and_then(|value| reader.end().map(|()| value))
        .map_err(|error| syntax(text, &error, notes.values.get()))?;
    Ok(Parsed {
        value,
        errors: notes.errors.into_inner(),
    })
}

/// Where a number of more than the allowed characters starts.
fn long_number(text: &[u8]) -> Option<usize> {
    let mut at = 0;
    while at < text.len() {
        match text[at] {
            b'"' => at = string_end(text, at + 1),
            b'-' | b'0'..=b'9' => {
                let length = text[at..]
                    .iter()
                    .take_while(|byte| is_number_byte(**byte))
                    .count();
                if length > MOST_DIGITS {
                    return Some(at);
                }
                at += length;
            }
            _ => at += 1,
        }
    }
    None
}

const fn is_number_byte(byte: u8) -> bool {
    matches!(byte, b'0'..=b'9' | b'.' | b'e' | b'E' | b'+' | b'-')
}

/// The place after the quote that closes a string whose inside starts at `at`.
fn string_end(text: &[u8], mut at: usize) -> usize {
    while at < text.len() {
        match text[at] {
            b'"' => return at + 1,
            b'\\' => at += 2,
            _ => at += 1,
        }
    }
    at
}

/// Line and column, both from 1, of a byte offset.
fn line_and_column(text: &str, at: usize) -> (usize, usize) {
    let before = &text.as_bytes()[..at];
    let line_start = before
        .iter()
        .rposition(|byte| *byte == b'\n')
        .map_or(0, |newline| newline + 1);
    (
        before.iter().filter(|byte| **byte == b'\n').count() + 1,
        at - line_start + 1,
    )
}

/// What the reader stumbled over, as a problem.
fn syntax(text: &str, error: &serde_json::Error, values: usize) -> Problem {
    let (line, column) = (error.line(), error.column().max(1));
    if error.is_data() {
        // Only our own two caps raise errors of this kind.
        let many = values > MOST_VALUES;
        return if many {
            Problem::TooManyValues { most: MOST_VALUES }
        } else {
            Problem::TooDeep { most: MOST_LEVELS }
        };
    }
    let rest = text
        .lines()
        .nth(line.saturating_sub(1))
        .and_then(|line| line.get(column - 1..))
        .unwrap_or("");
    let message = error.to_string();
    let not_finite = ["NaN", "nan", "Inf", "inf"]
        .iter()
        .any(|word| rest.starts_with(word));
    if not_finite || message.starts_with("number out of range") {
        return Problem::NotFinite { line, column };
    }
    let what = message.split(" at line ").next().unwrap_or("it cannot be read");
    let what = match what {
        _ if text.trim().is_empty() => "the text is empty",
        "trailing characters" => "something stands after the end of the layout",
        "expected value" | "expected ident" => "a value is expected here",
        "trailing comma" => "a comma stands before a closing bracket",
        "key must be a string" => "a field name in double quotes is expected here",
        cut if cut.starts_with("EOF while parsing") => "the text ends too early",
        other => other,
    };
    Problem::Syntax {
        line: line.max(1),
        column,
        what: what.to_owned(),
    }
}

/// What is noted while a text is read.
struct Notes {
    errors: RefCell<Vec<DocumentError>>,
    values: Cell<usize>,
}

impl Notes {
    /// Counts a value, or gives the reader's error where there are too many: a short text of empty lists would
    /// otherwise fill the memory.
    fn count<E: serde::de::Error>(&self) -> Result<(), E> {
        self.values.set(self.values.get() + 1);
        if self.values.get() > MOST_VALUES {
            Err(E::custom("too many values"))
        } else {
            Ok(())
        }
    }

    fn duplicate(&self, place: &Place<'_>) {
        let mut errors = self.errors.borrow_mut();
        if errors.len() < MOST_ERRORS {
            errors.push(DocumentError {
                path: place.to_string(),
                problem: Problem::DuplicateField,
            });
        }
    }
}

/// Reads one value at a place.
struct Seed<'a> {
    place: &'a Place<'a>,
    level: usize,
    notes: &'a Notes,
}

impl Seed<'_> {
    /// One level further in, or the reader's error.
    fn deeper<E: serde::de::Error>(&self) -> Result<usize, E> {
        if self.level >= MOST_LEVELS {
            Err(E::custom("too deep"))
        } else {
            Ok(self.level + 1)
        }
    }
}

impl<'de> DeserializeSeed<'de> for Seed<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<Value, D::Error> {
        self.notes.count::<D::Error>()?;
        reader.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Seed<'_> {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_string<E>(self, value: String) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Value, A::Error> {
        let level = self.deeper::<A::Error>()?;
        let mut values = Vec::new();
        loop {
            let place = self.place.entry(values.len());
            let Some(value) = list.next_element_seed(Seed {
                place: &place,
                level,
                notes: self.notes,
            })?
            else {
                return Ok(Value::Array(values));
            };
            values.push(value);
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, mut object: A) -> Result<Value, A::Error> {
        let level = self.deeper::<A::Error>()?;
        let mut fields = Map::new();
        while let Some(name) = object.next_key::<String>()? {
            let place = self.place.field(&name);
            let value = object.next_value_seed(Seed {
                place: &place,
                level,
                notes: self.notes,
            })?;
            match fields.entry(name) {
                Entry::Vacant(entry) => {
                    entry.insert(value);
                }
                Entry::Occupied(entry) => self.notes.duplicate(&self.place.field(entry.key())),
            }
        }
        Ok(Value::Object(fields))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn problem(text: &str) -> String {
        match parse(text) {
            Err(problem) => problem.to_string(),
            Ok(parsed) => parsed
                .errors
                .iter()
                .map(ToString::to_string)
                .collect::<Vec<_>>()
                .join("; "),
        }
    }

    #[test]
    fn what_is_not_json_is_placed_and_explained() {
        assert_eq!(
            problem("{\n  \"a\": 1,\n}"),
            "not JSON at line 3, column 1: a comma stands before a closing bracket"
        );
        assert_eq!(
            problem("{\"a\": 1} x"),
            "not JSON at line 1, column 10: something stands after the end of the layout"
        );
        assert_eq!(
            problem("{\"a\": "),
            "not JSON at line 1, column 6: the text ends too early"
        );
        assert_eq!(problem(" "), "not JSON at line 1, column 1: the text is empty");
    }

    #[test]
    fn numbers_that_are_none_or_endless_are_refused() {
        assert_eq!(
            problem("{\"a\": NaN}"),
            "every number must be finite; line 1, column 7 has none"
        );
        assert_eq!(
            problem("{\"a\": -Infinity}"),
            "every number must be finite; line 1, column 8 has none"
        );
        assert_eq!(
            problem("[1e999]"),
            "every number must be finite; line 1, column 6 has none"
        );
        let long = format!("[\n \"5{}\", 0.{}]", "0".repeat(90), "1".repeat(90));
        assert_eq!(
            problem(&long),
            "the number at line 2, column 97 is too long; write it with at most 64 characters"
        );
    }

    #[test]
    fn twofold_fields_are_found_wherever_they_are() {
        assert_eq!(
            problem("{\"a\": [{\"b\": 1, \"b\": 2}], \"a\": 3}"),
            "a[0].b: this field stands twice; keep one; a: this field stands twice; keep one"
        );
    }

    #[test]
    fn a_short_text_cannot_fill_the_memory() {
        let lists = format!("[{}[]]", "[],".repeat(MOST_VALUES));
        assert_eq!(
            problem(&lists),
            "the text holds too many values; at most 4000000 are read"
        );
    }

    proptest! {
        #[test]
        fn any_text_is_answered(text in ".{0,60}", json in "[\\[\\]{}\":,0-9eE.+ tfnaN\\\\-]{0,40}") {
            let _ = parse(&text);
            let _ = parse(&json);
        }
    }

    #[test]
    fn nesting_and_marks_are_refused() {
        assert_eq!(
            problem(&"[".repeat(100_000)),
            "lists and objects are nested too deeply; at most 64 levels are read"
        );
        assert!(problem("\u{feff}{}").contains("byte order mark"));
        assert_eq!(problem(&format!("{}{}", "[".repeat(64), "]".repeat(64))), "");
    }
}
