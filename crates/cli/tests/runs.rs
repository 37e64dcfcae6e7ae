//! `layshaft run` as a script meets it: names in the JSON, columns of the CSV, what is refused and how.

mod common;

use std::process::Output;

use common::layshaft;
use serde_json::Value;

const HOIST: &str = "tests/samples/hoist-two-stages.layshaft.json";
const CART: &str = "static/demos/trail-cart-b.layshaft.json";

fn run(words: &[&str]) -> Output {
    let mut all = vec!["run"];
    all.extend(words);
    layshaft(&all)
}

fn json(words: &[&str]) -> Value {
    let output = run(words);
    let error = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{error}");
    serde_json::from_slice(&output.stdout).expect("JSON")
}

fn refused(words: &[&str], sentence: &str) {
    let output = run(words);
    let error = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{error}");
    assert!(error.contains(sentence), "{error}");
}

#[test]
fn a_course_gives_samples_events_and_energy() {
    let done = json(&[CART, "--course", "2.0@0,1.0@6", "--position", "first", "--json"]);
    let samples = done["samples"].as_array().expect("samples");
    for name in ["t_s", "x_m", "v_m_s", "position", "motor_rpm", "current_a"] {
        assert!(samples.iter().all(|sample| !sample[name].is_null()), "{name}");
    }
    let last = samples.last().expect("some");
    assert!((last["x_m"].as_f64().expect("a number") - 3.0).abs() < 1e-9);
    let end = done["events"]
        .as_array()
        .and_then(|events| events.last())
        .expect("an end");
    assert_eq!((&end["kind"], &end["t_s"]), (&"end".into(), &last["t_s"]));
    let energy = |name: &str| done["energy"][name].as_f64().expect("a number");
    let missing = energy("in_j") - energy("lost_j") - energy("stored_j");
    assert!(missing.abs() < 1e-6 * energy("in_j") && energy("balance").abs() < 1e-6);
}

#[test]
fn a_lift_ends_at_its_height() {
    let done = json(&[HOIST, "--lift", "0.2", "--json"]);
    let last = done["samples"]
        .as_array()
        .and_then(|samples| samples.last())
        .expect("some");
    assert!((last["x_m"].as_f64().expect("a number") - 0.2).abs() < 1e-9);
    assert!((last["motor_rpm"].as_f64().expect("a number") - 198.598).abs() < 1e-3);
}

#[test]
fn csv_has_its_columns() {
    let output = run(&[HOIST, "--lift", "0.05", "--csv"]);
    let text = String::from_utf8(output.stdout).expect("text");
    let mut lines = text.lines();
    assert_eq!(lines.next(), Some("t_s,x_m,v_m_s,position,motor_rpm,current_a"));
    assert!(lines.clone().count() > 100 && lines.all(|line| line.split(',').count() == 6));
}

#[test]
fn what_is_not_there_is_said() {
    refused(&[HOIST, "--course", "1@0"], "a course needs a vehicle");
    refused(&[CART, "--lift", "1"], "a lift needs a winch");
    refused(
        &[CART, "--course", "1@0", "--position", "third"],
        "there is no position third",
    );
    refused(&[CART, "--course", "1"], "write metres@degrees");
}
