//! Influences beside closed forms: plain trains, a motor's law, the share of a branch in a split.

use layshaft_choose::Output;
use layshaft_choose::sensitivity::{Influence, SensitivityAnswer, SensitivityJob};
use layshaft_choose::task::{Answer, Job, carry_out};
use layshaft_layout::{decode, set_path};
use layshaft_report::report;

fn asked(layout: &str, output: &str, position: &str) -> SensitivityAnswer {
    let job = SensitivityJob {
        layout: layout.to_owned(),
        output: Output::parse(output).expect("an output"),
        position: position.into(),
    };
    match carry_out(&Job::Sensitivity(job)) {
        Ok(Answer::Sensitivity(answer)) => answer,
        other => panic!("no influences: {other:?}"),
    }
}

fn influence<'a>(answer: &'a SensitivityAnswer, path: &str) -> Option<&'a Influence> {
    answer
        .influences
        .iter()
        .find(|influence| influence.input.path() == path)
}

fn check(answer: &SensitivityAnswer, path: &str, expected: f64) {
    let relative = influence(answer, path)
        .unwrap_or_else(|| panic!("{path} is no input"))
        .relative;
    assert!(
        (relative - expected).abs() < 1e-6,
        "{path}: {relative}, expected {expected}"
    );
}

#[test]
fn a_plain_trains_pull_goes_with_every_efficiency_and_against_every_ratio() {
    let layout = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}, {"id": "c"}], "elements": [
        {"id": "m", "kind": "motor", "shaft": "a", "nominal_v": 12, "no_load_rpm": 3000, "no_load_a": 0, "stall_nm": 0.2,
         "stall_a": 5, "supply_v": 9},
        {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [10, 30], "efficiency": 0.8},
        {"id": "h", "kind": "mesh", "a": "b", "b": "c", "teeth": [12, 40], "efficiency": 1},
        {"id": "l", "kind": "load", "shaft": "c", "torque_nm": 0.1}]}"#;
    let answer = asked(layout, "stall.torque_nm", "only");
    check(&answer, "elements.g.efficiency", 1.0);
    // Beyond 1 there is none, so it is looked at from below.
    check(&answer, "elements.h.efficiency", 1.0);
    check(&answer, "elements.g.ratio", -1.0);
    check(&answer, "elements.h.ratio", -1.0);
    // `T = T_stall U / U_nominal` without current at no load.
    check(&answer, "elements.m.stall_nm", 1.0);
    check(&answer, "elements.m.supply_v", 1.0);
    check(&answer, "elements.m.nominal_v", -1.0);
    check(&answer, "elements.m.no_load_rpm", 0.0);
    check(&answer, "elements.l.torque_nm", 0.0);
    // What is 0 or absent is no input.
    assert!(influence(&answer, "elements.m.no_load_a").is_none());
    assert!(influence(&answer, "elements.m.battery_mah").is_none());
    assert!(influence(&answer, "shafts.b.drag_nm").is_none());
    let sizes: Vec<f64> = answer.influences.iter().map(|one| one.relative.abs()).collect();
    assert!(sizes.is_sorted_by(|a, b| a >= b), "{sizes:?}");
}

/// In a loss-free split, the share of a branch in the power is what its ratio has in the speed of the output.
fn check_split(ratio: [u32; 2]) {
    let layout = format!(
        r#"{{"layshaft": 1, "shafts": [{{"id": "in"}}, {{"id": "p"}}, {{"id": "q"}}, {{"id": "out"}}], "elements": [
        {{"id": "k", "kind": "crank", "shaft": "in", "speed_rpm": 60}},
        {{"id": "g", "kind": "mesh", "a": "in", "b": "p", "teeth": [20, 30], "efficiency": 1}},
        {{"id": "h", "kind": "mesh", "a": "in", "b": "q", "teeth": {ratio:?}, "efficiency": 1}},
        {{"id": "d", "kind": "differential", "sides": ["p", "q"], "carrier": "out", "efficiency": 1}},
        {{"id": "l", "kind": "load", "shaft": "out", "torque_nm": 2}}]}}"#
    );
    let report = report(&decode(&layout).expect("sound")).expect("it can be computed");
    let position = &report.positions[0];
    let power = |id: &str| {
        let element = position.elements.iter().find(|element| element.id.as_str() == id);
        element.expect("it is there").ports[0].power.to_watts()
    };
    let output = position.output_power.expect("it runs").to_watts();
    let answer = asked(&layout, "shafts.out.rpm", "only");
    check(&answer, "elements.g.ratio", power("g") / output);
    check(&answer, "elements.h.ratio", power("h") / output);
    let torque = asked(&layout, "elements.k.loss_w", "only");
    assert_eq!(torque.present, None);
    assert!(torque.influences.is_empty());
}

