//! The validator: walks a JSON value along the field table and notes every problem with its place.
//!
//! What binds several fields of one element to each other is in [`super::relations`].

use std::collections::HashMap;

use serde_json::{Map, Value};

use super::fields::{Field, Kind, Need, Rule, Table};
use super::kinds::{KINDS, kind_named};
use super::nearest::{Nearest, nearest_word};
use super::place::Place;
use super::relations;
use super::tables::{MOST_ERRORS, MOST_ID_CHARACTERS, PLACE, STRETCH, STRETCH_LENGTH, STRETCH_SLOPE};
use crate::document::FRAME;
use crate::problem::{DocumentError, Problem};

/// What ids may be referred to.
pub(crate) trait Names {
    /// Whether a shaft bears this id.
    fn has_shaft(&self, id: &str) -> bool;
    /// The kind of the element that bears this id; empty where the kind itself cannot be told.
    fn kind_of(&self, id: &str) -> Option<&str>;
    /// All shafts.
    fn shafts(&self) -> Box<dyn Iterator<Item = &str> + '_>;
    /// Whether a shift position bears this id; the implied one counts where none is written.
    fn has_position(&self, id: &str) -> bool;
    /// All shift positions.
    fn positions(&self) -> Box<dyn Iterator<Item = &str> + '_>;
    /// All elements.
    fn elements(&self) -> Box<dyn Iterator<Item = &str> + '_>;
    /// All clutches and brakes.
    fn engageable(&self) -> Box<dyn Iterator<Item = &str> + '_>;
}

/// Notes problems.
pub(crate) struct Checker<'n> {
    pub(super) names: &'n dyn Names,
    pub(super) nearest: Nearest,
    /// What was found so far.
    pub(crate) errors: Vec<DocumentError>,
}

impl<'n> Checker<'n> {
    /// A checker that knows these names.
    pub(crate) const fn new(names: &'n dyn Names) -> Self {
        Self {
            names,
            nearest: Nearest::new(),
            errors: Vec::new(),
        }
    }

    /// Notes a problem.
    pub(super) fn note(&mut self, place: &Place<'_>, problem: Problem) {
        if self.errors.len() == MOST_ERRORS {
            self.errors.push(DocumentError {
                path: String::new(),
                problem: Problem::MoreProblems,
            });
        }
        if self.is_full() {
            return;
        }
        self.errors.push(DocumentError {
            path: place.to_string(),
            problem,
        });
    }

    /// Whether so many problems were found that the rest is not worth looking for.
    const fn is_full(&self) -> bool {
        self.errors.len() > MOST_ERRORS
    }

    /// Checks one value against a rule.
    pub(crate) fn value(&mut self, value: &Value, rule: &Rule, place: &Place<'_>) {
        if self.is_full() {
            return;
        }
        match rule {
            Rule::Carried => {}
            Rule::Flag if value.is_boolean() => {}
            Rule::Flag => self.wrong_type(value, "true or false", place),
            Rule::Count(_) | Rule::Number(_) => self.number(value, rule, place),
            Rule::List { of, least, most } => self.list(value, of, (*least, *most), place),
            Rule::Names { of, least, most } => {
                self.list(value, of, (*least, *most), place);
                self.each_once(value, place);
            }
            Rule::Object(table) => match value {
                Value::Object(fields) => self.object(fields, table, place),
                _ => self.wrong_type(value, "an object", place),
            },
            Rule::Stretch => match value {
                Value::Array(entries) => self.short_stretch(entries, place),
                Value::Object(fields) => self.object(fields, &STRETCH, place),
                _ => self.wrong_type(value, "an object", place),
            },
            Rule::Element => match value {
                Value::Object(fields) => self.element(fields, place),
                _ => self.wrong_type(value, "an object", place),
            },
            _ => match value {
                Value::String(text) => self.text(text, rule, place),
                _ => self.wrong_type(value, "a text in quotes", place),
            },
        }
    }

