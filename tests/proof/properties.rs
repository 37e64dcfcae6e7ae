//! Laws that every result obeys, on the random trains of the second road.

use layshaft_layout::Layout;
use layshaft_report::{PositionReport, Report, State, report};
use layshaft_tests::compact;
use num_rational::BigRational;
use num_traits::ToPrimitive;
use proptest::prelude::*;
use serde_json::{Value, json};

use crate::random::trying;
use crate::second_road::trains::train;

fn solved(compact: &Value) -> Option<(Layout, Report)> {
    let layout = compact::layout(compact);
    let report = report(&layout).ok()?;
    Some((layout, report))
}

pub fn flows(report: &PositionReport) -> bool {
    matches!(report.state, State::Runs | State::Held)
}

fn largest_power(report: &PositionReport) -> f64 {
    let ports = report.elements.iter().flat_map(|element| &element.ports);
    ports.map(|port| port.power.to_watts().abs()).fold(0.0, f64::max)
}

/// Power in = power out + losses: in every element, at every shaft, and in the whole train.
pub fn check_energy(report: &PositionReport) {
    let allowed = 1e-9 * largest_power(report).max(1e-12);
    let mut whole = 0.0;
    for element in &report.elements {
        let into: f64 = element.ports.iter().map(|port| port.power.to_watts()).sum();
        match element.loss {
            Some(loss) => {
                assert!(
                    (into - loss.to_watts()).abs() <= allowed,
                    "{}: {into} in, {loss:?} lost",
                    element.id
                );
                whole += loss.to_watts();
            }
            None => whole += into,
        }
    }
    for shaft in &report.shafts {
        let ports = report
            .elements
            .iter()
            .flat_map(|element| &element.ports)
            .filter(|port| port.shaft == shaft.id);
        let out: f64 = ports.map(|port| port.power.to_watts()).sum();
        let lost = shaft.loss.map_or(0.0, |loss| loss.to_watts());
        assert!(
            (out + lost).abs() <= allowed,
            "{}: {out} handed out, {lost} lost",
            shaft.id
        );
        whole += lost;
    }
    assert!(whole.abs() <= 10.0 * allowed, "{whole} W come from nowhere");
}

/// Two reports are the same but for a factor of torque and a factor of speed.
fn check_scaled(one: &PositionReport, other: &PositionReport, torque: f64, speed: f64) {
    assert_eq!(one.state, other.state);
    assert_eq!(one.mobility, other.mobility);
    assert_eq!(one.held, other.held);
    let largest = largest_power(other).max(1e-12);
    for (a, b) in one.elements.iter().zip(&other.elements) {
        assert_eq!(a.id, b.id);
        for (a, b) in a.ports.iter().zip(&b.ports) {
            let (found, expected) = (b.power.to_watts(), a.power.to_watts() * torque * speed);
            assert!(
                (found - expected).abs() <= 1e-9 * largest,
                "{:?} should be {expected} W",
                b
            );
        }
    }
}

/// The train with constant loads alone and cranks without limits, so that it can be scaled.
fn plain(train: &Value) -> Value {
    let mut train = train.clone();
    for shaft in train["shafts"].as_array_mut().into_iter().flatten() {
        *shaft = json!({"id": shaft["id"]});
    }
    for element in train["elements"].as_array_mut().into_iter().flatten() {
        if element["kind"] == "motor" {
            *element = json!({"kind": "crank", "id": "crank", "shaft": element["shaft"], "speed_rpm": 33});
        }
        if element["kind"] == "load" {
            *element = json!({"kind": "load", "shaft": element["shaft"], "torque_nm": 1.5});
        }
        element
            .as_object_mut()
            .expect("a table")
            .retain(|name, _| name != "limit_nm");
    }
    train
}

/// The train with some of its fields multiplied.
pub fn with_factor(train: &Value, fields: &[&str], factor: f64) -> Value {
    let mut train = train.clone();
    for element in train["elements"].as_array_mut().into_iter().flatten() {
        for field in fields {
            if let Some(value) = element.get(*field).and_then(Value::as_f64) {
                element[*field] = json!(value * factor);
            }
        }
    }
    train
}

/// The train with its shafts called and listed otherwise, and its elements in the opposite order. Sources keep theirs:
/// the first of them is the drive.
fn relabelled(train: &Value) -> Value {
    let text = train.to_string();
    let shafts = train["shafts"].as_array().map_or(0, Vec::len);
    let renamed = (0..shafts).rev().fold(text, |text, at| {
        text.replace(&format!("\"s{at}\""), &format!("\"t{}\"", at * 7 % 101))
    });
    let mut train: Value = serde_json::from_str(&renamed).expect("still JSON");
    train["shafts"].as_array_mut().expect("a list").reverse();
    let elements = train["elements"].as_array_mut().expect("a list");
    let service = elements
        .iter()
        .position(|element| element["id"] == "crank" || element["id"] == "motor")
        .expect("a source");
    elements[..service].reverse();
    train
}

