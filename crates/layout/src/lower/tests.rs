//! What elements become: releases, losses, limits, forces on bearings, inertias.

use layshaft_kinematics::Element as Joint;
use layshaft_powerflow::{Loss, Model, Release};

use super::*;
use crate::decode;

const SHAFTS: &str = r#"{"id": "a", "journal_friction": 0.2, "journal_radius_mm": 2},
    {"id": "b", "journal_friction": 0.2, "journal_radius_mm": 2}, {"id": "c"}"#;

/// Lowers a layout of three shafts with one element.
fn lowered(element: &str, rest: &str, friction: FrictionChoice) -> Model {
    let text =
        format!(r#"{{"layshaft": 1, "shafts": [{SHAFTS}], "elements": [{{"id": "x", {element}}}]{rest}}}"#);
    let layout = decode(&text).expect("sound");
    let position = layout.effective_positions().remove(0);
    let senses = LiftSenses::of(&layout, &position);
    lower_with(&layout, &position, &senses, friction).model
}

fn model(element: &str) -> Model {
    lowered(element, "", FrictionChoice::Middle)
}

fn near(found: f64, expected: f64) {
    assert!(
        (found - expected).abs() <= 1e-9 * expected.abs().max(1.0),
        "{found}, not {expected}"
    );
}

fn check_release(element: &str, expected: Option<Release>) {
    assert_eq!(model(element).elements[0].release, expected, "{element}");
}

fn slip(limit: f64) -> Option<Release> {
    Some(Release::Slip {
        limit: Torque::newton_metres(limit),
    })
}

/// Efficiency, basic or of a pair.
fn efficiency(model: &Model) -> f64 {
    match model.elements[0].loss {
        Loss::Pair { efficiency } | Loss::Basic { efficiency } => efficiency,
        Loss::None | Loss::Worm(_) => f64::NAN,
    }
}

#[test]
fn joints_let_go_as_they_say() {
    check_release(
        r#""kind": "one_way", "a": "frame", "b": "a""#,
        Some(Release::OneWay { sense: 1.0 }),
    );
    check_release(
        r#""kind": "one_way", "a": "a", "b": "b", "sense": "negative""#,
        Some(Release::OneWay { sense: -1.0 }),
    );
    check_release(
        r#""kind": "slip_clutch", "a": "a", "b": "b", "limit_nm": 0.5"#,
        slip(0.5),
    );
    check_release(
        r#""kind": "belt", "a": "a", "b": "b", "diameters_mm": [10, 30], "slip_nm": 0.1"#,
        slip(0.1),
    );
    check_release(
        r#""kind": "belt", "a": "a", "b": "b", "diameters_mm": [10, 30]"#,
        None,
    );
    check_release(
        r#""kind": "friction_wheel", "a": "a", "b": "b", "diameters_mm": [10, 30], "slip_nm": 0.2"#,
        slip(0.2),
    );
    let engaged = lowered(
        r#""kind": "brake", "shaft": "a", "limit_nm": 2"#,
        r#", "positions": [{"id": "p", "engaged": ["x"]}]"#,
        FrictionChoice::Middle,
    );
    assert_eq!(engaged.elements[0].release, slip(2.0));
}

#[test]
fn a_torque_switch_is_a_plain_coupling() {
    let switch = lowered(
        r#""kind": "torque_switch", "a": "a", "b": "b", "up_nm": 2, "down_nm": 1, "from": "p", "to": "q""#,
        r#", "positions": [{"id": "p"}, {"id": "q"}]"#,
        FrictionChoice::Middle,
    );
    assert!(matches!(switch.train.elements(), [Joint::Coupling(_)]));
    assert_eq!(
        (switch.elements[0].release, switch.elements[0].loss),
        (None, Loss::None)
    );
}

#[test]
fn friction_wheels_side_by_side_turn_the_sense_round() {
    for (form, expected) in [("external", true), ("internal", false)] {
        let wheels = model(&format!(
            r#""kind": "friction_wheel", "a": "a", "b": "b", "diameters_mm": [10, 30], "form": "{form}""#
        ));
        let [Joint::Belt(belt)] = wheels.train.elements() else {
            panic!("two pulleys are what they are to the train");
        };
        assert_eq!(belt.crossed, expected);
    }
}

/// 20 on 60 teeth: the published loss factor is 0.1532; acetal on dry steel runs from 0.10 to 0.30.
#[test]
fn a_pair_of_materials_is_a_range() {
    let mesh = r#""kind": "mesh", "a": "a", "b": "b", "teeth": [20, 60]"#;
    let typed = format!(r#"{mesh}, "material_pair": "acetal-steel-dry""#);
    let default = r#", "material_pair": "acetal-steel-dry""#;
    for (choice, friction) in [
        (FrictionChoice::Low, 0.1),
        (FrictionChoice::Middle, 0.2),
        (FrictionChoice::High, 0.3),
    ] {
        let own = efficiency(&lowered(&typed, "", choice));
        assert!((own - (1.0 - friction * 0.1532)).abs() < 2e-5, "{own}");
        near(efficiency(&lowered(mesh, default, choice)), own);
    }
    let other = format!(r#"{mesh}, "efficiency": 0.9"#);
    near(efficiency(&lowered(&other, default, FrictionChoice::High)), 0.9);
}

/// Sun 20, ring 80, friction 0.1: by the polynomial 0.975784, published; the integral asks for less loss in the ring.
#[test]
fn sets_lose_in_every_mesh_and_on_their_pins() {
    let planetary = r#""kind": "planetary", "sun": "a", "ring": "b", "carrier": "c", "teeth": {"sun": 20, "ring": 80}, "friction": 0.1"#;
    let teeth = efficiency(&model(planetary));
    assert!(teeth > 0.975_784 && teeth < 0.977, "{teeth}");
    let pins = format!(r#"{planetary}, "pin_friction": 0.2, "pin_ratio": 0.25"#);
    near(efficiency(&model(&pins)), teeth * 0.9);

    let differential = r#""kind": "differential", "sides": ["a", "b"], "carrier": "c", "teeth": {"side": 20, "planet": 20}, "friction": 0.1"#;
    let bevel = r#""kind": "mesh", "a": "a", "b": "b", "teeth": [20, 20], "form": "bevel", "friction": 0.1"#;
    near(
        efficiency(&model(differential)),
        efficiency(&model(bevel)).powi(2),
    );

    let pins_alone = r#""kind": "differential", "sides": ["a", "b"], "carrier": "c", "pin_friction": 0.2, "pin_ratio": 0.5"#;
    near(efficiency(&model(pins_alone)), 0.8);
}

#[test]
fn a_default_pair_asks_for_known_teeth() {
    let source = |element: &str| {
        let text = format!(
            r#"{{"layshaft": 1, "material_pair": "pla-pla-dry", "shafts": [{SHAFTS}], "elements": [{{"id": "x", {element}}}]}}"#
        );
        let layout = decode(&text).expect("sound");
        loss_source(&layout.elements[0].kind, &layout)
    };
    let plain = r#""kind": "differential", "sides": ["a", "b"], "carrier": "c""#;
    assert_eq!(source(plain), Some(LossSource::NotGiven));
    let known = format!(r#"{plain}, "teeth": {{"side": 16, "planet": 10}}"#);
    match source(&known) {
        Some(LossSource::Friction(rubbing)) => {
            assert!(rubbing.by_default && rubbing.meshes.len() == 2);
            assert_eq!(
                rubbing.friction.high.to_bits(),
                rubbing.pair.expect("a pair").friction[1].to_bits()
            );
        }
        other => panic!("{other:?}"),
    }
    assert_eq!(source(r#""kind": "clutch", "a": "a", "b": "b""#), None);
}

/// Typed efficiencies stay at rest, friction grows by 1.3.
#[test]
fn at_rest_friction_is_greater() {
    let at_rest = |element: &str| {
        let text =
            format!(r#"{{"layshaft": 1, "shafts": [{SHAFTS}], "elements": [{{"id": "x", {element}}}]}}"#);
        let layout = decode(&text).expect("sound");
        let position = layout.effective_positions().remove(0);
        let senses = LiftSenses::of(&layout, &position);
        lower_static(&layout, &position, &senses, FrictionChoice::Middle).model
    };
    let mesh = r#""kind": "mesh", "a": "a", "b": "b", "teeth": [20, 60]"#;
    let rubbing = |friction: f64| format!(r#"{mesh}, "friction": {friction}"#);
    near(
        efficiency(&at_rest(&rubbing(0.1))),
        efficiency(&model(&rubbing(0.13))),
    );
    near(
        efficiency(&at_rest(&format!(r#"{mesh}, "efficiency": 0.9"#))),
        0.9,
    );
    let journal = at_rest(mesh).shafts[0].journal.expect("it has bearings");
    near(journal.friction, 0.26);
}

/// Module 1 mm, 6 mm wide, 17 teeth (Y = 0.303) at 25 MPa: 45.45 N at 8.5 mm; a measured torque goes before.
#[test]
fn teeth_bear_what_was_measured_or_what_bends_them() {
    let mesh = r#""kind": "mesh", "a": "a", "b": "b", "teeth": [17, 60], "module_mm": 1, "width_mm": 6, "material": "acetal""#;
    let limit = |element: &str| {
        model(element).elements[0]
            .tooth_limit
            .map(Torque::to_newton_metres)
    };
    near(limit(mesh).expect("all is known"), 25.0 * 6.0 * 0.303 * 0.0085);
    near(
        limit(&format!(r#"{mesh}, "skip_nm": 0.7"#)).expect("measured"),
        0.7,
    );
    assert_eq!(
        limit(r#""kind": "mesh", "a": "a", "b": "b", "teeth": [17, 60], "module_mm": 1"#),
        None
    );
}

#[test]
fn strands_and_rims_press_on_bearings_at_rest() {
    let steady = |element: &str| {
        let model = model(element);
        [0, 1].map(|at| {
            model.shafts[at]
                .journal
                .expect("bearings")
                .steady_force
                .to_newtons()
        })
    };
    let belt = r#""kind": "belt", "a": "a", "b": "b", "diameters_mm": [10, 30], "pretension_n": 4"#;
    assert_eq!(steady(belt), [8.0, 8.0]);
    let wheels = r#""kind": "friction_wheel", "a": "a", "b": "b", "diameters_mm": [10, 30], "press_n": 5"#;
    assert_eq!(steady(wheels), [5.0, 5.0]);
    // A sprocket of 20 teeth of 4 mm pitch is 80 mm round: 1 N·m pulls with 2π / 0.08 N.
    let chain = model(r#""kind": "chain", "a": "a", "b": "b", "teeth": [20, 40], "pitch_mm": 4"#);
    near(
        chain.elements[0].bearing_force / 20.0,
        core::f64::consts::TAU / 0.08,
    );
}

/// 10 kg, centre of gravity a third of the wheelbase before the rear axle: two thirds of the weight lie on it.
#[test]
fn driven_wheels_carry_their_axle() {
    let pressed = |rest: &str| {
        let vehicle =
            format!(r#""kind": "vehicle", "shafts": ["a", "b"], "wheel_mm": 60, "mass_kg": 10{rest}"#);
        let journal = model(&vehicle).shafts[0].journal.expect("bearings");
        journal.steady_force.to_newtons()
    };
    let sits = r#", "wheelbase_mm": 180, "cg_from_rear_mm": 60, "cg_height_mm": 30"#;
    near(pressed(""), 49.033_25);
    near(pressed(r#", "driven": "rear""#), 49.033_25);
    near(
        pressed(&format!(r#"{sits}, "driven": "rear""#)),
        49.033_25 * 2.0 / 3.0,
    );
    near(pressed(&format!(r#"{sits}, "driven": "front""#)), 49.033_25 / 3.0);
    near(pressed(&format!(r#"{sits}, "slope_deg": 20"#)), 49.033_25);
}

#[test]
fn known_axes_give_forces_a_direction() {
    let text = r#"{"layshaft": 1, "shafts": [
        {"id": "a", "axis_mm": [0, 0], "journal_friction": 0.2, "journal_radius_mm": 2}, {"id": "b", "axis_mm": [0, 40]}],
        "elements": [{"id": "x", "kind": "friction_wheel", "a": "a", "b": "b", "diameters_mm": [20, 60], "press_n": 5},
            {"id": "y", "kind": "belt", "a": "a", "b": "b", "diameters_mm": [20, 20], "pretension_n": 2}]}"#;
    let layout = decode(text).expect("sound");
    let position = layout.effective_positions().remove(0);
    let model = lower(&layout, &position, &LiftSenses::of(&layout, &position)).model;
    let journal = model.shafts[0].journal.expect("bearings");
    near(journal.steady_force.to_newtons(), 9.0);
    // The wheel b pushes a away from it with 5 N, the belt draws it there with twice 2 N.
    let [x, y] = journal.steady_pull.expect("both directions are known");
    near(x, 0.0);
    near(y, -1.0);
    let pulls = model.elements[0].pulls.as_ref().expect("directions are known");
    assert!(pulls[0].is_some() && pulls[2].is_none());
}

#[test]
fn inertias_add_up_on_their_shafts() {
    let inertia = |element: &str| {
        model(element)
            .shafts
            .iter()
            .map(|shaft| shaft.inertia)
            .collect::<Vec<_>>()
    };
    let motor = r#""kind": "motor", "shaft": "b", "nominal_v": 6, "no_load_rpm": 100, "no_load_a": 0.1, "stall_nm": 1, "stall_a": 2, "rotor_kgm2": 0.002"#;
    assert_eq!(inertia(motor), [0.0, 0.002, 0.0]);
    assert_eq!(
        inertia(r#""kind": "load", "shaft": "c", "inertia_kgm2": 0.5"#),
        [0.0, 0.0, 0.5]
    );
    assert_eq!(
        inertia(r#""kind": "vehicle", "shafts": ["a"], "wheel_mm": 60, "mass_kg": 1.4"#),
        [0.0, 0.0, 0.0, 1.4]
    );
    let winch = |load: &str| {
        inertia(&format!(
            r#""kind": "winch", "shaft": "a", "drum_mm": 200, {load}"#
        ))
    };
    near(winch(r#""mass_kg": 3"#)[0], 0.03);
    assert_eq!(winch(r#""pull_n": 3"#)[0], 0.0);
}

/// Copper gains 0.39 % of resistance a kelvin.
#[test]
fn a_hot_motor_is_weaker() {
    let motor = |celsius: f64| {
        let text = format!(
            r#""kind": "motor", "shaft": "b", "nominal_v": 6, "no_load_rpm": 100, "no_load_a": 0.1, "stall_nm": 1, "stall_a": 2, "winding_c": {celsius}"#
        );
        match &model(&text).sources[0].drive {
            layshaft_powerflow::Drive::Motor(motor) => motor.clone(),
            crank => panic!("{crank:?}"),
        }
    };
    near(motor(80.0).winding / motor(20.0).winding, 1.0 + 60.0 * 0.0039);
    assert!(motor(80.0).creeping_torque() < motor(20.0).creeping_torque());
}
