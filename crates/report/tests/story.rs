//! Why the program exists, as tests: hoists and carts whose lower gear pulls less, and what pulls more instead.

mod common;

use common::{demo, solved, with};
use layshaft_layout::{Layout, decode};
use layshaft_report::{Finding, FindingKind, Report};

/// Pull in N by position.
fn pulls(layout: &Layout) -> Vec<f64> {
    let pull = |position: &layshaft_report::PositionReport| {
        position
            .stall
            .as_ref()
            .and_then(|stall| stall.pull)
            .map_or(0.0, |pull| pull.to_newtons())
    };
    solved(layout)
        .positions
        .iter()
        .map(|position| pull(position))
        .collect()
}

/// Overall ratio's size by position.
fn gearing(layout: &Layout, shaft: &str) -> Vec<String> {
    let ratio = |position: &layshaft_report::PositionReport| {
        let shaft = position
            .shafts
            .iter()
            .find(|result| result.id.as_str() == shaft)
            .expect("it is there");
        shaft
            .ratio
            .as_ref()
            .expect("settled")
            .to_string()
            .replace('-', "")
    };
    solved(layout)
        .positions
        .iter()
        .map(|position| ratio(position))
        .collect()
}

fn lower_pulls_less(report: &Report) -> bool {
    let is_it = |finding: &Finding| matches!(finding.kind, FindingKind::LowerPullsLess { .. });
    report.findings.iter().any(is_it)
}

#[test]
fn the_summing_hoist_pulls_less_than_half_of_the_plain_one() {
    let (plain, summing) = (demo("granary-hoist-stages"), demo("granary-hoist-summing"));
    assert_eq!(gearing(&plain, "drum"), ["1/12"]);
    assert_eq!(gearing(&summing, "drum"), ["1/12"]);
    for efficiency in ["0.86", "0.87", "0.88"] {
        let typed = |layout: Layout, elements: &[&str]| {
            elements.iter().fold(layout, |layout, element| {
                with(layout, &format!("elements.{element}.efficiency"), efficiency)
            })
        };
        let plain = pulls(&typed(plain.clone(), &["g1", "g2"]))[0];
        let summing = pulls(&typed(summing.clone(), &["g1", "g2", "g3", "d"]))[0];
        assert!(
            summing > 0.0 && summing < plain / 2.0,
            "{summing} against {plain} at {efficiency}"
        );
    }
}

#[test]
fn a_branch_through_a_worm_pulls_less_at_every_ratio() {
    // The direct mesh 12:x makes the branch x/144 of the direct path: from 0.09 to 0.99.
    // Grip and tipping are left out, since a strong enough drive always meets them first.
    let cart = with(
        with(demo("trail-cart-a"), "elements.cart.tyre_friction", ""),
        "elements.cart.cg_height_mm",
        "",
    );
    for teeth in (13..=143).step_by(10) {
        let layout = with(cart.clone(), "elements.g2.teeth.1", &teeth.to_string());
        let [first, second] = pulls(&layout)[..] else {
            panic!("two positions")
        };
        assert!(
            second < first * 0.99,
            "{second} against {first} with {teeth} teeth"
        );
        assert!(lower_pulls_less(&solved(&layout)));
    }
}

#[test]
fn the_same_differential_without_subtracting_pulls_more_when_geared_down() {
    let layout = demo("trail-cart-b");
    assert_eq!(gearing(&layout, "axle"), ["1/6", "1/12"]);
    let [first, second] = pulls(&layout)[..] else {
        panic!("two positions")
    };
    assert!(second > first * 1.5, "{second} against {first}");
    let report = solved(&layout);
    assert!(!lower_pulls_less(&report));
    assert!(
        report.positions.iter().all(|position| position.loops.is_empty()),
        "no power goes round"
    );
}

#[test]
fn a_branch_through_plain_gears_pulls_more_though_it_subtracts() {
    // Worm and clutch of the cart make way for a clutch, a mesh that keeps the sense, and a brake that holds in first.
    let text = r#"{"layshaft": 1, "title": "Trail cart, branch through plain gears",
      "shafts": [{"id": "motor"}, {"id": "in"}, {"id": "side"}, {"id": "lay"}, {"id": "branch"}, {"id": "axle"}],
      "elements": [
        {"id": "m", "kind": "motor", "shaft": "motor", "nominal_v": 9, "no_load_rpm": 4800, "no_load_a": 0.06,
         "stall_nm": 0.016, "stall_a": 1.1, "supply_v": 8.4, "supply_ohm": 0.4},
        {"id": "g1", "kind": "mesh", "a": "motor", "b": "in", "teeth": [12, 24], "efficiency": 0.87},
        {"id": "g2", "kind": "mesh", "a": "in", "b": "side", "teeth": [12, 36], "efficiency": 0.87},
        {"id": "c", "kind": "clutch", "a": "in", "b": "lay"},
        {"id": "g3", "kind": "mesh", "form": "internal", "a": "lay", "b": "branch", "teeth": [12, 72], "efficiency": 0.87},
        {"id": "k", "kind": "brake", "shaft": "branch"},
        {"id": "d", "kind": "differential", "sides": ["side", "branch"], "carrier": "axle", "efficiency": 0.87},
        {"id": "cart", "kind": "vehicle", "shafts": ["axle"], "wheel_mm": 56, "mass_kg": 1.4, "rolling": 0.03,
         "slope_deg": 6, "tyre_friction": 0.8}],
      "positions": [{"id": "first", "name": "First", "engaged": ["k"]}, {"id": "second", "name": "Second", "engaged": ["c"]}]}"#;
    let layout = decode(text).expect("sound");
    assert_eq!(gearing(&layout, "axle"), ["1/12", "1/24"]);
    let [first, second] = pulls(&layout)[..] else {
        panic!("two positions")
    };
    assert!(second > first * 1.01, "{second} against {first}");
    assert!(
        !solved(&layout).positions[1].loops.is_empty(),
        "and yet power goes round"
    );
}
