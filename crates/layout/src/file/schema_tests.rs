//! The schema and the validator say the same: damaged layouts are judged by both.
//!
//! The schema is read by a small evaluator of just those keywords that it uses, written from the JSON Schema
//! specification (draft 2020-12) and knowing nothing of the field table.

use proptest::prelude::*;
use proptest::sample::{Index, select};
use serde_json::{Value, json};

use super::{decode, encode_compact, schema};
use crate::arbitrary;
use crate::problem::{DocumentError, Problem};

/// Whether a value fits a schema.
fn fits(value: &Value, schema: &Value, root: &Value) -> bool {
    let Value::Object(keywords) = schema else {
        return schema != &Value::Bool(false);
    };
    keywords.iter().all(|(keyword, wanted)| match keyword.as_str() {
        "$ref" => fits(
            value,
            root.pointer(&wanted.as_str().expect("a text")[1..])
                .expect("it leads somewhere"),
            root,
        ),
        "type" => has_type(value, wanted.as_str().expect("a text")),
        "const" => value == wanted,
        "enum" => wanted.as_array().expect("a list").contains(value),
        "oneOf" => {
            wanted
                .as_array()
                .expect("a list")
                .iter()
                .filter(|each| fits(value, each, root))
                .count()
                == 1
        }
        "allOf" => wanted
            .as_array()
            .expect("a list")
            .iter()
            .all(|each| fits(value, each, root)),
        "anyOf" => wanted
            .as_array()
            .expect("a list")
            .iter()
            .any(|each| fits(value, each, root)),
        "not" => !fits(value, wanted, root),
        "required" => {
            let named = |name: &Value| value.get(name.as_str().expect("a text")).is_some();
            !value.is_object() || wanted.as_array().expect("a list").iter().all(named)
        }
        "properties" => value.as_object().is_none_or(|object| {
            object
                .iter()
                .all(|(name, value)| wanted.get(name).is_none_or(|schema| fits(value, schema, root)))
        }),
        "additionalProperties" => value
            .as_object()
            .is_none_or(|object| object.keys().all(|name| schema["properties"].get(name).is_some())),
        "items" => value
            .as_array()
            .is_none_or(|list| list.iter().all(|entry| fits(entry, wanted, root))),
        "prefixItems" => value.as_array().is_none_or(|list| {
            let schemas = wanted.as_array().expect("a list");
            list.iter()
                .zip(schemas)
                .all(|(entry, schema)| fits(entry, schema, root))
        }),
        "uniqueItems" => value.as_array().is_none_or(|list| {
            list.iter()
                .enumerate()
                .all(|(at, entry)| !list[..at].contains(entry))
        }),
        "minItems" => value
            .as_array()
            .is_none_or(|list| list.len() as u64 >= whole(wanted)),
        "maxItems" => value
            .as_array()
            .is_none_or(|list| list.len() as u64 <= whole(wanted)),
        "minLength" => value
            .as_str()
            .is_none_or(|text| text.chars().count() as u64 >= whole(wanted)),
        "maxLength" => value
            .as_str()
            .is_none_or(|text| text.chars().count() as u64 <= whole(wanted)),
        "minimum" => compare(value, wanted, |value, limit| value >= limit),
        "maximum" => compare(value, wanted, |value, limit| value <= limit),
        "exclusiveMinimum" => compare(value, wanted, |value, limit| value > limit),
        "exclusiveMaximum" => compare(value, wanted, |value, limit| value < limit),
        "$schema" | "$defs" | "title" | "description" | "default" => true,
        other => panic!("the schema uses a keyword that this test does not know: {other}"),
    })
}

fn has_type(value: &Value, wanted: &str) -> bool {
    match wanted {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "number" => value.is_number(),
        "integer" => value.as_f64().is_some_and(|number| number.fract() == 0.0),
        other => panic!("no type of JSON Schema: {other}"),
    }
}

fn whole(value: &Value) -> u64 {
    value.as_u64().expect("a whole number")
}

fn compare(value: &Value, limit: &Value, holds: impl Fn(f64, f64) -> bool) -> bool {
    value
        .as_f64()
        .is_none_or(|value| holds(value, limit.as_f64().expect("a number")))
}

