//! What the command line prints, against results that were computed independently: every expected field is there, numbers
//! to a millionth of the largest port power, all else to the letter.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

/// Lists whose entries are found by name and not by place.
const NAMES: [&str; 3] = ["id", "shaft", "code"];

fn check(expected: &Value, found: &Value, tolerance: f64, at: &str) {
    match (expected, found) {
        (Value::Object(fields), _) => {
            for (name, value) in fields.iter().filter(|(name, _)| *name != "note") {
                let found = found
                    .get(name)
                    .unwrap_or_else(|| panic!("{at}.{name} is left out"));
                // Multiples are given to four places.
                let tolerance = if name == "times_output" { 5e-5 } else { tolerance };
                check(value, found, tolerance, &format!("{at}.{name}"));
            }
        }
        (Value::Array(entries), Value::Array(others)) => {
            for (place, entry) in entries.iter().enumerate() {
                let name = NAMES.into_iter().find(|name| entry.get(name).is_some());
                let other = match name {
                    Some(name) => others.iter().find(|other| other[name] == entry[name]),
                    None => others.get(place),
                };
                let other = other.unwrap_or_else(|| panic!("{at}[{place}] is left out"));
                check(entry, other, tolerance, &format!("{at}[{place}]"));
            }
        }
        (Value::Number(number), Value::Number(other)) => {
            let [number, other] = [number, other].map(|number| number.as_f64().expect("finite"));
            let bound = tolerance.max(1e-6 * number.abs());
            assert!(
                (number - other).abs() <= bound,
                "{at}: {other} should be {number}"
            );
        }
        _ => assert_eq!(expected, found, "{at}"),
    }
}

fn largest_power(value: &Value) -> f64 {
    match value {
        Value::Object(fields) => fields.iter().fold(0.0, |largest, (name, value)| {
            let own = if name == "power_w" {
                value.as_f64().unwrap_or(0.0).abs()
            } else {
                largest_power(value)
            };
            f64::max(largest, own)
        }),
        Value::Array(entries) => entries.iter().map(largest_power).fold(0.0, f64::max),
        _ => 0.0,
    }
}

#[test]
fn every_sample_is_printed_as_expected() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/samples");
    let mut seen = 0;
    for entry in std::fs::read_dir(folder).expect("the samples are there") {
        let file = entry.expect("readable").path();
        let text = file.to_str().expect("a plain path");
        let Some(stem) = text.strip_suffix(".layshaft.json") else {
            continue;
        };
        let expected = std::fs::read_to_string(format!("{stem}.expected.json")).expect("its results");
        let expected: Value = serde_json::from_str(&expected).expect("JSON");
        let output = Command::new(env!("CARGO_BIN_EXE_layshaft"))
            .args(["solve", text, "--json"])
            .output();
        let output = output.expect("it starts");
        assert!(
            output.status.success(),
            "{}",
            String::from_utf8_lossy(&output.stderr)
        );
        let found: Value = serde_json::from_slice(&output.stdout).expect("JSON");
        check(&expected, &found, 1e-6 * largest_power(&found), stem);
        seen += 1;
    }
    assert!(seen >= 9, "only {seen} samples");
}
