//! The command line as a script meets it: exit status, paths in errors, JSON names, links there and back.

mod common;

use std::process::Output;

use common::layshaft;
use serde_json::Value;

fn out(output: &Output) -> &str {
    std::str::from_utf8(&output.stdout).expect("text")
}

fn err(output: &Output) -> &str {
    std::str::from_utf8(&output.stderr).expect("text")
}

const HOIST: &str = "tests/samples/hoist-two-stages.layshaft.json";

fn solve_json(words: &[&str]) -> Value {
    let mut all = vec!["solve", HOIST, "--json"];
    all.extend(words);
    let output = layshaft(&all);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    serde_json::from_str(out(&output)).expect("JSON")
}

/// Bad layouts go through a file of their own.
fn check_text(name: &str, text: &str) -> Output {
    let file = std::env::temp_dir().join(format!("layshaft-{}-{name}.layshaft.json", std::process::id()));
    std::fs::write(&file, text).expect("a temporary file");
    let output = layshaft(&["check", file.to_str().expect("a plain path")]);
    std::fs::remove_file(&file).expect("it was there");
    output
}

#[test]
fn a_field_set_on_the_command_line_changes_the_ratio() {
    let solved = solve_json(&["--set", "elements.g1.teeth.1=28"]);
    assert_eq!(solved["positions"][0]["shafts"][2]["ratio"], "1/8");
}

#[test]
fn errors_come_all_at_once_with_their_paths() {
    let text = r#"{"layshaft": 1, "shafts": [{"id": "a", "at": [0, 0]}], "elements": [
        {"id": "g", "kind": "mesh", "a": "a", "b": "bb", "teeth": [0, 20]},
        {"id": "x", "kind": "mehs"}]}"#;
    let output = check_text("errors", text);
    assert_eq!(output.status.code(), Some(1));
    let lines = err(&output);
    assert!(
        lines.contains("elements[0].teeth[0]: a gear needs at least 1 tooth, got 0"),
        "{lines}"
    );
    assert!(lines.contains("elements[0].b"), "{lines}");
    assert!(
        lines.contains("elements[1].kind") && lines.contains("mesh"),
        "{lines}"
    );
}

#[test]
fn two_sources_on_one_train_are_an_error_with_a_path() {
    let text = r#"{"layshaft": 1, "shafts": [{"id": "a"}], "elements": [
        {"id": "c1", "kind": "crank", "shaft": "a", "speed_rpm": 10},
        {"id": "c2", "kind": "crank", "shaft": "a", "speed_rpm": 20}]}"#;
    let output = check_text("sources", text);
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).contains("elements[1].shaft"), "{}", err(&output));
}

#[test]
fn wrong_usage_ends_with_two() {
    for words in [
        &["solve", "nowhere.json"][..],
        &["solve", HOIST, "--position", "third"],
        &["sovle"],
    ] {
        assert_eq!(layshaft(words).status.code(), Some(2), "{words:?}");
    }
}

#[test]
fn a_link_gives_the_layout_back() {
    let link = layshaft(&["link", HOIST]);
    assert_eq!(link.status.code(), Some(0), "{}", err(&link));
    let back = layshaft(&["unlink", out(&link).trim()]);
    assert_eq!(back.status.code(), Some(0), "{}", err(&back));
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let original = std::fs::read_to_string(root.join(HOIST)).expect("the sample is there");
    let read = |text: &str| layshaft_layout::decode(text).expect("sound");
    assert_eq!(read(out(&back)), read(&original));
}

#[test]
fn a_damaged_link_is_an_error_in_a_sentence() {
    let output = layshaft(&["unlink", "#l=AAAA"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(err(&output).len() > 20, "{}", err(&output));
}

#[test]
fn the_schema_is_a_json_schema() {
    let output = layshaft(&["schema"]);
    let schema: Value = serde_json::from_str(out(&output)).expect("JSON");
    assert!(schema["$schema"].is_string() && schema["properties"]["shafts"].is_object());
}

#[test]
fn the_text_names_every_shaft_with_its_ratio() {
    let output = layshaft(&["solve", HOIST]);
    let text = out(&output);
    assert!(
        text.contains("drum") && text.contains("1/12") && text.contains("81.0"),
        "{text}"
    );
}
