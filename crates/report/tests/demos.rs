//! What each demo is there to show, as tests: its notes promise it, and so it has to come out.

mod common;

use common::{demo, solved, with};
use layshaft_layout::decode;
use layshaft_report::{FindingKind, Limit, Mode, PositionReport, Report, State};

fn ratio(position: &PositionReport, shaft: &str) -> String {
    let result = position
        .shafts
        .iter()
        .find(|result| result.id.as_str() == shaft)
        .expect("it is there");
    result.ratio.as_ref().expect("settled").to_string()
}

fn mode(position: &PositionReport, element: &str) -> Option<Mode> {
    let result = position
        .elements
        .iter()
        .find(|result| result.id.as_str() == element);
    result.expect("it is there").mode
}

fn torque_at(position: &PositionReport, element: &str, shaft: &str) -> f64 {
    let element = position
        .elements
        .iter()
        .find(|result| result.id.as_str() == element);
    let mut ports = element.expect("it is there").ports.iter();
    let port = ports.find(|port| port.shaft.as_str() == shaft);
    port.expect("it is there").torque.to_newton_metres()
}

fn states(report: &Report) -> Vec<State> {
    report.positions.iter().map(|position| position.state).collect()
}

/// 4784/81 half days are one turn of the moon disc; 29.530589 d is the mean synodic month (Meeus 1998, chapter 49).
#[test]
fn the_clock_keeps_hours_and_the_moon() {
    let report = solved(&demo("clock-train"));
    let position = &report.positions[0];
    assert_eq!(position.state, State::Runs);
    assert_eq!(ratio(position, "hour"), "1/12");
    assert_eq!(ratio(position, "moon"), "27/19136");
    let month = 19136.0 / 27.0 / 12.0 / 2.0;
    assert!((month - 29.530_864_f64).abs() < 1e-6, "{month}");
    let error_s = (month - 29.530_589) * 86_400.0;
    assert!((error_s - 24.0_f64).abs() < 0.5, "{error_s} s a month");
    let years = 1.0 / ((month - 29.530_589) * 365.2425 / 29.530_589);
    assert!((years - 294.0_f64).abs() < 1.0, "a day late after {years} years");
    assert_eq!(
        mode(position, "set"),
        Some(Mode::Engaged),
        "the hands are taken along"
    );
}

#[test]
fn the_trike_shifts_three_ways_and_the_slower_pawls_are_overrun() {
    let report = solved(&demo("trike-hub"));
    assert_eq!(states(&report), [State::Runs; 3]);
    // Against the driver, 4/3 of the pedals: 3/4, 1, 4/3.
    let shell: Vec<String> = report
        .positions
        .iter()
        .map(|position| ratio(position, "shell"))
        .collect();
    assert_eq!(shell, ["1", "4/3", "16/9"]);
    let [low, direct, high] = &report.positions[..] else {
        panic!("three positions")
    };
    assert_eq!(mode(low, "pc"), Some(Mode::Engaged));
    for position in [direct, high] {
        assert_eq!(mode(position, "pr"), Some(Mode::Engaged), "{}", position.id);
        assert_eq!(mode(position, "pc"), Some(Mode::Overrunning), "{}", position.id);
    }
    let pulls: Vec<f64> = report
        .positions
        .iter()
        .filter_map(|position| Some(position.stall.as_ref()?.pull?.to_newtons()))
        .collect();
    assert!(
        pulls.len() == 3 && pulls[0] > pulls[1] && pulls[1] > pulls[2],
        "{pulls:?}"
    );
}

#[test]
fn the_wash_drum_slips_before_it_breaks_and_holds_with_the_motor_off() {
    let layout = demo("wash-drum");
    let report = solved(&layout);
    let position = &report.positions[0];
    assert_eq!(position.state, State::Runs);
    let stall = position.stall.as_ref().expect("a motor has one");
    assert_eq!(
        (stall.limit, stall.limiting.as_ref().map(|id| id.as_str())),
        (Limit::Slip, Some("belt"))
    );
    assert!(position.holding.as_ref().expect("something pulls").holds);
    // A steep thread behind a belt and wheels that don't slip would let it run back.
    let no_slip = with(
        with(layout, "elements.belt.slip_nm", ""),
        "elements.fw.slip_nm",
        "",
    );
    let steep = solved(&with(no_slip, "elements.wg.lead_angle_deg", "30"));
    let holding = steep.positions[0].holding.as_ref().expect("something pulls");
    assert!(!holding.holds);
}

#[test]
fn one_wheel_on_wet_grass_gives_the_others_no_more_than_its_drag() {
    let layout = demo("crawler");
    let report = solved(&layout);
    assert_eq!(states(&report), [State::Runs, State::Stalled, State::Runs]);
    assert!(report.findings.iter().any(|finding| matches!(
        &finding.kind,
        FindingKind::LetsGo { elements, .. } if elements.len() == 1 && elements[0].as_str() == "grass"
    )));
    let pulls: Vec<f64> = report
        .positions
        .iter()
        .filter_map(|position| Some(position.stall.as_ref()?.pull?.to_newtons()))
        .collect();
    assert!(
        pulls[1] < pulls[0] / 2.0 && pulls[2] > pulls[1] * 2.0,
        "{pulls:?}"
    );
    // In the air the wheel takes its 4 mN·m of drag, and its differential gives the other side no more.
    let locked = &report.positions[2];
    let other = torque_at(locked, "df", "fr").abs();
    assert!(other < 0.0045, "{other} N·m");
    assert!(torque_at(locked, "dr", "rr").abs() > 10.0 * other);
}

#[test]
fn the_cart_shifts_by_itself_into_the_gear_that_pulls_less() {
    let report = solved(&demo("trail-cart-a"));
    let [shifting] = &report.shifting[..] else {
        panic!("one switch")
    };
    let up_at = shifting.up_at.expect("it shifts");
    let [stalls_from, stalls_to] = shifting.stalls.expect("second stalls where first would not");
    assert!(
        up_at < stalls_from && stalls_from < stalls_to,
        "{up_at}: {stalls_from} to {stalls_to}"
    );
    assert_eq!(shifting.hunting, None);
    let is_it = |kind: &FindingKind| matches!(kind, FindingKind::ShiftsAndStalls { .. });
    assert!(report.findings.iter().any(|finding| is_it(&finding.kind)));
}

#[test]
fn whatever_can_let_go_is_in_a_demo() {
    let folder = format!("{}/../../static/demos", env!("CARGO_MANIFEST_DIR"));
    let mut seen = std::collections::BTreeSet::new();
    for file in std::fs::read_dir(folder).expect("the folder is there").flatten() {
        let text = std::fs::read_to_string(file.path()).expect("it can be read");
        let layout = decode(&text).expect("sound");
        seen.extend(layout.elements.iter().map(|element| element.kind.word()));
    }
    for kind in [
        "belt",
        "friction_wheel",
        "brake",
        "one_way",
        "slip_clutch",
        "torque_switch",
    ] {
        assert!(seen.contains(kind), "no demo shows {kind}");
    }
}