#[test]
fn the_share_of_a_branch_is_what_its_ratio_has_in_the_speed() {
    check_split([10, 20]);
    check_split([20, 20]);
    check_split([35, 12]);
}

#[test]
fn friction_of_materials_is_one_input_for_all_that_take_it() {
    let layout = r#"{"layshaft": 1, "material_pair": "pla-pla-dry", "shafts": [{"id": "a"}, {"id": "b"}, {"id": "c"}], "elements": [
        {"id": "k", "kind": "crank", "shaft": "a", "speed_rpm": 60, "limit_nm": 2},
        {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [16, 30]},
        {"id": "h", "kind": "mesh", "a": "b", "b": "c", "teeth": [16, 30]},
        {"id": "l", "kind": "load", "shaft": "c", "torque_nm": 0.1}]}"#;
    let answer = asked(layout, "stall.torque_nm", "only");
    let document = decode(layout).expect("sound");
    let report = report(&document).expect("it can be computed");
    let efficiency = report.positions[0].elements[1].efficiency.expect("it runs");
    // Per mesh 1 − f H, so d ln / d ln f = −f H / (1 − f H), twice.
    check(
        &answer,
        "material_pairs.pla-pla-dry.friction",
        -2.0 * (1.0 - efficiency) / efficiency,
    );
}

/// The pull of the trail cart in first with a field set.
fn pull_with(cart: &str, path: &str, value: f64) -> f64 {
    let mut layout = decode(cart).expect("sound");
    let command = set_path(&layout, path, &value.to_string()).expect("it can be typed");
    layout.apply(&command).expect("tried");
    let report = report(&layout).expect("it can be computed");
    let stall = report.positions[0].stall.as_ref().expect("it pulls");
    stall.pull.expect("a pull").to_newtons()
}

/// As the central difference of the pulls with two values typed in.
fn check_by_hand(cart: &str, answer: &SensitivityAnswer, path: &str) {
    let at = influence(answer, path).expect("an input").at;
    let ends = [at * 0.9995, at * 1.0005];
    let pulls = ends.map(|value| pull_with(cart, path, value));
    let slope = libm::log(pulls[1] / pulls[0]) / libm::log(ends[1] / ends[0]);
    check(answer, path, slope);
}

#[test]
fn the_trail_cart_pulls_in_first_by_motor_and_both_meshes_and_not_by_the_worm() {
    let cart = include_str!("../../../static/demos/trail-cart-a.layshaft.json");
    let answer = asked(cart, "stall.pull_n", "first");
    assert_eq!(answer.influences[0].input.path(), "elements.m.supply_v");
    // Every gear that carries all of the torque, and the wheel, in proportion.
    check(&answer, "elements.g1.ratio", -1.0);
    check(&answer, "elements.g2.ratio", -1.0);
    check(&answer, "elements.g1.efficiency", 1.0);
    check(&answer, "elements.cart.wheel_mm", -1.0);
    // The worm holds its branch at rest.
    check(&answer, "elements.wg.ratio", 0.0);
    check(&answer, "elements.wg.friction", 0.0);
    for path in [
        "elements.m.supply_v",
        "elements.d.efficiency",
        "elements.m.supply_ohm",
    ] {
        check_by_hand(cart, &answer, path);
    }
}