/// Whether a problem is one that a schema can tell: of one field by itself.
fn is_schema_matter(error: &DocumentError) -> bool {
    matches!(
        error.problem,
        Problem::UnknownField { .. }
            | Problem::UnknownKind { .. }
            | Problem::UnknownWord { .. }
            | Problem::Missing { .. }
            | Problem::NoneOf { .. }
            | Problem::MoreThanOneOf { .. }
            | Problem::WrongType { .. }
            | Problem::WrongLength { .. }
            | Problem::TextFieldTooLong { .. }
            | Problem::Count { .. }
            | Problem::OutOfRange { .. }
            | Problem::NamedTwice { .. }
            | Problem::VersionZero
            | Problem::NewerVersion { .. }
    )
}

fn check(file: &Value) {
    let schema = schema();
    let problems = decode(&file.to_string()).err().unwrap_or_default();
    if fits(file, &schema, &schema) {
        let missed: Vec<_> = problems.iter().filter(|error| is_schema_matter(error)).collect();
        assert!(
            missed.is_empty(),
            "the schema lets through what the validator refuses: {missed:?}\n{file}"
        );
    } else {
        assert!(
            !problems.is_empty(),
            "the validator lets through what the schema refuses\n{file}"
        );
    }
}

/// All places in a value where something can be changed.
fn places(value: &Value, here: &str, all: &mut Vec<String>) {
    all.push(here.to_owned());
    match value {
        Value::Object(object) => {
            // What is carried for others may be anything.
            let checked = object
                .iter()
                .filter(|(name, _)| !["bin", "view"].contains(&name.as_str()));
            checked.for_each(|(name, value)| places(value, &format!("{here}/{name}"), all));
        }
        Value::Array(list) => {
            list.iter()
                .enumerate()
                .for_each(|(at, entry)| places(entry, &format!("{here}/{at}"), all));
        }
        _ => {}
    }
}

/// Removes, replaces or adds something at a place.
fn damage(file: &mut Value, place: &str, what: &Value, how: u8) {
    if how > 0 {
        *file.pointer_mut(place).expect("a place of this file") = what.clone();
        return;
    }
    let Some((outer, name)) = place.rsplit_once('/') else {
        return;
    };
    match file.pointer_mut(outer) {
        Some(Value::Object(object)) => drop(object.shift_remove(name)),
        Some(Value::Array(list)) => list.push(what.clone()),
        _ => {}
    }
}

fn anything() -> impl Strategy<Value = Value> {
    select(vec![
        Value::Null,
        json!(true),
        json!(0),
        json!(1),
        json!(-1),
        json!(2.5),
        json!(45),
        json!(1e13),
        json!(1e-4),
        json!(""),
        json!("left"),
        json!("frame"),
        json!("one_way"),
        json!("acetal-steel-dry"),
        json!([]),
        json!([1, 2]),
        json!([[20, 30], [20, 30]]),
        json!(["first", "first"]),
        json!({}),
        json!({"sun": 20, "ring": 60}),
        json!({"id": "x", "kind": "brake", "shaft": "in", "limit_nm": 1}),
    ])
}

proptest! {
    #[test]
    fn sound_layouts_fit_the_schema(layout in arbitrary::layout()) {
        let file: Value = serde_json::from_str(&encode_compact(&layout)).expect("it is JSON");
        let schema = schema();
        prop_assert!(fits(&file, &schema, &schema));
    }

    #[test]
    fn damaged_layouts_are_judged_alike(
        layout in arbitrary::layout(),
        place in any::<Index>(),
        what in anything(),
        how in 0_u8..4,
    ) {
        let mut file: Value = serde_json::from_str(&encode_compact(&layout)).expect("it is JSON");
        let mut all = Vec::new();
        places(&file, "", &mut all);
        let place = place.get(&all).clone();
        damage(&mut file, &place, &what, how);
        check(&file);
    }
}

#[test]
fn hand_written_cases_are_judged_alike() {
    for (field, value) in [
        ("limit_nm", json!(1)),
        ("sense", json!("same")),
        ("efficency", json!(1)),
        ("friction", json!(0.1)),
        ("material_pair", json!("acetal-steel-dry")),
        ("material", json!("cheese")),
        ("efficiency", json!(0)),
        ("module_mm", json!(0)),
        ("at", json!([0])),
    ] {
        let mut file = json!({"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
            {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 30.0], "efficiency": 0.9}]});
        check(&file);
        file["elements"][0][field] = value;
        check(&file);
    }
}
