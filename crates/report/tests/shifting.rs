//! Torque switches over all loads: where they shift up and back, hunt and stall.

use layshaft_layout::decode;
use layshaft_report::{LoadUnit, Report, Shifting, report};

/// A switch before two ways to a drum of 10 mm: the torque through it is 0.010 F by equal gears and 0.004 F by 16:40.
fn switched(positions: [&str; 2], limits: &str, crank: &str, load: &str) -> Report {
    let [one, two] = positions;
    let text = format!(
        r#"{{"layshaft": 1, "shafts": [{{"id": "in"}}, {{"id": "mid"}}, {{"id": "m1"}}, {{"id": "m2"}}, {{"id": "drum"}}],
          "elements": [
            {{"id": "c", "kind": "crank", "shaft": "in", "speed_rpm": 60{crank}}},
            {{"id": "s", "kind": "torque_switch", "a": "in", "b": "mid", {limits}, "from": "one", "to": "two"}},
            {{"id": "equal", "kind": "clutch", "a": "mid", "b": "m1"}},
            {{"id": "slow", "kind": "clutch", "a": "mid", "b": "m2"}},
            {{"id": "g1", "kind": "mesh", "a": "m1", "b": "drum", "teeth": [20, 20], "efficiency": 1}},
            {{"id": "g2", "kind": "mesh", "a": "m2", "b": "drum", "teeth": [16, 40], "efficiency": 1}},
            {load}],
          "positions": [{{"id": "one", "name": "One", "engaged": ["{one}"]}},
            {{"id": "two", "name": "Two", "engaged": ["{two}"]}}]}}"#
    );
    report(&decode(&text).expect("sound")).expect("one source")
}

const WINCH: &str = r#"{"id": "w", "kind": "winch", "shaft": "drum", "drum_mm": 20, "rope_mm": 0, "pull_n": 2, "lifts": "drive"}"#;
const CART: &str = r#"{"id": "v", "kind": "vehicle", "shafts": ["drum"], "wheel_mm": 20, "mass_kg": 2, "rolling": 0.05,
    "slope_deg": 3}"#;

fn only(report: &Report) -> &Shifting {
    assert_eq!(report.shifting.len(), 1);
    &report.shifting[0]
}

fn has(report: &Report, code: &str) -> bool {
    report.findings.iter().any(|finding| finding.kind.code() == code)
}

fn check(found: Option<f64>, expected: f64) {
    let found = found.expect("it shifts");
    assert!((found / expected - 1.0).abs() < 1e-6, "{found}, not {expected}");
}

fn check_band(found: Option<[f64; 2]>, expected: [f64; 2]) {
    check(found.map(|band| band[0]), expected[0]);
    check(found.map(|band| band[1]), expected[1]);
}

#[test]
fn a_switch_that_shifts_back_late_hunts() {
    let report = switched(["equal", "slow"], r#""up_nm": 0.05, "down_nm": 0.03"#, "", WINCH);
    let shifts = only(&report);
    assert_eq!(shifts.unit, LoadUnit::Pull);
    check(shifts.up_at, 5.0);
    check(shifts.back_at, 7.5);
    check_band(shifts.hunting, [5.0, 7.5]);
    assert!(has(&report, "hunting") && !has(&report, "shifts-and-stalls"));
}

#[test]
fn a_wider_gap_does_not_hunt() {
    let report = switched(["equal", "slow"], r#""up_nm": 0.05, "down_nm": 0.02"#, "", WINCH);
    assert_eq!(only(&report).hunting, None);
    assert!(!has(&report, "hunting"));
}

/// From slow to equal the second position is the weaker one: of 0.04 N·m at the crank it carries 4 N, the first 10 N.
#[test]
fn a_shift_into_a_weaker_position_stalls() {
    let report = switched(
        ["slow", "equal"],
        r#""up_nm": 0.02, "down_nm": 0.01"#,
        r#", "limit_nm": 0.04"#,
        WINCH,
    );
    check_band(only(&report).stalls, [5.0, 10.0]);
    assert!(has(&report, "shifts-and-stalls") && !has(&report, "hunting"));
}

/// `F = W (sin t + c cos t)`, W = 19.6133 N: 5 N on 11.9°, 7.5 N on 19.6°.
#[test]
fn under_a_vehicle_loads_are_slopes() {
    let report = switched(["equal", "slow"], r#""up_nm": 0.05, "down_nm": 0.03"#, "", CART);
    let shifts = only(&report);
    assert_eq!(shifts.unit, LoadUnit::Slope);
    let force = |degrees: f64| {
        let slope = degrees.to_radians();
        19.6133 * (libm::sin(slope) + 0.05 * libm::cos(slope))
    };
    check_band(shifts.hunting.map(|band| band.map(force)), [5.0, 7.5]);
}

/// Torque that grows with the square of speed: slower at more load on a motor, so it is not straight.
#[test]
fn a_curved_load_is_followed() {
    let load = r#"{"id": "l", "kind": "load", "shaft": "drum", "torque_nm": 0.01, "fan_nms2": 0.0001}"#;
    let report = switched(["equal", "slow"], r#""up_nm": 0.05, "down_nm": 0.03"#, "", load);
    let shifts = only(&report);
    assert_eq!(shifts.unit, LoadUnit::Torque);
    // 60 rpm: 0.0001 · (2π)² = 0.003948 N·m besides.
    let fan = 0.0001 * core::f64::consts::TAU * core::f64::consts::TAU;
    check(shifts.up_at, 0.05 - fan);
    check(shifts.back_at, 0.075 - fan * 0.16);
}
