//! `layshaft find` as a script meets it: what is read, what is refused, what is printed.

use std::process::{Command, Output};

use serde_json::{Value, json};

fn find(words: &str) -> Output {
    Command::new(env!("CARGO_BIN_EXE_layshaft"))
        .arg("find")
        .args(words.split_whitespace())
        .output()
        .expect("it starts")
}

fn found(words: &str) -> Value {
    let output = find(&format!("{words} --json"));
    assert_eq!(
        output.status.code(),
        Some(0),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).expect("JSON")
}

fn check(words: &str, stages: &Value) {
    let printed = found(words);
    let results = printed["results"].as_array().expect("a list");
    let all: Vec<&Value> = results.iter().map(|result| &result["stages"]).collect();
    assert_eq!(json!(all), *stages, "{words}");
}

#[test]
fn trains_of_a_ratio() {
    let printed = found("--ratio 1/12 --bin 13,14,42,52");
    assert_eq!(
        printed,
        json!({"results": [{"stages": [[13, 42], [14, 52]], "ratio": "1/12", "error": 0.0}], "complete": true, "count": 1})
    );
    check(
        "--ratio 1/3 --bin 10,12,30,36 --stages 1",
        &json!([[[10, 30]], [[12, 36]]]),
    );
    check("--ratio -3 --bin 10,30 --stages 1", &json!([[[30, 10]]]));
    check("--ratio 0.3333 --bin 10,30 --stages 1", &json!([[[10, 30]]]));
    check("--ratio 0.3333 --tolerance 0 --bin 10,30 --stages 1", &json!([]));
    check("--ratio 1/9 --bin 10x2,30x1", &json!([]));
    check("--ratio 1/9 --bin 10x2,30x2", &json!([[[10, 30], [10, 30]]]));
}

#[test]
fn the_sense_goes_by_the_number_of_stages() {
    check("--ratio 1/3 --bin 10,30 --sense opposite", &json!([[[10, 30]]]));
    check("--ratio 1/3 --bin 10,30 --sense same", &json!([]));
    let printed = found("--ratio 1/3 --bin 10,20,30 --stages 1 --sense same --idlers");
    assert_eq!(printed["results"][0]["idler"], json!({"stage": 0, "teeth": 10}));
}

#[test]
fn a_limit_says_that_there_is_more() {
    let printed = found("--ratio 1/3 --bin 10,12,30,36 --stages 1 --limit 1");
    assert_eq!(
        (&printed["complete"], &printed["count"]),
        (&json!(false), &json!(2))
    );
}

#[test]
fn nothing_found_is_a_result_with_what_is_nearest() {
    let printed = found("--ratio 0.334 --bin 10,30 --stages 1");
    assert_eq!(
        (&printed["results"], &printed["complete"]),
        (&json!([]), &json!(true))
    );
    assert_eq!(printed["nearest"]["ratio"], "1/3");
    let output = find("--ratio 0.334 --bin 10,30 --stages 1");
    assert!(String::from_utf8_lossy(&output.stdout).contains("nearest"));
}

#[test]
fn wrong_usage_ends_with_two_and_a_sentence() {
    for (words, part) in [
        ("--ratio 1:12 --bin 10,30", "both ways by builders"),
        ("--ratio 0 --bin 10,30", "would not turn"),
        ("--ratio x --bin 10,30", "no number"),
        ("--ratio 1/2 --bin 10,0", "between 1 and"),
        ("--ratio 1/2 --bin ten", "no gear"),
        ("--ratio 1/2 --bin 10 --stages 5", "from 1 to 4"),
        ("--ratio 1/2 --bin 10 --tolerance -1%", "below 0"),
        ("--bin 10", "--ratio"),
    ] {
        let output = find(words);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{words}");
        assert!(said.contains(part), "{words}: {said}");
    }
}
