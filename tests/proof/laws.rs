//! Laws that every result obeys whatever the layout is made of: torques balance at every shaft, powers in every element,
//! names and order change nothing, a little more load changes little.

use layshaft_layout::arbitrary::layout;
use layshaft_layout::{Layout, Shaft};
use layshaft_report::{PositionReport, Report, report};
use layshaft_tests::compact;
use layshaft_tests::plain::plain;
use proptest::prelude::*;
use serde_json::Value;

use crate::properties::{check_energy, check_relabelling, flows, with_factor};
use crate::random::trying;
use crate::second_road::letting_go::grow;
use crate::second_road::trains::{fed_back, train};

fn solved(train: &Value) -> Option<(Layout, Report)> {
    let layout = compact::layout(train);
    let report = report(&layout).ok()?;
    Some((layout, report))
}

/// Friction that a shaft itself can hold at rest, or more.
fn holds(layout: &Layout, shaft: &Shaft) -> f64 {
    let bearings = if shaft.journal_friction > 0.0 {
        f64::INFINITY
    } else {
        0.0
    };
    let wheels = layout.elements.iter().any(|element| match &element.kind {
        layshaft_layout::ElementKind::Vehicle(vehicle) => vehicle.shafts.contains(&shaft.id),
        _ => false,
    });
    // A vehicle at rest holds its wheels by rolling resistance, which is nobody's port.
    shaft.drag_nm + bearings + if wheels { f64::INFINITY } else { 0.0 }
}

/// Torques into all elements of a shaft and its own friction add up to nothing.
fn check_balance(layout: &Layout, report: &PositionReport) {
    let ports = || report.elements.iter().flat_map(|element| &element.ports);
    let largest = ports().fold(1e-9_f64, |largest, port| {
        largest.max(port.torque.to_newton_metres().abs())
    });
    for (shaft, result) in layout.shafts.iter().zip(&report.shafts) {
        let own = ports().filter(|port| port.shaft == shaft.id);
        let sum: f64 = own.map(|port| port.torque.to_newton_metres()).sum();
        let speed = result.speed.map_or(0.0, |speed| speed.to_rad_per_s());
        let loss = result.loss.map_or(0.0, |loss| loss.to_watts());
        let allowed = 1e-6 * largest;
        if speed == 0.0 || loss == 0.0 {
            assert!(
                sum.abs() <= holds(layout, shaft) + allowed,
                "{}: {sum} N·m left over",
                shaft.id
            );
        } else {
            let rest = sum + loss / speed;
            assert!(rest.abs() <= allowed, "{}: {rest} N·m left over", shaft.id);
        }
    }
}

fn check_balances(train: &Value) {
    let Some((layout, report)) = solved(train) else {
        return;
    };
    for position in report.positions.iter().filter(|position| flows(position)) {
        check_balance(&layout, position);
        check_energy(position);
    }
}

/// State and modes in words.
fn standing(position: &Value) -> Vec<String> {
    let elements = position["elements"].as_array().into_iter().flatten();
    let modes = elements.map(|element| element["mode"].to_string());
    [position["state"].to_string(), position["held"].to_string()]
        .into_iter()
        .chain(modes)
        .collect()
}

/// While all stands as it did, a millionth more load changes powers by less than a hundredth.
fn check_steady(train: &Value) {
    let more = with_factor(train, &["torque_nm", "pull_n", "mass_kg"], 1.0 + 1e-6);
    let (Some((_, one)), Some((_, other))) = (solved(train), solved(&more)) else {
        return;
    };
    let [plain_one, plain_other] = [&one, &other].map(plain);
    for (at, (one, other)) in one.positions.iter().zip(&other.positions).enumerate() {
        let [a, b] = [&plain_one, &plain_other].map(|plain| standing(&plain["positions"][at]));
        if a != b {
            continue;
        }
        let powers = |report: &PositionReport| -> Vec<f64> {
            let ports = report.elements.iter().flat_map(|element| &element.ports);
            ports.map(|port| port.power.to_watts()).collect()
        };
        let (before, after) = (powers(one), powers(other));
        let largest = before
            .iter()
            .fold(1e-9_f64, |largest, power| largest.max(power.abs()));
        for (a, b) in before.iter().zip(&after) {
            assert!((a - b).abs() <= 1e-2 * largest, "{a} W becomes {b} W");
        }
    }
}

proptest! {
    #![proptest_config(trying(300))]

    #[test]
    fn torques_balance_at_every_shaft(train in train(5)) {
        check_balances(&train.0);
    }

    #[test]
    fn torques_balance_in_trains_fed_back(train in fed_back(4)) {
        check_balances(&train.0);
    }

    #[test]
    fn a_little_more_load_changes_little(train in train(4)) {
        check_steady(&train.0);
    }

    #[test]
    fn torques_balance_in_any_sound_layout(layout in layout()) {
        let Ok(report) = report(&layout) else { return Ok(()) };
        for position in report.positions.iter().filter(|position| flows(position)) {
            check_balance(&layout, position);
        }
    }
}

proptest! {
    #![proptest_config(trying(60))]

    #[test]
    fn torques_balance_where_joints_let_go(train in grow::train(5)) {
        check_balances(&train.0);
    }

    #[test]
    fn a_little_more_load_changes_little_where_joints_let_go(train in grow::train(4)) {
        check_steady(&train.0);
    }

    #[test]
    fn names_and_order_change_nothing_where_joints_let_go(train in grow::train(4)) {
        check_relabelling(&train.0);
    }
}
