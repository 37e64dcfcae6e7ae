//! The sentences of findings and errors, as they are read.

use super::*;
use crate::numbers::THIN_SPACE;
use layshaft_quantity::{Angle, Length, Power, Torque};
use layshaft_report::{LoadUnit, Mode, OtherState};

fn words(kind: FindingKind) -> Words {
    let report = Report::default();
    finding(
        &Finding { position: None, kind },
        &Layout::new(),
        &report,
        Units::default(),
    )
}

fn check(kind: FindingKind, headline: &str) {
    assert_eq!(
        words(kind).headline,
        headline.replace('_', &THIN_SPACE.to_string())
    );
}

#[test]
fn a_pull_that_falls_short_is_told_in_whole_percents() {
    check(
        FindingKind::LowerPullsLess {
            lower: "Second".into(),
            higher: "First".into(),
            pull_ratio: 0.8271,
            culprit: Some(("wg".into(), 0.61)),
        },
        "Second pulls 17_% less than First",
    );
}

#[test]
fn a_jam_names_its_loop_and_its_product() {
    let ratio = layshaft_kinematics::Ratio::new(9.into(), 8.into());
    let jam = FindingKind::JammedLoop {
        elements: vec!["ab".into(), "bc".into(), "ca".into()],
        product: Some(ratio),
    };
    let words = words(jam);
    assert_eq!(words.headline, "Nothing can turn: ab, bc and ca lock one another");
    assert!(
        words
            .detail
            .starts_with("Round this loop one turn comes back as 9/8 of a turn"),
        "{}",
        words.detail
    );
    assert_eq!(words.places.len(), 3);
}

#[test]
fn one_free_shaft_spins_and_two_spin() {
    check(
        FindingKind::Undetermined {
            shafts: vec!["left".into()],
            elements: vec![],
        },
        "left spins free, so the load gets no torque",
    );
    check(
        FindingKind::Undetermined {
            shafts: vec!["left".into(), "right".into()],
            elements: vec![],
        },
        "left and right spin free, so the load gets no torque",
    );
}

#[test]
fn where_nothing_was_found_that_is_said() {
    check(
        FindingKind::Undetermined {
            shafts: Vec::new(),
            elements: Vec::new(),
        },
        "No steady state was found",
    );
}

#[test]
fn a_stalled_motor_carries_its_caution() {
    let mut layout = Layout::new();
    layout.elements.push(layshaft_layout::Element {
        id: "m".into(),
        at: None,
        kind: crate::catalogue::default_element(crate::Kind::Motor, &["s".into()]).expect("an element"),
    });
    let report = Report::default();
    let kind = FindingKind::Stalled {
        element: "m".into(),
        needed: Torque::newton_metres(0.5),
        available: Torque::newton_metres(0.36),
    };
    let words = finding(
        &Finding { position: None, kind },
        &layout,
        &report,
        Units::default(),
    );
    assert_eq!(words.headline, "m stalls: the load is too great for it");
    assert!(words.cautions[0].contains("overheats"));
}

#[test]
fn circulating_power_is_told_as_a_multiple() {
    check(
        FindingKind::CirculatingPower {
            elements: vec!["da".into(), "sum".into()],
            power: Power::watts(1.53),
            times_output: Some(1.2167),
        },
        "1.22 times the output only goes round in a loop",
    );
}

/// One finding of every kind.
fn every_kind() -> Vec<FindingKind> {
    let id = || Id::from("x1");
    let ids = || vec![Id::from("x1"), Id::from("x2")];
    let torque = Torque::newton_metres(0.5);
    let power = Power::watts(1.5);
    vec![
        FindingKind::LowerPullsLess {
            lower: id(),
            higher: id(),
            pull_ratio: 0.0,
            culprit: None,
        },
        FindingKind::JammedLoop {
            elements: ids(),
            product: None,
        },
        FindingKind::JammedBrakes { elements: ids() },
        FindingKind::Undetermined {
            shafts: ids(),
            elements: ids(),
        },
        FindingKind::FreeShafts { shafts: ids() },
        FindingKind::Unreached { shafts: ids() },
        FindingKind::Ambiguous {
            elements: ids(),
            lowest: torque,
            highest: torque,
        },
        FindingKind::SelfLocking {
            elements: ids(),
            by_own_friction: false,
        },
        FindingKind::SelfLocking {
            elements: Vec::new(),
            by_own_friction: true,
        },
        FindingKind::HeldByFriction {
            element: id(),
            shaft: id(),
        },
        FindingKind::Stalled {
            element: id(),
            needed: torque,
            available: torque,
        },
        FindingKind::LetsGo {
            elements: ids(),
            needed: None,
        },
        FindingKind::CirculatingPower {
            elements: ids(),
            power,
            times_output: None,
        },
        FindingKind::FedFromBothEnds {
            element: id(),
            loss: power,
        },
        FindingKind::Overhauling { element: id(), power },
        FindingKind::MainLoss {
            element: id(),
            share: 0.5,
            of_input: 0.2,
        },
        FindingKind::RedundantLoop {
            elements: ids(),
            shares: Vec::new(),
        },
        FindingKind::NoLossGiven { elements: ids() },
        FindingKind::SheetMakesEnergy { element: id() },
        FindingKind::Undercut { element: id() },
        FindingKind::NotProven { elements: ids() },
    ]
    .into_iter()
    .chain(kinds_of_drives())
    .chain(kinds_of_bodies())
    .collect()
}

