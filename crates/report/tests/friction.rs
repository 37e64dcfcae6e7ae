//! Friction as a range, at rest, and on plain bearings: both ends, the pull to start, forces by direction.

use layshaft_layout::{Layout, decode, set_path};
use layshaft_report::{Bearings, LossModel, PositionReport, State, report};
use std::rc::Rc;

fn only(layout: &Layout) -> Rc<PositionReport> {
    report(layout).expect("one source").positions[0].clone()
}

fn hoist(mesh: &str, shaft: &str) -> Layout {
    let text = format!(
        r#"{{"layshaft": 1, "shafts": [{{"id": "a"{shaft}}}, {{"id": "b"{shaft}}}], "elements": [
          {{"id": "m", "kind": "motor", "shaft": "a", "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 0.09,
           "stall_nm": 0.36, "stall_a": 1.3, "battery_mah": 1000}},
          {mesh}, {{"id": "w", "kind": "winch", "shaft": "b", "drum_mm": 30, "rope_mm": 1, "mass_kg": 3}}]}}"#
    );
    decode(&text).expect("sound")
}

const PAIR: &str = r#"{"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 60], "module_mm": 1,
    "material_pair": "acetal-acetal-dry"}"#;
const TYPED: &str =
    r#"{"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 60], "efficiency": 0.9}"#;
const WORM: &str = r#"{"id": "g", "kind": "worm", "worm": "a", "wheel": "b", "starts": 1, "teeth": 10, "lead_angle_deg": 12,
    "friction": 0.1}"#;

fn typed(layout: &Layout, path: &str, value: &str) -> Layout {
    let mut layout = layout.clone();
    let command = set_path(&layout, path, value).expect("a field");
    layout.apply(&command).expect("within its limits");
    layout
}

/// The ends are those of the same hoist with the friction typed.
#[test]
fn the_range_of_a_pair_is_that_of_its_ends_typed() {
    let layout = hoist(PAIR, "");
    let range = only(&layout).range.expect("a pair is a range");
    let at = |friction: &str| only(&typed(&layout, "elements.g.friction", friction));
    let (low, high) = (at("0.21"), at("0.35"));
    assert!(low.range.is_none(), "typed friction is a number");
    let near = |found: Option<f64>, expected: Option<f64>| {
        let (found, expected) = (found.expect("there"), expected.expect("there"));
        assert!(
            (found - expected).abs() < 1e-12 * expected.abs(),
            "{found}, not {expected}"
        );
    };
    near(range.efficiency.map(|ends| ends[0]), high.efficiency);
    near(range.efficiency.map(|ends| ends[1]), low.efficiency);
    let pull = |report: &PositionReport| Some(report.stall.as_ref()?.pull?.to_newtons());
    near(range.pull.map(|ends| ends[0].to_newtons()), pull(&high));
    near(range.pull.map(|ends| ends[1].to_newtons()), pull(&low));
    assert_eq!(range.states, [State::Runs; 2]);
}

#[test]
fn the_model_of_a_pair_names_it() {
    let report = only(&hoist(PAIR, ""));
    let Some(LossModel::ToothFriction {
        friction,
        loss_factor,
        efficiency,
        materials: Some(materials),
        ..
    }) = report.elements[1].loss_model
    else {
        panic!("{:?}", report.elements[1].loss_model)
    };
    assert!((friction - 0.28).abs() < 1e-15);
    assert!((efficiency - (1.0 - friction * loss_factor)).abs() < 1e-15);
    assert!((materials.efficiency[0] - (1.0 - 0.35 * loss_factor)).abs() < 1e-15);
    assert_eq!(materials.pair.name, "acetal-acetal-dry");
    assert!(!materials.by_default);
}

fn pulls(layout: &Layout) -> [f64; 2] {
    let report = only(layout);
    [&report.stall, &report.start].map(|stall| {
        let pull = stall.as_ref().and_then(|stall| stall.pull);
        pull.expect("it pulls").to_newtons()
    })
}

