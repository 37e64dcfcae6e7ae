//! Parts of `solve` that only some layouts have, as JSON and as text: friction as a range, pull to start, holding, parallel
//! paths, torque switches, findings with their codes.

use std::io::Write;
use std::process::{Command, Stdio};

use serde_json::Value;

fn solve(text: &str, json: bool) -> String {
    let mut words = vec!["solve", "-"];
    if json {
        words.push("--json");
    }
    let mut child = Command::new(env!("CARGO_BIN_EXE_layshaft"))
        .args(words)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("it starts");
    let mut input = child.stdin.take().expect("a pipe");
    input.write_all(text.as_bytes()).expect("it reads");
    drop(input);
    let output = child.wait_with_output().expect("it ends");
    assert!(output.status.success(), "{text}");
    String::from_utf8(output.stdout).expect("text")
}

fn json(text: &str) -> Value {
    serde_json::from_str(&solve(text, true)).expect("JSON")
}

fn near(value: &Value, expected: f64) {
    let found = value.as_f64().expect("a number");
    assert!((found / expected - 1.0).abs() < 1e-6, "{found}, not {expected}");
}

fn codes(solved: &Value) -> Vec<&str> {
    let findings = solved["findings"].as_array().expect("a list");
    findings
        .iter()
        .filter_map(|finding| finding["code"].as_str())
        .collect()
}

const PAIR: &str = r#"{"layshaft": 1, "material_pair": "acetal-acetal-dry",
  "shafts": [{"id": "a"}, {"id": "b", "journal_friction": 0.1, "journal_radius_mm": 1}], "elements": [
  {"id": "m", "kind": "motor", "shaft": "a", "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 0.09, "stall_nm": 0.36,
   "stall_a": 1.3, "battery_mah": 900},
  {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 60], "module_mm": 1, "width_mm": 6, "material": "acetal"},
  {"id": "w", "kind": "winch", "shaft": "b", "drum_mm": 30, "rope_mm": 1, "mass_kg": 3}]}"#;

#[test]
fn friction_of_materials_is_printed_with_its_range() {
    let solved = json(PAIR);
    let position = &solved["positions"][0];
    let efficiency = position["efficiency"].as_f64().expect("it runs");
    let range = &position["range"];
    let ends = ["efficiency", "pull_n", "torque_nm"].map(|name| {
        [0, 1].map(|end| {
            range[name][end]
                .as_f64()
                .unwrap_or_else(|| panic!("{name}: {range}"))
        })
    });
    assert!(ends.iter().all(|[low, high]| low < high));
    assert!(ends[0][0] < efficiency && efficiency < ends[0][1]);
    let [moving, starting] =
        ["stall", "start"].map(|name| position[name]["pull_n"].as_f64().expect("it pulls"));
    assert!(starting < moving && ends[1][0] < moving && moving < ends[1][1]);
    assert_eq!(position["holding"]["holds"], false);
    let mesh = &position["elements"][1];
    assert_eq!(mesh["loss_model"], "tooth-friction-polynomial");
    let materials = &mesh["loss_from"]["materials"];
    assert_eq!(materials["pair"], "acetal-acetal-dry");
    assert_eq!(materials["by_default"], true);
    assert_eq!(materials["standing"], "from memory");
    assert!(
        mesh["tooth_limit_nm"]
            .as_f64()
            .expect("material and width are known")
            > 0.0
    );
    assert_eq!(position["shafts"][1]["bearing_forces"], "sum");
    let motor = &position["elements"][0];
    near(
        &motor["battery_h"],
        0.9 / motor["current_a"].as_f64().expect("a motor"),
    );
    assert!(motor["best"]["efficiency"].is_f64());
    let codes = codes(&solved);
    assert!(
        codes.contains(&"friction-range") && codes.contains(&"back-drives"),
        "{codes:?}"
    );
}

#[test]
fn the_text_says_what_it_starts_and_holds() {
    let text = solve(PAIR, false);
    for words in [
        "Keeps moving up to",
        "Starts up to",
        "With the motor off",
        "By the friction of its materials",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
}

#[test]
fn parallel_paths_are_printed_with_their_ranges() {
    let solved = json(
        r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
          {"id": "c", "kind": "crank", "shaft": "a", "speed_rpm": 60},
          {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 40], "efficiency": 1},
          {"id": "h", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 40], "efficiency": 1},
          {"id": "l", "kind": "load", "shaft": "b", "torque_nm": 1}]}"#,
    );
    let shares = solved["positions"][0]["shares"][0]["elements"]
        .as_array()
        .expect("a list");
    assert_eq!(shares.len(), 2);
    for share in shares {
        near(&share["torque_nm"], 0.25);
        near(&share["range_nm"][1], 0.5);
        assert!(share["range_nm"][0].as_f64().expect("a number").abs() < 1e-9);
    }
    assert!(codes(&solved).contains(&"redundant-loop"));
}

const SWITCHED: &str = r#"{"layshaft": 1,
  "shafts": [{"id": "in"}, {"id": "mid"}, {"id": "m1"}, {"id": "m2"}, {"id": "drum"}], "elements": [
    {"id": "c", "kind": "crank", "shaft": "in", "speed_rpm": 60},
    {"id": "s", "kind": "torque_switch", "a": "in", "b": "mid", "up_nm": 0.05, "down_nm": 0.03, "from": "one", "to": "two"},
    {"id": "equal", "kind": "clutch", "a": "mid", "b": "m1"},
    {"id": "slow", "kind": "clutch", "a": "mid", "b": "m2"},
    {"id": "g1", "kind": "mesh", "a": "m1", "b": "drum", "teeth": [20, 20], "efficiency": 1},
    {"id": "g2", "kind": "mesh", "a": "m2", "b": "drum", "teeth": [16, 40], "efficiency": 1},
    {"id": "w", "kind": "winch", "shaft": "drum", "drum_mm": 20, "rope_mm": 0, "pull_n": 2}],
  "positions": [{"id": "one", "name": "One", "engaged": ["equal"]}, {"id": "two", "name": "Two", "engaged": ["slow"]}]}"#;

#[test]
fn a_torque_switch_is_printed_with_its_loads() {
    let solved = json(SWITCHED);
    let shifts = &solved["shifting"][0];
    assert_eq!(shifts["switch"], "s");
    assert_eq!(
        (&shifts["from"], &shifts["to"]),
        (&Value::from("one"), &Value::from("two"))
    );
    assert_eq!(shifts["unit"], "pull_n");
    near(&shifts["up_at"], 5.0);
    near(&shifts["back_at"], 7.5);
    near(&shifts["hunting"][0], 5.0);
    near(&shifts["hunting"][1], 7.5);
    assert!(shifts.get("stalls").is_none());
    assert!(codes(&solved).contains(&"hunting"));
    let text = solve(SWITCHED, false);
    assert!(
        text.contains("s shifts from One to Two at 5.00") && text.contains("hunts from"),
        "{text}"
    );
}
