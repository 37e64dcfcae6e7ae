//! Every finding, provoked by a layout that has its fault, and absent from the same layout without it.

use layshaft_layout::{Layout, decode};
use layshaft_report::{Report, report};

fn layout(shafts: &str, elements: &str, rest: &str) -> Layout {
    let shafts: Vec<String> = shafts
        .split(' ')
        .map(|shaft| match shaft.split_once('@') {
            Some((id, x)) => format!(r#"{{"id": "{id}", "axis_mm": [{x}, 0]}}"#),
            None => format!(r#"{{"id": "{shaft}"}}"#),
        })
        .collect();
    let text = format!(
        r#"{{"layshaft": 1, "shafts": [{}], "elements": [{elements}]{rest}}}"#,
        shafts.join(", ")
    );
    decode(&text).unwrap_or_else(|errors| panic!("{text}: {errors:?}"))
}

fn solved(layout: &Layout) -> Report {
    report(layout).expect("one source")
}

fn codes(report: &Report) -> Vec<&'static str> {
    report
        .findings
        .iter()
        .map(|finding| finding.kind.code())
        .collect()
}

fn check(shafts: &str, elements: &str, code: &str, expected: bool) {
    let report = solved(&layout(shafts, elements, ""));
    let codes = codes(&report);
    assert_eq!(codes.contains(&code), expected, "{code} in {elements}: {codes:?}");
}

const CRANK: &str = r#"{"id": "c", "kind": "crank", "shaft": "a", "speed_rpm": 60}"#;
const MOTOR: &str = r#"{"id": "m", "kind": "motor", "shaft": "a", "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 0.09,
    "stall_nm": 0.36, "stall_a": 1.3"#;

fn mesh(teeth: [u32; 2], rest: &str) -> String {
    format!(r#"{{"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": {teeth:?}{rest}}}"#)
}

fn load(torque_nm: f64) -> String {
    format!(r#"{{"id": "l", "kind": "load", "shaft": "b", "torque_nm": {torque_nm}}}"#)
}

fn winch(pull_n: f64) -> String {
    format!(
        r#"{{"id": "w", "kind": "winch", "shaft": "b", "drum_mm": 20, "rope_mm": 0, "pull_n": {pull_n}, "lifts": "negative"}}"#
    )
}

#[test]
fn what_is_wrong_with_meshes() {
    let typed = |rest: &str| format!("{CRANK}, {}, {}", mesh([20, 40], rest), load(0.4));
    check("a b", &typed(""), "no-loss-given", true);
    check("a b", &typed(r#", "efficiency": 1"#), "no-loss-given", false);
    // 0.4 N·m at 40 teeth is 0.2 N·m at 20.
    check(
        "a b",
        &typed(r#", "efficiency": 1, "skip_nm": 0.19"#),
        "teeth-overloaded",
        true,
    );
    check(
        "a b",
        &typed(r#", "efficiency": 1, "skip_nm": 0.21"#),
        "teeth-overloaded",
        false,
    );
    let pinion = |teeth: u32| format!("{CRANK}, {}", mesh([teeth, 40], r#", "friction": 0.1"#));
    check("a b", &pinion(8), "undercut", true);
    check("a b", &pinion(20), "undercut", false);
    let module = |module: f64| {
        format!(
            "{CRANK}, {}",
            mesh([20, 40], &format!(r#", "efficiency": 1, "module_mm": {module}"#))
        )
    };
    check("a@0 b@30", &module(1.0), "centre-distance", false);
    check("a@0 b@30.5", &module(1.0), "centre-distance", true);
    check("a@0 b", &module(1.0), "centre-distance", false);
}

#[test]
fn materials_known_from_memory_only() {
    let pair = |name: &str| {
        format!(
            "{CRANK}, {}",
            mesh([20, 40], &format!(r#", "material_pair": "{name}""#))
        )
    };
    check("a b", &pair("acetal-acetal-dry"), "friction-range", true);
    check("a b", &pair("pla-pla-dry"), "friction-range", true);
    check("a b", &pair("brass-steel-greased"), "friction-range", false);
}

#[test]
fn planets_that_cannot_be_put_in() {
    let set = |teeth: [u32; 2], count: u32| {
        format!(
            r#"{CRANK}, {{"id": "p", "kind": "planetary", "sun": "a", "ring": "frame", "carrier": "b",
                "teeth": {{"sun": {}, "ring": {}}}, "count": {count}, "efficiency": 0.95}}"#,
            teeth[0], teeth[1]
        )
    };
    // 96 teeth in all: 3 and 4 planets, not 5; planets of 36 teeth 60 sin(π/n) apart: 3 have room, 5 have not.
    check("a b", &set([24, 72], 3), "planet-assembly", false);
    check("a b", &set([24, 72], 5), "planet-assembly", true);
    check("a b", &set([12, 84], 3), "planets-collide", false);
    check("a b", &set([12, 84], 6), "planets-collide", true);
}

#[test]
fn what_is_wrong_with_motors() {
    let motor = |rest: &str, pull_n: f64| {
        let mesh = mesh([20, 60], r#", "efficiency": 0.9"#);
        format!("{MOTOR}{rest}}}, {mesh}, {}", winch(pull_n))
    };
    check("a b", &motor("", 40.0), "past-best-efficiency", true);
    check("a b", &motor("", 10.0), "past-best-efficiency", false);
    check("a b", &motor(r#", "heat_limit_w": 1"#, 30.0), "overheats", true);
    check("a b", &motor(r#", "heat_limit_w": 9"#, 30.0), "overheats", false);
    // Kt I0 = 26.8 mN·m at the motor hold 10 N · 10 mm / 3 · 0.9 = 30 mN·m not, 8 N they do.
    check("a b", &motor("", 10.0), "back-drives", true);
    check("a b", &motor("", 8.0), "back-drives", false);
    check("a b", &motor("", 300.0), "stalled", true);
    check("a b", &motor(r#", "supply_v": -12"#, 30.0), "overhauling", true);
    check("a b", &motor("", 30.0), "overhauling", false);
}

#[test]
fn what_slips_and_what_stands() {
    let belt = |slip_nm: f64| {
        format!(
            r#"{CRANK}, {{"id": "v", "kind": "belt", "a": "a", "b": "b", "diameters_mm": [20, 40], "efficiency": 1,
                "slip_nm": {slip_nm}}}, {}"#,
            load(1.0)
        )
    };
    check("a b", &belt(0.4), "slips", true);
    check("a b", &belt(0.6), "slips", false);
    let clutch = |limit_nm: f64| {
        format!(
            r#"{CRANK}, {{"id": "k", "kind": "slip_clutch", "a": "a", "b": "b", "limit_nm": {limit_nm}}},
                {{"id": "w", "kind": "winch", "shaft": "b", "drum_mm": 20, "rope_mm": 0, "pull_n": 30}}"#
        )
    };
    check("a b", &clutch(0.2), "lets-go", true);
    check("a b", &clutch(0.4), "lets-go", false);
    // The side with the smaller load turns, the other stands.
    let sides = |other: f64| {
        format!(
            r#"{CRANK}, {{"id": "d", "kind": "differential", "sides": ["b", "e"], "carrier": "a", "efficiency": 0.95}}, {},
                {{"id": "o", "kind": "load", "shaft": "e", "torque_nm": {other}}}"#,
            load(0.1)
        )
    };
    check("a b e", &sides(0.5), "stands-by-friction", true);
}

#[test]
fn parallel_paths_say_how_far_they_may_share_otherwise() {
    let second = mesh([10, 20], r#", "efficiency": 0.9"#).replace(r#""id": "g""#, r#""id": "h""#);
    let layout = layout(
        "a b",
        &format!(
            "{CRANK}, {}, {second}, {}",
            mesh([20, 40], r#", "efficiency": 0.9"#),
            load(1.0)
        ),
        "",
    );
    let report = solved(&layout);
    assert!(codes(&report).contains(&"redundant-loop"));
    let shares = &report.positions[0].shares[0];
    let all = 0.5 / 0.9;
    let sum: f64 = shares.iter().map(|share| share.torque.to_newton_metres()).sum();
    assert!((sum - all).abs() < 1e-9);
    for share in shares {
        let [low, high] = share.range.map(|torque| torque.to_newton_metres());
        assert!(low.abs() < 1e-9 && (high - all).abs() < 1e-9, "{share:?}");
        assert_eq!(share.shaft.as_str(), "a");
    }
}

#[test]
fn a_jam_comes_before_everything_else() {
    let closing = r#"{"id": "k", "kind": "chain", "a": "a", "b": "b", "teeth": [9, 16]}"#;
    let elements = format!("{CRANK}, {}, {closing}", mesh([20, 40], r#", "module_mm": 1"#));
    let report = solved(&layout("a@0 b@99", &elements, ""));
    assert_eq!(codes(&report)[0], "jammed");
    assert!(report.positions[0].holding.is_none());
}