/// Whether anything in a train can slip or overrun.
fn lets_go(train: &Value) -> bool {
    let elements = train["elements"].as_array().into_iter().flatten();
    elements
        .map(|element| &element["kind"])
        .any(|kind| kind == "one_way" || kind == "slip_clutch")
}

pub fn check_relabelling(train: &Value) {
    let (Some((_, one)), Some((_, other))) = (solved(train), solved(&relabelled(train))) else {
        return;
    };
    for (one, other) in one.positions.iter().zip(&other.positions) {
        if one.held != other.held {
            // Where several worms could hold, the first in the document does.
            continue;
        }
        assert_eq!(one.mobility, other.mobility);
        let ended = |report: &PositionReport| matches!(report.state, State::Undetermined | State::Jammed);
        if lets_go(train) && ended(one) && ended(other) {
            // No state was found: where the search for one ended is a matter of where it began.
            continue;
        }
        assert_eq!(one.state, other.state);
        let mut ratios = [one, other].map(|report| {
            report
                .shafts
                .iter()
                .map(|shaft| (shaft.free, shaft.ratio.clone()))
                .collect::<Vec<(bool, Option<BigRational>)>>()
        });
        ratios[1].reverse();
        assert_eq!(ratios[0], ratios[1]);
        let largest = largest_power(one).max(1e-12);
        for a in &one.elements {
            let b = other
                .elements
                .iter()
                .find(|b| b.id == a.id)
                .expect("the same elements");
            for (a, b) in a.ports.iter().zip(&b.ports) {
                let (a, b) = (a.power.to_watts(), b.power.to_watts());
                assert!(
                    (a - b).abs() <= 1e-9 * largest,
                    "{}: {a} W and {b} W",
                    one.state.code()
                );
            }
        }
    }
}