/// Typed efficiencies say nothing of friction; a thread starts with 1.3 times its friction, and so do teeth.
#[test]
fn it_starts_less_than_it_keeps_moving_where_friction_is_known() {
    let [moving, starting] = pulls(&hoist(TYPED, ""));
    assert_eq!(moving, starting);
    let worm = hoist(WORM, "");
    let [_, starting] = pulls(&worm);
    let [moving, _] = pulls(&typed(&worm, "elements.g.friction", "0.13"));
    assert!((starting / moving - 1.0).abs() < 1e-12);
    let pair = typed(&hoist(PAIR, ""), "elements.g.friction", "0.2");
    let [_, starting] = pulls(&pair);
    let [moving, _] = pulls(&typed(&pair, "elements.g.friction", "0.26"));
    assert!((starting / moving - 1.0).abs() < 1e-12);
}

/// A shaft between two gears on opposite sides carries less than the sum of both forces.
#[test]
fn forces_on_bearings_are_added_by_direction_where_axes_are_typed() {
    let text = |axes: [&str; 3]| {
        let shaft = |id: &str, axis: &str| {
            format!(r#"{{"id": "{id}", "journal_friction": 0.2, "journal_radius_mm": 2{axis}}}"#)
        };
        let mesh = |id: &str, a: &str, b: &str| {
            format!(
                r#"{{"id": "{id}", "kind": "mesh", "a": "{a}", "b": "{b}", "teeth": [20, 20], "module_mm": 1,
                    "efficiency": 0.95}}"#
            )
        };
        format!(
            r#"{{"layshaft": 1, "shafts": [{}, {}, {}], "elements": [
              {{"id": "c", "kind": "crank", "shaft": "a", "speed_rpm": 60}}, {}, {},
              {{"id": "l", "kind": "load", "shaft": "d", "torque_nm": 0.2}}]}}"#,
            shaft("a", axes[0]),
            shaft("b", axes[1]),
            shaft("d", axes[2]),
            mesh("g1", "a", "b"),
            mesh("g2", "b", "d"),
        )
    };
    let solved = |axes| only(&decode(&text(axes)).expect("sound"));
    let unknown = solved(["", "", ""]);
    assert_eq!(unknown.shafts[1].bearings, Some(Bearings::Sum));
    let known = [
        r#", "axis_mm": [0, 0]"#,
        r#", "axis_mm": [20, 0]"#,
        r#", "axis_mm": [20, 20]"#,
    ];
    let known = solved(known);
    let Some(Bearings::Vector { relief }) = known.shafts[1].bearings else {
        panic!("{:?}", known.shafts[1].bearings)
    };
    assert!(relief > 0.3 && relief < 1.0, "{relief}");
    let (by_sum, by_vector) = (
        unknown.efficiency.expect("it runs"),
        known.efficiency.expect("it runs"),
    );
    assert!(by_vector > by_sum, "{by_vector} and {by_sum}");
}

/// 1 Ah at the current that the report gives.
#[test]
fn a_battery_lasts_as_long_as_its_charge() {
    let report = only(&hoist(TYPED, ""));
    let motor = &report.elements[0];
    let current = motor.current.expect("a motor").to_amperes();
    let hours = motor.battery.expect("its charge is known").to_hours();
    assert!((hours * current - 1.0).abs() < 1e-12);
    let best = motor.best.expect("it has friction");
    assert!(best.efficiency > 0.4 && best.efficiency < 0.8);
}

/// At 80 °C copper has 1.234 times its resistance and ferrite 0.88 of its flux: `Kt (Is − I0)` by hand.
#[test]
fn a_hot_motor_pulls_less() {
    let cold = hoist(TYPED, "");
    let [at_20, _] = pulls(&cold);
    let [at_80, _] = pulls(&typed(&cold, "elements.m.winding_c", "80"));
    let by_hand = 0.88 * (1.3 / 1.234 - 0.09) / (1.3 - 0.09);
    assert!((at_80 / at_20 - by_hand).abs() < 1e-12);
}