    fn wrong_type(&mut self, value: &Value, wanted: &'static str, place: &Place<'_>) {
        self.note(
            place,
            Problem::WrongType {
                wanted,
                got: type_of(value),
            },
        );
    }

    fn number(&mut self, value: &Value, rule: &Rule, place: &Place<'_>) {
        let Some(got) = value.as_f64() else {
            return self.wrong_type(value, "a number", place);
        };
        match rule {
            Rule::Count(counted) if counted.whole(got).is_none() => {
                self.note(
                    place,
                    Problem::Count {
                        counted: *counted,
                        got,
                    },
                );
            }
            Rule::Number(range) if !range.contains(got) => {
                self.note(place, Problem::OutOfRange { range: *range, got });
            }
            _ => {}
        }
    }

    fn list(&mut self, value: &Value, of: &Rule, (least, most): (usize, usize), place: &Place<'_>) {
        let Value::Array(entries) = value else {
            return self.wrong_type(value, "a list", place);
        };
        if entries.len() < least || entries.len() > most {
            self.note(
                place,
                Problem::WrongLength {
                    least,
                    most,
                    got: entries.len(),
                },
            );
        }
        for (index, entry) in entries.iter().take(most).enumerate() {
            self.value(entry, of, &place.entry(index));
        }
    }

    fn short_stretch(&mut self, entries: &[Value], place: &Place<'_>) {
        let rules = [STRETCH_LENGTH, STRETCH_SLOPE];
        if entries.len() != rules.len() {
            let (least, most, got) = (rules.len(), rules.len(), entries.len());
            self.note(place, Problem::WrongLength { least, most, got });
        }
        for (index, (entry, rule)) in entries.iter().zip(&rules).enumerate() {
            self.value(entry, rule, &place.entry(index));
        }
    }

    fn each_once(&mut self, value: &Value, place: &Place<'_>) {
        let mut first = HashMap::new();
        for (index, entry) in value.as_array().into_iter().flatten().enumerate() {
            let Some(id) = entry.as_str() else { continue };
            if *first.entry(id).or_insert(index) != index {
                self.note(&place.entry(index), Problem::NamedTwice { id: id.to_owned() });
            }
        }
    }

    fn text(&mut self, text: &str, rule: &Rule, place: &Place<'_>) {
        match rule {
            Rule::Text(most) => {
                let got = text.chars().count();
                if got > *most {
                    self.note(place, Problem::TextFieldTooLong { most: *most, got });
                }
            }
            Rule::Id if !is_id(text) => self.note(place, Problem::BadId),
            Rule::Word(known) if !known.contains(&text) => {
                let nearest = nearest_word(text, known.iter().copied());
                self.note(
                    place,
                    Problem::UnknownWord {
                        word: text.to_owned(),
                        known,
                        nearest,
                    },
                );
            }
            Rule::Kind if kind_named(text).is_none() => {
                let nearest = nearest_word(text, KINDS.iter().map(|kind| kind.name));
                self.note(
                    place,
                    Problem::UnknownKind {
                        kind: text.to_owned(),
                        nearest,
                    },
                );
            }
            Rule::Shaft | Rule::ShaftOrFrame => self.shaft(text, matches!(rule, Rule::ShaftOrFrame), place),
            Rule::Engageable => self.engageable(text, place),
            Rule::Position => self.position(text, place),
            Rule::Member => self.member(text, place),
            Rule::AnElement => self.an_element(text, place),
            _ => {}
        }
    }

    fn shaft(&mut self, id: &str, frame_allowed: bool, place: &Place<'_>) {
        if id == FRAME {
            if !frame_allowed {
                self.note(place, Problem::FrameNotAllowed);
            }
        } else if !self.names.has_shaft(id) {
            let frame = frame_allowed.then_some(FRAME);
            let nearest = self
                .nearest
                .of(id, self.names.shafts().chain(frame))
                .map(ToOwned::to_owned);
            self.note(
                place,
                Problem::UnknownShaft {
                    id: id.to_owned(),
                    nearest,
                },
            );
        }
    }