proptest! {
    #![proptest_config(trying(1000))]

    #[test]
    fn power_in_is_power_out_and_losses(train in train(5)) {
        let Some((_, report)) = solved(&train.0) else { return Ok(()) };
        report.positions.iter().filter(|report| flows(report)).for_each(|report| check_energy(report));
    }

    #[test]
    fn torques_scale_with_the_loads(train in train(4), factor in 0.1_f64..20.0) {
        let train = plain(&train.0);
        let scaled = with_factor(&train, &["torque_nm", "pull_n", "mass_kg"], factor);
        let (Some((_, one)), Some((_, other))) = (solved(&train), solved(&scaled)) else { return Ok(()) };
        for (one, other) in one.positions.iter().zip(&other.positions) {
            check_scaled(one, other, factor, 1.0);
        }
    }

    #[test]
    fn speeds_scale_with_the_cranks(train in train(4), factor in 0.1_f64..20.0) {
        let train = plain(&train.0);
        let scaled = with_factor(&train, &["speed_rpm"], factor);
        let (Some((_, one)), Some((_, other))) = (solved(&train), solved(&scaled)) else { return Ok(()) };
        for (one, other) in one.positions.iter().zip(&other.positions) {
            check_scaled(one, other, 1.0, factor);
        }
    }

    #[test]
    fn names_and_order_change_nothing(train in train(4)) {
        check_relabelling(&train.0);
    }

    #[test]
    fn an_idler_changes_only_the_sign(z in prop::array::uniform3(1_u32..200), load in 0.1..9.0) {
        let pair = |idler: bool| {
            let mut elements = vec![json!({"kind": "mesh", "a": "in", "b": if idler { "idler" } else { "out" }, "teeth": [z[0], if idler { z[1] } else { z[2] }]})];
            if idler {
                elements.push(json!({"kind": "mesh", "a": "idler", "b": "out", "teeth": [z[1], z[2]]}));
            }
            elements.push(json!({"kind": "crank", "shaft": "in", "speed_rpm": 60}));
            elements.push(json!({"kind": "load", "shaft": "out", "torque_nm": load}));
            solved(&json!({ "elements": elements })).expect("one source").1.positions[0].clone()
        };
        let ends = |report: &PositionReport| {
            let out = report.shafts.iter().find(|shaft| shaft.id.as_str() == "out").expect("out");
            let crank = report.elements.iter().find(|element| element.id.as_str() == "crank").expect("crank");
            (out.ratio.clone().expect("settled"), crank.ports[0].torque.to_newton_metres())
        };
        let ((direct, torque), (turned, same_torque)) = (ends(&pair(false)), ends(&pair(true)));
        prop_assert_eq!(direct, -turned);
        prop_assert!((torque - same_torque).abs() <= 1e-12 * torque.abs());
    }

    #[test]
    fn a_held_carrier_leaves_an_ordinary_train(sun in 8_u32..100, more in 1_u32..100, n in 0.5..1.0) {
        let ring = sun + more;
        let set = json!({"kind": "planetary", "sun": "in", "ring": "out", "carrier": "frame", "teeth": {"sun": sun, "ring": ring}, "efficiency": n});
        let mesh = json!({"kind": "mesh", "a": "in", "b": "out", "teeth": [sun, ring], "efficiency": n});
        let [a, b] = [set, mesh].map(|element| {
            let elements = json!([element, {"kind": "crank", "shaft": "in", "speed_rpm": 60}, {"kind": "load", "shaft": "out", "torque_nm": 1}]);
            solved(&json!({ "elements": elements })).expect("one source").1.positions[0].clone()
        });
        prop_assert_eq!(a.shafts[1].ratio.clone(), b.shafts[1].ratio.clone());
        let [a, b] = [a, b].map(|report| report.elements[1].ports[0].torque.to_newton_metres());
        prop_assert!((a - b).abs() <= 1e-12 * b.abs());
    }

    #[test]
    fn all_six_inversions_follow_from_willis(sun in 8_u32..100, more in 1_u32..100) {
        let ring = sun + more;
        let fraction = |n: i64, d: i64| BigRational::new(n.into(), d.into());
        let (s, r) = (i64::from(sun), i64::from(ring));
        let inversions = [
            ("ring", "sun", "arm", fraction(s, s + r)), ("ring", "arm", "sun", fraction(s + r, s)),
            ("sun", "ring", "arm", fraction(r, s + r)), ("sun", "arm", "ring", fraction(s + r, r)),
            ("arm", "sun", "ring", fraction(-s, r)), ("arm", "ring", "sun", fraction(-r, s)),
        ];
        for (held, drive, driven, expected) in inversions {
            let layout = json!({"positions": {"held": ["brake"]}, "elements": [
                {"kind": "planetary", "sun": "sun", "ring": "ring", "carrier": "arm", "teeth": {"sun": sun, "ring": ring}},
                {"kind": "brake", "shaft": held}, {"kind": "crank", "shaft": drive, "speed_rpm": 60},
            ]});
            let report = solved(&layout).expect("one source").1.positions[0].clone();
            let shaft = report.shafts.iter().find(|shaft| shaft.id.as_str() == driven).expect("a member");
            prop_assert_eq!(shaft.ratio.clone(), Some(expected));
        }
    }

    /// Share of power in a branch = −d ln(output speed) / d ln(branch ratio), for any loss-free train that splits: a
    /// theorem on the sensitivity of split trains (Proc. IMechE 205, 1991).
    #[test]
    fn the_share_of_a_branch_is_its_sensitivity(sun in 10_u32..60, more in 5_u32..60, z in 20_u32..400, branch in 20_u32..400, ahead in any::<bool>()) {
        let tooth = 1000;
        let split = |b: u32| {
            let sense = if ahead { "same" } else { "opposite" };
            solved(&json!({"elements": [
                {"kind": "planetary", "sun": "sun", "ring": "out", "carrier": "in", "teeth": {"sun": sun, "ring": sun + more}},
                {"kind": "mesh", "id": "branch", "a": "out", "b": "sun", "teeth": [b, z * tooth], "form": "bevel", "sense": sense},
                {"kind": "crank", "shaft": "in", "speed_rpm": 60},
                {"kind": "load", "shaft": "out", "torque_nm": 1},
            ]})).expect("one source").1.positions[0].clone()
        };
        let out = |report: &PositionReport| {
            report.shafts.iter().find(|shaft| shaft.id.as_str() == "out").and_then(|shaft| shaft.ratio.as_ref()?.to_f64())
        };
        let middle = split(branch * tooth);
        let (Some(low), Some(high)) = (out(&split(branch * tooth - 1)), out(&split(branch * tooth + 1))) else { return Ok(()) };
        let (b, step) = (f64::from(branch * tooth), 1.0);
        let sensitivity = -(libm::log(high / low) / libm::log((b + step) / (b - step)));
        let power = |id: &str, at: usize| middle.elements.iter().find(|element| element.id.as_str() == id).expect("there").ports[at].power.to_watts();
        let share = power("branch", 1) / -power("crank", 0);
        prop_assume!(share.abs() < 50.0 && low * high > 0.0);
        prop_assert!((share - sensitivity).abs() <= 1e-5 * (1.0 + share.abs()), "{} and {}", share, sensitivity);
    }
}

/// One plain hoist by name, so that the generators are not the only ones to speak.
#[test]
fn bearings_and_drag_are_in_the_balance() {
    let layout = json!({
        "shafts": [{"id": "in", "drag_nm": 0.01}, {"id": "mid", "journal_friction": 0.15, "journal_radius_mm": 2.4},
            {"id": "drum", "journal_friction": 0.15, "journal_radius_mm": 2.4, "viscous_nms": 0.001}],
        "elements": [
            {"kind": "mesh", "a": "in", "b": "mid", "teeth": [12, 60], "efficiency": 0.9, "module_mm": 1},
            {"kind": "mesh", "a": "mid", "b": "drum", "teeth": [12, 60], "friction": 0.2, "module_mm": 1},
            {"kind": "crank", "shaft": "in", "speed_rpm": 300},
            {"kind": "winch", "shaft": "drum", "drum_mm": 30, "mass_kg": 5},
        ],
    });
    let (_, report) = solved(&layout).expect("one source");
    let position = &report.positions[0];
    check_energy(position);
    assert!(
        position
            .shafts
            .iter()
            .all(|shaft| shaft.loss.is_some_and(|loss| loss.to_watts() > 0.0))
    );
}
