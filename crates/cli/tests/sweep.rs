//! `layshaft sweep` as a script meets it: the numbers of `solve`, in rows.

mod common;

use common::layshaft;
use serde_json::Value;

const CART: &str = "static/demos/trail-cart-a.layshaft.json";

fn printed(words: &[&str]) -> String {
    let output = layshaft(words);
    let error = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{words:?}: {error}");
    String::from_utf8(output.stdout).expect("text")
}

fn swept(words: &[&str]) -> Value {
    let all = [&["sweep", CART, "--json"], words].concat();
    serde_json::from_str(&printed(&all)).expect("JSON")
}

/// Entry of a list by its id.
fn by_id<'v>(list: &'v Value, id: &str) -> &'v Value {
    let mut entries = list.as_array().expect("a list").iter();
    entries.find(|entry| entry["id"] == id).expect("it is there")
}

/// Every row has what `solve` prints with the value set.
fn check(path: &str, range: &str, shown: &str, of: &dyn Fn(&Value) -> Value) {
    let vary = format!("{path}={range}");
    let swept = swept(&["--vary", &vary, "--show", shown]);
    let rows = swept["rows"].as_array().expect("rows");
    assert!(rows.len() > 2);
    for row in rows {
        let set = format!("{path}={}", row["at"][0]);
        let solved: Value =
            serde_json::from_str(&printed(&["solve", CART, "--json", "--set", &set])).expect("JSON");
        assert_eq!(row["values"][shown], of(&solved), "{set} {shown}");
    }
}

#[test]
fn rows_have_the_numbers_of_solve() {
    let mass = "elements.cart.mass_kg";
    let position = |solved: &Value, id: &str| by_id(&solved["positions"], id).clone();
    check(mass, "1..2/3", "positions.first.stall.pull_n", &|solved| {
        position(solved, "first")["stall"]["pull_n"].clone()
    });
    check(mass, "1..2/3", "positions.second.shafts.axle.rpm", &|solved| {
        by_id(&position(solved, "second")["shafts"], "axle")["rpm"].clone()
    });
    // What only the whole report has.
    check(
        mass,
        "1..2/3",
        "positions.first.elements.g1.ports.in.power_w",
        &|solved| by_id(&position(solved, "first")["elements"], "g1")["ports"][1]["power_w"].clone(),
    );
    check(
        "elements.g1.teeth.1",
        "20..26/4",
        "positions.first.shafts.axle.ratio",
        &|solved| by_id(&position(solved, "first")["shafts"], "axle")["ratio"].clone(),
    );
    check(mass, "1..2/3", "positions.0.state", &|solved| {
        position(solved, "first")["state"].clone()
    });
}

#[test]
fn a_path_without_a_position_stands_for_all() {
    let swept = swept(&[
        "--vary",
        "elements.wg.ratio=-0.5..-0.1/5",
        "--show",
        "stall.pull_n",
        "elements.g1.ports.in.power_w",
        "--show",
        "state",
    ]);
    let expected = [
        "positions.first.stall.pull_n",
        "positions.second.stall.pull_n",
        "positions.first.elements.g1.ports.in.power_w",
        "positions.second.elements.g1.ports.in.power_w",
        "positions.first.state",
        "positions.second.state",
    ];
    assert_eq!(swept["show"], serde_json::json!(expected));
    assert_eq!(
        swept["vary"][0]["values"],
        serde_json::json!([-0.5, -0.4, -0.3, -0.2, -0.1])
    );
    let values = &swept["rows"][2]["values"];
    assert!(values["positions.first.elements.g1.ports.in.power_w"].is_number());
    // Second stalls; what does not apply is left out.
    assert!(
        values
            .get("positions.second.elements.g1.ports.in.power_w")
            .is_none()
    );
}

#[test]
fn two_ranges_make_every_pair() {
    let words = [
        "--vary",
        "elements.cart.mass_kg=2..1/2",
        "--vary",
        "elements.g1.teeth.0=10..12/9",
    ];
    let swept = swept(&[&words[..], &["--show", "positions.first.stall.slope_deg"]].concat());
    let at: Vec<&Value> = swept["rows"]
        .as_array()
        .expect("rows")
        .iter()
        .map(|row| &row["at"])
        .collect();
    let expected = [
        [2.0, 10.0],
        [2.0, 11.0],
        [2.0, 12.0],
        [1.0, 10.0],
        [1.0, 11.0],
        [1.0, 12.0],
    ];
    assert_eq!(
        at,
        expected
            .map(|pair| serde_json::json!(pair))
            .iter()
            .collect::<Vec<_>>()
    );
}

#[test]
fn csv_has_a_heading_and_leaves_out_what_does_not_apply() {
    let words = [
        "--vary",
        "elements.g1.efficiency=0.8..1.2/3",
        "--show",
        "positions.first.stall.pull_n",
    ];
    let text = printed(&[&["sweep", CART, "--csv"], &words[..]].concat());
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines[0], "elements.g1.efficiency,positions.first.stall.pull_n");
    assert_eq!(lines.len(), 4);
    assert!(lines[2].starts_with("1,") && lines[2].len() > 4);
    assert_eq!(lines[3], "1.2,");
    let table = printed(&[&["sweep", CART], &words[..]].concat());
    assert!(
        table.lines().nth(3).is_some_and(|line| line.ends_with('–')),
        "{table}"
    );
}

#[test]
fn wrong_usage_says_what_would_be_right() {
    let check = |words: &[&str], status: i32, expected: &str| {
        let output = layshaft(&[&["sweep", CART], words].concat());
        let error = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(status), "{error}");
        assert!(error.contains(expected), "{error}");
    };
    let vary = ["--vary", "elements.cart.mass_kg=1..2/3"];
    let shown = ["--show", "stall.pull_n"];
    check(
        &[&["--vary", "elements.cart.mass_kg"], &shown[..]].concat(),
        2,
        "FROM..TO/POINTS",
    );
    check(
        &[&["--vary", "elements.cart.mass_kg=1..2"], &shown[..]].concat(),
        2,
        "slash",
    );
    check(
        &[&["--vary", "elements.cart.mass_kg=1..1/3"], &shown[..]].concat(),
        2,
        "differ",
    );
    check(
        &[&["--vary", "elements.carp.mass_kg=1..2/3"], &shown[..]].concat(),
        1,
        "carp",
    );
    check(
        &[&vary[..], &["--show", "positions.third.state"]].concat(),
        2,
        "first, second",
    );
    check(&[&vary[..], &["--show", "shafts.axel.rpm"]].concat(), 2, "axle");
    check(&[&vary[..], &["--show", "pull"]].concat(), 2, "stall");
    check(
        &[&vary[..], &["--show", "elements.g1.nope"]].concat(),
        2,
        "`g1` can have",
    );
    check(
        &[&vary[..], &["--show", "positions.first"]].concat(),
        2,
        "such as positions.first.state",
    );
    check(
        &[&vary[..], &["--show", "positions"]].concat(),
        2,
        "such as positions.first.state",
    );
    let twice = |other: &str, one: &str| {
        check(
            &[&["--vary", one, "--vary", other], &shown[..]].concat(),
            2,
            "two different ones",
        );
    };
    twice("elements.cart.mass_kg=1..2/3", "elements.cart.mass_kg=2..3/3");
    twice("elements.g1.teeth[0]=10..20/3", "elements.g1.teeth.0=10..20/3");
    twice("elements.g1.ratio=0.2..0.4/3", "elements.g1.teeth.0=10..20/3");
    check(&vary, 2, "--show");
}
