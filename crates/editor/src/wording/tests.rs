//! The sentences of findings and errors, as they are read.

use super::*;
use crate::numbers::THIN_SPACE;
use layshaft_quantity::{Power, Torque};

fn words(kind: FindingKind) -> Words {
    let report = Report {
        drive: None,
        positions: Vec::new(),
        findings: Vec::new(),
    };
    finding(&Finding { position: None, kind }, &Layout::new(), &report)
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
fn a_stalled_motor_carries_its_caution() {
    let mut layout = Layout::new();
    layout.elements.push(layshaft_layout::Element {
        id: "m".into(),
        at: None,
        kind: crate::catalogue::default_element(crate::Kind::Motor, &["s".into()]).expect("an element"),
    });
    let report = Report {
        drive: None,
        positions: Vec::new(),
        findings: Vec::new(),
    };
    let kind = FindingKind::Stalled {
        element: "m".into(),
        needed: Torque::newton_metres(0.5),
        available: Torque::newton_metres(0.36),
    };
    let words = finding(&Finding { position: None, kind }, &layout, &report);
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
        FindingKind::LetsGo { elements: ids() },
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
        FindingKind::RedundantLoop { elements: ids() },
        FindingKind::NoLossGiven { elements: ids() },
        FindingKind::SheetMakesEnergy { element: id() },
        FindingKind::Undercut { element: id() },
        FindingKind::NotProven { elements: ids() },
    ]
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
