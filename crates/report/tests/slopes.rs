//! Vehicles on slopes: grip, tipping and torque, and what is said where the wheels spin.

use layshaft_layout::decode;
use layshaft_report::{Limit, Report, State, report};

/// A cart of 2.675 m with its centre of gravity 1.8 m before the rear axle and 0.475 m high.
fn cart(slope_deg: f64, driven: &str, limit: &str) -> Report {
    let text = format!(
        r#"{{"layshaft": 1, "shafts": [{{"id": "a"}}], "elements": [
          {{"id": "c", "kind": "crank", "shaft": "a", "speed_rpm": 60{limit}}},
          {{"id": "v", "kind": "vehicle", "shafts": ["a"], "wheel_mm": 600, "mass_kg": 100, "rolling": 0,
           "slope_deg": {slope_deg}, "tyre_friction": 0.5, "wheelbase_mm": 2675, "cg_height_mm": 475,
           "cg_from_rear_mm": 1800, {driven}}}]}}"#
    );
    report(&decode(&text).expect("sound")).expect("one source")
}

fn has(report: &Report, code: &str) -> bool {
    report.findings.iter().any(|finding| finding.kind.code() == code)
}

fn check_traction(driven: &str, degrees: f64) {
    let report = cart(5.0, driven, "");
    let traction = report.positions[0]
        .vehicle
        .as_ref()
        .and_then(|vehicle| vehicle.traction);
    let traction = traction.expect("its geometry is known").to_degrees();
    assert!((traction - degrees).abs() < 5e-4, "{driven}: {traction}°");
}

#[test]
fn an_open_centre_differential_grips_less_than_locked_axles() {
    check_traction(r#""driven": "all""#, 26.5651);
    check_traction(r#""driven": "all", "rear_share": 0.5"#, 21.689);
    check_traction(r#""driven": "rear""#, 10.1755);
}

#[test]
fn wheels_spin_on_a_slope_steeper_than_they_grip() {
    let driven = r#""driven": "all", "rear_share": 0.5"#;
    let report = cart(22.0, driven, "");
    let position = &report.positions[0];
    assert_eq!(position.state, State::Stalled);
    assert!(has(&report, "traction-before-torque") && !has(&report, "stalled"));
    assert!(position.elements.iter().all(|element| element.ports.is_empty()));
    assert!(position.efficiency.is_none() && position.shafts.iter().all(|shaft| shaft.speed.is_none()));
    let report = cart(21.0, driven, "");
    assert_eq!(report.positions[0].state, State::Runs);
    assert!(
        !has(&report, "traction-before-torque"),
        "a crank without a limit has no torque to compare"
    );
}

/// 100 kg on wheels of 0.3 m: 50 N·m push with 166.7 N, which climbs 9.8°; 200 N·m climb 42.8°.
#[test]
fn which_gives_first_is_said_with_both_angles() {
    let driven = r#""driven": "all""#;
    let weak = cart(5.0, driven, r#", "limit_nm": 50"#);
    assert!(has(&weak, "torque-before-traction"));
    assert_eq!(
        weak.positions[0].stall.as_ref().map(|stall| stall.limit),
        Some(Limit::Crank)
    );
    let strong = cart(5.0, driven, r#", "limit_nm": 200"#);
    assert!(has(&strong, "traction-before-torque"));
    assert_eq!(
        strong.positions[0].stall.as_ref().map(|stall| stall.limit),
        Some(Limit::Traction)
    );
    // Both are exceeded: grip gives first.
    let steep = cart(50.0, driven, r#", "limit_nm": 200"#);
    assert_eq!(steep.positions[0].state, State::Stalled);
    assert!(has(&steep, "traction-before-torque") && !has(&steep, "stalled"));
    let too_weak = cart(12.0, driven, r#", "limit_nm": 50"#);
    assert!(has(&too_weak, "stalled"));
}

/// `atan(1.8 / 0.475)` is 75.2°.
#[test]
fn a_vehicle_tips_on_a_slope_steeper_than_it_stands() {
    assert!(has(&cart(76.0, r#""driven": "all""#, ""), "tips"));
    assert!(!has(&cart(75.0, r#""driven": "all""#, ""), "tips"));
}