    fn position(&mut self, id: &str, place: &Place<'_>) {
        if self.names.has_position(id) {
            return;
        }
        let nearest = self.nearest.of(id, self.names.positions()).map(ToOwned::to_owned);
        self.note(
            place,
            Problem::UnknownPosition {
                id: id.to_owned(),
                nearest,
            },
        );
    }

    fn engageable(&mut self, id: &str, place: &Place<'_>) {
        match self.names.kind_of(id) {
            Some("clutch" | "brake" | "") => {}
            Some(kind) => {
                let kind = kind.to_owned();
                self.note(
                    place,
                    Problem::NotEngageable {
                        id: id.to_owned(),
                        kind,
                    },
                );
            }
            None => {
                let nearest = self
                    .nearest
                    .of(id, self.names.engageable())
                    .map(ToOwned::to_owned);
                self.note(
                    place,
                    Problem::UnknownElement {
                        id: id.to_owned(),
                        nearest,
                    },
                );
            }
        }
    }

    /// Checks the fields of an object against its table.
    pub(crate) fn object(&mut self, fields: &Map<String, Value>, table: &'static Table, place: &Place<'_>) {
        for (name, value) in fields {
            if self.is_full() {
                return;
            }
            match table.field(name) {
                Some(field) => self.value(value, &field.rule, &place.field(name)),
                None => {
                    let nearest = nearest_word(name, table.fields.iter().map(|field| field.name));
                    self.note(
                        &place.field(name),
                        Problem::UnknownField {
                            on: table.on,
                            nearest,
                        },
                    );
                }
            }
        }
        for missing in table.fields.iter().filter(|field| is_missing(field, fields)) {
            self.note(&place.field(missing.name), Problem::Missing { on: table.on });
        }
        for either in table.either {
            match either
                .fields
                .iter()
                .filter(|name| fields.contains_key(**name))
                .count()
            {
                0 if either.required => {
                    self.note(
                        place,
                        Problem::NoneOf {
                            on: table.on,
                            fields: either.fields,
                        },
                    );
                }
                0 | 1 => {}
                _ => self.note(
                    place,
                    Problem::MoreThanOneOf {
                        on: table.on,
                        fields: either.fields,
                    },
                ),
            }
        }
    }

    /// Checks an element, whose fields follow from its kind.
    pub(crate) fn element(&mut self, fields: &Map<String, Value>, place: &Place<'_>) {
        match fields.get("kind").and_then(Value::as_str).and_then(kind_named) {
            Some(Kind { table, .. }) => {
                let before = self.errors.len();
                self.object(fields, table, place);
                if self.errors.len() == before {
                    relations::check(self, fields, table, place);
                }
            }
            None => {
                self.id_and_place(fields, place);
                match fields.get("kind") {
                    Some(kind) => self.value(kind, &Rule::Kind, &place.field("kind")),
                    None => self.note(&place.field("kind"), Problem::Missing { on: "an element" }),
                }
            }
        }
    }

    /// The two fields that can be checked without knowing the kind.
    fn id_and_place(&mut self, fields: &Map<String, Value>, place: &Place<'_>) {
        match fields.get("id") {
            Some(id) => self.value(id, &Rule::Id, &place.field("id")),
            None => self.note(&place.field("id"), Problem::Missing { on: "an element" }),
        }
        if let Some(at) = fields.get("at") {
            self.value(at, &PLACE, &place.field("at"));
        }
    }
}

fn is_missing(field: &Field, fields: &Map<String, Value>) -> bool {
    matches!(field.need, Need::Required) && !fields.contains_key(field.name)
}

/// Whether a text can be an id.
pub(crate) fn is_id(text: &str) -> bool {
    let length = text.chars().count();
    (1..=MOST_ID_CHARACTERS).contains(&length) && !text.chars().any(char::is_control)
}

const fn type_of(value: &Value) -> &'static str {
    match value {
        Value::Null => "null",
        Value::Bool(_) => "true or false",
        Value::Number(_) => "a number",
        Value::String(_) => "a text",
        Value::Array(_) => "a list",
        Value::Object(_) => "an object",
    }
}
