//! Layouts with results that were computed independently: they settle every sign and name of the file format.

use std::fs;
use std::path::{Path, PathBuf};

use layshaft_layout::decode;
use layshaft_report::report;
use layshaft_tests::plain::plain;
use serde_json::Value;

/// Share of the largest value of its kind by which a result may differ.
const TOLERANCE: f64 = 1e-6;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("samples")
}

/// Checks every field of `<name>.expected.json` against the report on `<name>.layshaft.json`.
fn check(name: &str) {
    let read =
        |ending: &str| fs::read_to_string(folder().join(format!("{name}.{ending}"))).expect("a sample");
    let layout = decode(&read("layshaft.json")).expect("a sound layout");
    let actual = plain(&report(&layout).expect("a layout that can be computed"));
    let mut expected: Value = serde_json::from_str(&read("expected.json")).expect("JSON");
    expected.as_object_mut().expect("an object").remove("note");
    let scale = largest_power(&actual);
    compare("", &expected, &actual, scale);
}

fn largest_power(value: &Value) -> f64 {
    match value {
        Value::Array(list) => list.iter().map(largest_power).fold(0.0, f64::max),
        Value::Object(map) => map
            .iter()
            .map(|(name, value)| {
                if name == "power_w" {
                    value.as_f64().unwrap_or(0.0).abs()
                } else {
                    largest_power(value)
                }
            })
            .fold(0.0, f64::max),
        _ => 0.0,
    }
}

/// Everything expected has to be there; what is more is not looked at.
fn compare(path: &str, expected: &Value, actual: &Value, largest_power: f64) {
    match (expected, actual) {
        (Value::Object(expected), Value::Object(actual)) => {
            for (name, value) in expected {
                let path = format!("{path}.{name}");
                let Some(actual) = actual.get(name) else {
                    panic!("{path} is missing")
                };
                compare(&path, value, actual, largest_power);
            }
        }
        (Value::Array(expected), Value::Array(actual)) => {
            compare_lists(path, expected, actual, largest_power)
        }
        (Value::Number(expected), Value::Number(actual)) => {
            let [expected, actual] = [expected, actual].map(|number| number.as_f64().expect("a float"));
            let scale = if path.ends_with("_w") {
                largest_power
            } else {
                expected.abs()
            };
            assert!(
                (expected - actual).abs() <= TOLERANCE * scale,
                "{path}: {actual} should be {expected}"
            );
        }
        _ => assert_eq!(expected, actual, "{path}"),
    }
}

/// Things with an id or code are found by it; ports and names stand in order.
fn compare_lists(path: &str, expected: &[Value], actual: &[Value], largest_power: f64) {
    let named = |value: &Value| value.get("id").or_else(|| value.get("code")).cloned();
    for (at, value) in expected.iter().enumerate() {
        let path = format!("{path}[{at}]");
        let found = match named(value) {
            None => actual.get(at),
            some => actual.iter().find(|other| named(other) == some),
        };
        let Some(found) = found else {
            panic!("{path}: {value} is missing")
        };
        compare(&path, value, found, largest_power);
    }
    if expected.iter().all(Value::is_string) {
        assert_eq!(expected.len(), actual.len(), "{path}");
    }
}

#[test]
fn every_sample_comes_out() {
    let names: Vec<String> = fs::read_dir(folder())
        .expect("the samples")
        .filter_map(|entry| {
            let name = entry
                .expect("a readable folder")
                .file_name()
                .into_string()
                .expect("a plain name");
            name.strip_suffix(".layshaft.json").map(ToOwned::to_owned)
        })
        .collect();
    assert_eq!(names.len(), 9);
    for name in &names {
        check(name);
    }
}