fn kinds_of_drives() -> Vec<FindingKind> {
    let id = || Id::from("x1");
    let torque = Torque::newton_metres(0.5);
    let power = Power::watts(1.5);
    let angle = Angle::degrees(12.0);
    let traction = |slope| FindingKind::TractionBeforeTorque {
        element: id(),
        traction: angle,
        torque: None,
        slope,
    };
    vec![
        traction(None),
        traction(Some(angle)),
        FindingKind::TorqueBeforeTraction {
            element: id(),
            torque: angle,
            traction: angle,
        },
        FindingKind::Tips {
            element: id(),
            slope: angle,
            tipping: angle,
        },
        FindingKind::BackDrives {
            element: id(),
            needed: Some(torque),
            available: torque,
        },
        FindingKind::Overheats {
            element: id(),
            heat: power,
            limit: power,
        },
        FindingKind::PastBestEfficiency {
            element: id(),
            torque,
            best: torque,
            best_efficiency: 0.5,
        },
        FindingKind::Hunting {
            element: id(),
            from: id(),
            to: id(),
            loads: [5.0, 7.5],
            unit: LoadUnit::Pull,
        },
        FindingKind::ShiftsAndStalls {
            element: id(),
            from: id(),
            to: id(),
            loads: [5.0, 7.5],
            unit: LoadUnit::Slope,
        },
        FindingKind::StandsByFriction { element: id() },
    ]
}

fn kinds_of_bodies() -> Vec<FindingKind> {
    let id = || Id::from("x1");
    let torque = Torque::newton_metres(0.5);
    let pair = layshaft_layout::decode(
        r#"{"layshaft": 1, "shafts": [], "elements": [], "material_pair": "acetal-acetal-dry"}"#,
    )
    .ok()
    .and_then(|layout| layout.material_pair)
    .expect("a pair of the table");
    vec![
        FindingKind::Slips {
            element: id(),
            limit: torque,
            needed: Some(torque * 2.0),
            heat: Power::watts(1.0),
        },
        FindingKind::OtherStates {
            states: vec![OtherState {
                modes: vec![(id(), Mode::Slipping)],
            }],
        },
        FindingKind::TeethOverloaded {
            element: id(),
            torque,
            limit: torque,
            measured: false,
        },
        FindingKind::PlanetAssembly {
            element: id(),
            count: 5,
            teeth: 96,
            fits: Some(4),
        },
        FindingKind::PlanetsCollide {
            element: id(),
            count: 8,
            fits: Some(4),
        },
        FindingKind::CentreDistance {
            element: id(),
            shaft: "x2".into(),
            found: Length::millimetres(20.0),
            wanted: Length::millimetres(22.0),
            axis_mm: [22.0, 0.0],
        },
        FindingKind::FrictionRange {
            pair,
            elements: vec![id()],
        },
    ]
}

#[test]
fn circulating_power_is_loud_above_twice_the_output() {
    let severity = |multiple| {
        let kind = FindingKind::CirculatingPower {
            elements: vec!["da".into()],
            power: Power::watts(1.0),
            times_output: Some(multiple),
        };
        words(kind).severity
    };
    assert_eq!(severity(1.9), Severity::Note);
    assert_eq!(severity(2.1), Severity::Warning);
}

/// What is offered can be done: each repair is a change that the layout takes, and the finding is gone after it.
fn check_repair(text: &str, code: &str, label: &str) {
    let layout = layshaft_layout::decode(text).expect("sound");
    let found = |layout: &Layout| {
        let report = layshaft_report::report(layout).expect("one source");
        let words = report
            .findings
            .iter()
            .filter(|found| found.kind.code() == code)
            .map(|found| finding(found, layout, &report, Units::default()));
        words.collect::<Vec<_>>()
    };
    let words = found(&layout).into_iter().next().expect("it is found");
    let repair = words.repair.expect("it offers a change");
    assert_eq!(repair.label.replace([THIN_SPACE, '\u{a0}'], " "), label);
    let command = match *repair.input {
        Input::Change { command, .. } => *command,
        Input::SetEngaged {
            position,
            element,
            on,
        } => layshaft_layout::Command::SetEngaged {
            position,
            element,
            engaged: on,
        },
        other => panic!("{other:?}"),
    };
    let mut mended = layout.clone();
    mended.apply(&command).expect("the layout takes it");
    assert_eq!(found(&mended).len(), 0, "{code} is gone");
}

