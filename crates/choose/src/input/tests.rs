//! Inputs by their paths: what is rounded, what is refused and how, what sets the same.

use super::*;

/// Ids with dots that read like fields, and one gear of a known pair of materials.
const TEXT: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}, {"id": "c"}], "elements": [
    {"id": "g.teeth", "kind": "mesh", "a": "a", "b": "b", "teeth": [10, 20], "efficiency": 0.9},
    {"id": "g", "kind": "mesh", "a": "b", "b": "c", "teeth": [10, 20], "material_pair": "pla-pla-dry"},
    {"id": "l", "kind": "load", "shaft": "c", "torque_nm": 1}]}"#;

fn layout() -> Layout {
    layshaft_layout::decode(TEXT).expect("sound")
}

fn check_set(path: &str, value: f64, expected: f64) {
    let mut varied = Varied::new(layout());
    let input = Input::parse(varied.layout(), path).expect("an input");
    varied.set(&input, value).expect("it can have this value");
    assert_eq!(input.present(varied.layout()), Ok(expected), "{path}");
}

#[test]
fn counts_alone_are_rounded_whatever_ids_look_like() {
    check_set("elements.g.teeth.efficiency", 0.85, 0.85);
    check_set("elements.g.teeth.teeth.0", 11.6, 12.0);
    check_set("elements.g.teeth[1]", 24.4, 24.0);
    check_set("elements.l.torque_nm", 1.25, 1.25);
}

fn check_refused(path: &str, expected: &str) {
    let problem = Input::parse(&layout(), path).expect_err("refused");
    assert_eq!(problem.to_string(), expected);
}

#[test]
fn refusals_name_what_is_wrong_and_what_is_near() {
    check_refused(
        "elements.h.ratio",
        "no element is called `h`, the nearest known one is `g`",
    );
    check_refused("elements.l.ratio", "l has no ratio of its own to be varied");
    check_refused(
        "material_pairs.pla-pla-dri.friction",
        "no pair of materials is called `pla-pla-dri`, the nearest known one is `pla-pla-dry`",
    );
    check_refused(
        "material_pairs.acetal-acetal-dry.friction",
        "no element takes its friction from acetal-acetal-dry",
    );
    let problem = Varied::new(layout()).set(&Input::Friction("pla-pla-dry".to_owned()), -0.5);
    assert_eq!(
        problem.expect_err("refused").to_string(),
        "-0.5 is no coefficient of friction; those lie between 0 and 10"
    );
}

fn check_collides(one: &str, other: &str, expected: bool) {
    let layout = layout();
    let [one, other] = [one, other].map(|path| Input::parse(&layout, path).expect("an input"));
    assert_eq!(one.collides(&other, &layout), expected, "{one:?} {other:?}");
    assert_eq!(other.collides(&one, &layout), expected, "{other:?} {one:?}");
}

#[test]
fn a_ratio_and_the_teeth_that_make_it_collide() {
    check_collides("elements.g.teeth.teeth.0", "elements.g.teeth.teeth[0]", true);
    check_collides("elements.g.teeth[0]", "elements.g.teeth[1]", false);
    check_collides("elements.g.ratio", "elements.g.teeth[1]", true);
    check_collides("elements.g.ratio", "elements.g.teeth.teeth.1", false);
    check_collides("elements.g.teeth.ratio", "elements.g.teeth.efficiency", false);
    check_collides("elements.g.ratio", "elements.g.teeth.ratio", false);
}
