//! The JSON Schema of the layout file, made from the field table.

use serde_json::{Map, Value, json};

use super::fields::{Either, Kind, Rule, Table};
use super::kinds::KINDS;
use super::tables::{MOST_ID_CHARACTERS, STRETCH, STRETCH_LENGTH, STRETCH_SLOPE, TOP, VERSION};
use crate::problem::{Counted, Range};

/// The JSON Schema (draft 2020-12) of the layout file.
///
/// It says what can be said field by field. References between ids, rings larger than what turns in them and the like
/// are beyond a schema; [`crate::decode`] checks them.
#[must_use]
pub fn schema() -> Value {
    let mut schema = object(&TOP);
    schema["$schema"] = json!("https://json-schema.org/draft/2020-12/schema");
    schema["title"] = json!("Layshaft layout");
    schema["properties"]["layshaft"]["minimum"] = json!(1);
    schema["properties"]["layshaft"]["maximum"] = json!(VERSION);
    schema["$defs"] = Value::Object(
        KINDS
            .iter()
            .map(|kind| (kind.name.to_owned(), element(kind)))
            .collect(),
    );
    schema
}

/// An object with the fields of a table.
fn object(table: &Table) -> Value {
    let mut properties = Map::new();
    for field in table.fields {
        let mut schema = rule(&field.rule);
        schema["description"] = json!(field.about);
        if let Some(default) = field.need.default_value() {
            schema["default"] = default;
        }
        properties.insert(field.name.to_owned(), schema);
    }
    let required: Vec<_> = table
        .fields
        .iter()
        .filter(|field| matches!(field.need, super::fields::Need::Required))
        .map(|field| field.name)
        .collect();
    let mut schema = json!({
        "type": "object", "properties": properties, "required": required, "additionalProperties": false,
    });
    if !table.either.is_empty() {
        schema["allOf"] = table.either.iter().map(one_of).collect();
    }
    schema
}

/// Exactly one of the fields, or at most one.
fn one_of(either: &Either) -> Value {
    let mut each: Vec<Value> = either
        .fields
        .iter()
        .map(|name| json!({ "required": [name] }))
        .collect();
    if !either.required {
        each.push(json!({ "not": { "anyOf": each.clone() } }));
    }
    json!({ "oneOf": each })
}

/// An element of one kind.
fn element(kind: &Kind) -> Value {
    let mut schema = object(kind.table);
    schema["description"] = json!(kind.about);
    schema["properties"]["kind"] = json!({ "const": kind.name });
    schema
}

fn rule(rule: &Rule) -> Value {
    match rule {
        Rule::ShaftOrFrame
        | Rule::Shaft
        | Rule::Id
        | Rule::Engageable
        | Rule::Position
        | Rule::Member
        | Rule::AnElement => {
            json!({ "type": "string", "minLength": 1, "maxLength": MOST_ID_CHARACTERS })
        }
        Rule::Count(counted) => count(*counted),
        Rule::Number(range) => number(range),
        Rule::Flag => json!({ "type": "boolean" }),
        Rule::Word(words) => json!({ "enum": words }),
        Rule::Kind => json!({ "type": "string" }),
        Rule::Text(most) => json!({ "type": "string", "maxLength": most }),
        Rule::List { of, least, most } => {
            json!({ "type": "array", "items": self::rule(of), "minItems": least, "maxItems": most })
        }
        Rule::Names { of, least, most } => json!({
            "type": "array", "items": self::rule(of), "minItems": least, "maxItems": most, "uniqueItems": true,
        }),
        Rule::Object(table) => object(table),
        Rule::Element => {
            let each: Vec<_> = KINDS
                .iter()
                .map(|kind| json!({ "$ref": format!("#/$defs/{}", kind.name) }))
                .collect();
            json!({ "oneOf": each })
        }
        Rule::Stretch => {
            let short = json!({
                "type": "array", "prefixItems": [self::rule(&STRETCH_LENGTH), self::rule(&STRETCH_SLOPE)],
                "minItems": 2, "maxItems": 2,
            });
            json!({ "oneOf": [object(&STRETCH), short] })
        }
        Rule::Carried => json!({}),
    }
}

fn count(counted: Counted) -> Value {
    let (least, most) = counted.limits();
    let mut schema = json!({ "type": "integer", "minimum": least, "maximum": most });
    if counted.excludes_zero() {
        schema["not"] = json!({ "const": 0 });
    }
    schema
}

fn number(range: &Range) -> Value {
    let low = if range.above_low {
        "exclusiveMinimum"
    } else {
        "minimum"
    };
    let high = if range.below_high {
        "exclusiveMaximum"
    } else {
        "maximum"
    };
    json!({ "type": "number", low: super::write::number(range.low), high: super::write::number(range.high) })
}