const CRANK: &str = r#"{"id": "c", "kind": "crank", "shaft": "a", "speed_rpm": 60}"#;

fn on_two_shafts(elements: &str) -> String {
    format!(
        r#"{{"layshaft": 1, "shafts": [{{"id": "a", "axis_mm": [0, 0]}}, {{"id": "b", "axis_mm": [20, 0]}}, {{"id": "d"}}],
            "elements": [{CRANK}, {elements}]}}"#
    )
}

#[test]
fn repairs_mend_what_was_found() {
    let pair = r#""a": "a", "b": "b", "teeth": [20, 24], "efficiency": 0.9"#;
    check_repair(
        &on_two_shafts(&format!(
            r#"{{"id": "g", "kind": "mesh", {pair}, "module_mm": 1}}"#
        )),
        "centre-distance",
        "Move the axis of b",
    );
    let set =
        r#""kind": "planetary", "sun": "a", "ring": "b", "carrier": "d", "teeth": {"sun": 20, "ring": 80}"#;
    check_repair(
        &on_two_shafts(&format!(r#"{{"id": "p", {set}, "count": 3}}"#)),
        "planet-assembly",
        "Take 2 planets",
    );
    check_repair(
        &on_two_shafts(&format!(r#"{{"id": "p", {set}, "count": 5}}"#)),
        "planets-collide",
        "Take 4 planets",
    );
    check_repair(
        &on_two_shafts(&format!(r#"{{"id": "p", {set}}}"#)),
        "free-shaft",
        "Put a brake on b",
    );
    check_repair(
        &on_two_shafts(&format!(
            r#"{{"id": "g", "kind": "mesh", {pair}}}, {{"id": "k", "kind": "clutch", "a": "a", "b": "b"}}],
               "positions": [{{"id": "one", "name": "One", "engaged": ["k"]}}], "bin": ["#
        )),
        "jammed",
        "Release k in One",
    );
    let load = r#"{"id": "l", "kind": "load", "shaft": "b", "torque_nm": 1}"#;
    check_repair(
        &on_two_shafts(&format!(
            r#"{{"id": "v", "kind": "belt", "a": "a", "b": "b", "diameters_mm": [20, 40], "slip_nm": 0.4}}, {load}"#
        )),
        "slips",
        "Let it slip at 0.600 N·m",
    );
    let winch = r#"{"id": "w", "kind": "winch", "shaft": "b", "drum_mm": 20, "rope_mm": 0, "pull_n": 30}"#;
    check_repair(
        &on_two_shafts(&format!(
            r#"{{"id": "k", "kind": "slip_clutch", "a": "a", "b": "b", "limit_nm": 0.2}}, {winch}"#
        )),
        "lets-go",
        "Let it slip at 0.360 N·m",
    );
    let lowered =
        r#"{"id": "w", "kind": "winch", "shaft": "b", "drum_mm": 20, "pull_n": 30, "lifts": "positive"}"#;
    check_repair(
        &on_two_shafts(&format!(r#"{{"id": "g", "kind": "mesh", {pair}}}, {lowered}"#)),
        "overhauling",
        "Reverse c",
    );
    let open = r#""kind": "differential", "sides": ["b", "d"], "carrier": "a", "efficiency": 0.95"#;
    check_repair(
        &on_two_shafts(&format!(r#"{{"id": "x", {open}}}, {winch}"#)),
        "undetermined",
        "Put a brake on d",
    );
}

#[test]
fn every_finding_is_a_caption_with_whole_sentences_under_it() {
    for kind in every_kind() {
        let code = kind.code();
        let words = words(kind);
        assert!(
            !words.headline.ends_with('.') && words.headline.len() > 15,
            "{code}: {}",
            words.headline
        );
        assert!(
            words.detail.ends_with('.') && !words.detail.contains("  "),
            "{code}: {}",
            words.detail
        );
        assert!(
            words.headline.to_lowercase().contains("x1")
                || words.places.is_empty()
                || code == "circulating-power",
            "{code}"
        );
    }
}

#[test]
fn a_switch_that_shifts_into_a_weaker_gear_is_named() {
    let text = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
        {"id": "sw", "kind": "torque_switch", "a": "a", "b": "b", "up_nm": 2, "down_nm": 1, "from": "one", "to": "two"}],
        "positions": [{"id": "one", "name": "One", "engaged": []}, {"id": "two", "name": "Two", "engaged": []}]}"#;
    let layout = layshaft_layout::decode(text).expect("sound");
    let kind = FindingKind::LowerPullsLess {
        lower: "two".into(),
        higher: "one".into(),
        pull_ratio: 0.8,
        culprit: None,
    };
    let words = finding(
        &Finding { position: None, kind },
        &layout,
        &Report::default(),
        Units::default(),
    );
    assert!(
        words.detail.contains("sw shifts into it by itself"),
        "{}",
        words.detail
    );
}
