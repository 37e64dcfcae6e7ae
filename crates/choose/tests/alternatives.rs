//! Two-speed arrangements: what is found for the trail cart, by how much it pulls more, and what holds for any bin.

use layshaft_choose::alternatives::{
    Alternative, Arrangement, Missing, Standing, Switching, TwoSpeedAnswer, TwoSpeedJob, WantedSpeeds,
    speeds_of,
};
use layshaft_choose::gears::{Bin, BinEntry};
use layshaft_choose::task::{Answer, Job, JobProblem, carry_out};
use layshaft_layout::{ElementKind, Layout, TorqueSwitch, WinchLoad, decode, encode};
use layshaft_report::{PositionReport, State, report};
use proptest::prelude::*;

const CART: &str = include_str!("../../../static/demos/trail-cart-a.layshaft.json");
const HOIST: &str = include_str!("../../../static/demos/granary-hoist-stages.layshaft.json");
const GEARS: [u32; 12] = [10, 12, 14, 15, 16, 18, 20, 24, 30, 36, 40, 48];

fn bin(teeth: &[u32], count: Option<u32>) -> Bin {
    let entry = |teeth: &u32| BinEntry {
        teeth: *teeth,
        count,
        material: None,
    };
    Bin(teeth.iter().map(entry).collect())
}

fn job(layout: &str, ratios: [f64; 2]) -> TwoSpeedJob {
    TwoSpeedJob {
        layout: layout.to_owned(),
        bin: bin(&GEARS, None),
        rings: vec![36, 42, 48, 54, 60, 72],
        wanted: WantedSpeeds::Ratios(ratios),
        tolerance: 0.02,
        mesh_efficiency: 0.87,
    }
}

fn cart_job() -> TwoSpeedJob {
    job(CART, [1.0 / 16.0, 1.0 / 12.0])
}

fn asked(job: TwoSpeedJob) -> Result<TwoSpeedAnswer, JobProblem> {
    carry_out(&Job::TwoSpeeds(job)).map(|answer| match answer {
        Answer::TwoSpeeds(answer) => answer,
        other => panic!("another answer: {other:?}"),
    })
}

fn found(job: TwoSpeedJob) -> TwoSpeedAnswer {
    asked(job).expect("a sound question")
}

fn of(answer: &TwoSpeedAnswer, arrangement: Arrangement) -> &Alternative {
    let mut all = answer.found.iter();
    all.find(|it| it.arrangement == arrangement)
        .unwrap_or_else(|| panic!("no {arrangement:?}"))
}

#[test]
fn the_carts_speeds_are_the_default() {
    let speeds = speeds_of(&decode(CART).expect("sound")).expect("ratios");
    assert_eq!(speeds.map(|ratio| ratio.to_string()), ["1/16", "1/12"]);
}

#[test]
fn every_arrangement_that_does_not_subtract_beats_the_carts_worm() {
    let answer = found(cart_job());
    let [present, higher] = &answer.present[..] else {
        panic!("the cart has two gears: {:?}", answer.present);
    };
    assert_eq!((present.exact.as_str(), higher.exact.as_str()), ("1/16", "1/12"));
    assert!(present.strength() < 0.85 * higher.strength());
    let worm = of(&answer, Arrangement::SubtractingWorm);
    assert!((worm.gears[0].strength() / present.strength() - 1.0).abs() < 1e-9);
    for arrangement in Arrangement::ALL {
        let it = of(&answer, arrangement);
        let gain = it.gears[0].strength() / present.strength() - 1.0;
        assert_eq!(gain > 0.25, arrangement != Arrangement::SubtractingWorm, "{it:?}");
    }
    let best = &answer.found[0];
    assert!(best.reaches && best.low_pulls_more() && !best.arrangement.subtracts());
}

#[test]
fn arrangements_stand_in_groups_and_close_pulls_go_by_what_shifts_itself() {
    let answer = found(cart_job());
    let standings: Vec<Standing> = answer.found.iter().map(|it| answer.standing(it)).collect();
    assert!(standings.is_sorted(), "{standings:?}");
    assert!(standings.contains(&Standing::Beats));
    let now = answer.present[0].strength();
    for it in &answer.found {
        let better = it.gears[0].strength() > now * 1.005 && it.low_pulls_more();
        assert_eq!(answer.standing(it) != Standing::NoBetter, better);
        assert!(it.reaches || answer.standing(it) != Standing::Beats);
    }
    // Two pairs pull alike with a clutch or a one-way clutch at the lower; the latter the cart's switch can shift.
    let [first, second] = [Arrangement::OneWayPairs, Arrangement::ParallelPairs].map(|it| of(&answer, it));
    assert!((first.gears[0].strength() / second.gears[0].strength() - 1.0).abs() < 0.01);
    let place = |it: &Alternative| answer.found.iter().position(|other| other == it);
    assert!(place(first) < place(second));
}

fn switch_of(alternative: &Alternative) -> Option<TorqueSwitch> {
    let layout = decode(&alternative.layout).expect("a sound layout");
    layout
        .elements
        .into_iter()
        .find_map(|element| match element.kind {
            ElementKind::TorqueSwitch(it) => Some(it),
            _ => None,
        })
}

fn check_switch(layout: &str, arrangement: Arrangement, switching: Switching, shifts: Option<[&str; 2]>) {
    let answer = found(job(layout, [1.0 / 16.0, 1.0 / 12.0]));
    let alternative = of(&answer, arrangement);
    assert_eq!(alternative.switching, switching);
    let switch = switch_of(alternative);
    let positions = switch
        .as_ref()
        .map(|it| [&it.from, &it.to].map(ToString::to_string));
    assert_eq!(positions, shifts.map(|ids| ids.map(str::to_owned)));
    assert!(switch.is_none_or(|it| (it.up_nm, it.down_nm) == (0.011, 0.006)));
}

#[test]
fn a_torque_switch_is_kept_where_it_shifts_the_arrangement() {
    check_switch(
        CART,
        Arrangement::OneWayPairs,
        Switching::Kept,
        Some(["high", "low"]),
    );
    check_switch(
        CART,
        Arrangement::SummingBackstop,
        Switching::Kept,
        Some(["high", "low"]),
    );
    check_switch(
        CART,
        Arrangement::SubtractingWorm,
        Switching::Kept,
        Some(["high", "low"]),
    );
    check_switch(CART, Arrangement::ParallelPairs, Switching::Lost, None);
    check_switch(CART, Arrangement::RingHeld, Switching::Lost, None);
    check_switch(HOIST, Arrangement::OneWayPairs, Switching::NotThere, None);
    let turned = CART.replace(
        r#""from": "first", "to": "second""#,
        r#""from": "second", "to": "first""#,
    );
    check_switch(
        &turned,
        Arrangement::OneWayPairs,
        Switching::Kept,
        Some(["low", "high"]),
    );
    let inside = CART.replace(r#""a": "motor", "b": "pinion""#, r#""a": "pinion", "b": "in""#);
    check_switch(&inside, Arrangement::OneWayPairs, Switching::SetAnew, None);
}

/// Torque at the cart's axle in either gear, per closed form of the loss along the path.
fn check_cart(arrangement: Arrangement, efficiency: f64) {
    let answer = found(cart_job());
    let gear = &of(&answer, arrangement).gears[0];
    // Largest torque of the motor: 8.4 V over the resistances of winding and supply, less the current without load.
    let current = 8.4 / (9.0 / 1.1 + 0.4) - 0.06;
    let torque = current * 0.016 / (1.1 - 0.06) * efficiency / gear.ratio;
    let measured = gear.torque.expect("a pull");
    assert!((measured / torque - 1.0).abs() < 1e-9, "{measured}, {torque}");
    assert!((gear.efficiency.expect("losses") / efficiency - 1.0).abs() < 1e-9);
}

#[test]
fn pulls_agree_with_the_loss_along_the_path() {
    check_cart(Arrangement::TwoLayshafts, 0.87 * 0.87);
    check_cart(Arrangement::ParallelPairs, 0.87 * 0.87 * 0.87);
    // One side of a differential held: half the power rolls, (1 + basic efficiency) / 2 comes out at the carrier.
    check_cart(Arrangement::SideHeld, 0.87 * 0.87 * (1.0 + 0.87) / 2.0);
    // Sun held, driven at the ring: sun / (sun + ring) = 1/4 of the power rolls.
    let set = 1.0 - 0.25 * (1.0 - 0.87 * 0.87);
    let measured = of(&found(cart_job()), Arrangement::SunHeld).gears[0].efficiency;
    assert!((measured.expect("losses") - 0.87 * 0.87 * set).abs() < 1e-9);
}

#[test]
fn what_is_not_at_hand_is_named() {
    let answer = found(cart_job());
    assert_eq!(
        of(&answer, Arrangement::SunHeld).missing,
        [Missing::Ring { teeth: 54 }]
    );
    assert_eq!(of(&answer, Arrangement::SummingBrake).missing, []);
    let hoist = found(job(HOIST, [1.0 / 16.0, 1.0 / 12.0]));
    assert_eq!(
        of(&hoist, Arrangement::SubtractingWorm).missing,
        [Missing::Differential, Missing::Worm]
    );
}

/// The same layout under a tenth of the smaller of its largest pulls.
fn lightly_loaded(layout: &Layout, alternative: &Alternative) -> Layout {
    let share = alternative.gears.iter().map(|gear| 0.1 * gear.strength());
    let torque = share.fold(f64::INFINITY, f64::min);
    let mut light = layout.clone();
    for element in &mut light.elements {
        match &mut element.kind {
            ElementKind::Vehicle(vehicle) => vehicle.mass_kg = torque / vehicle.wheel_mm * 100.0,
            ElementKind::Winch(winch) => winch.load = WinchLoad::Pull(torque / winch.drum_mm * 1000.0),
            ElementKind::Load(load) => load.torque_nm = torque,
            _ => {}
        }
    }
    light
}

fn balance(layout: &Layout, position: &PositionReport) {
    let pairs = layout.elements.iter().zip(&position.elements);
    let ports: f64 = pairs
        .clone()
        .flat_map(|(_, result)| &result.ports)
        .map(|port| port.power.to_watts())
        .sum();
    let through: f64 = pairs
        .clone()
        .flat_map(|(_, result)| &result.ports)
        .map(|port| port.power.to_watts().abs())
        .sum();
    let lost: f64 = pairs
        .filter_map(|(_, result)| result.loss)
        .map(layshaft_quantity::Power::to_watts)
        .sum();
    let balance = position.input_power.expect("power in").to_watts()
        - position.output_power.expect("power out").to_watts()
        - lost;
    // No shaft here loses by itself, so that what elements take in and give out is nothing in all.
    assert!(ports.abs() <= 1e-9 * through, "{ports} W of {through} W");
    assert!(balance.abs() <= 1e-9 * through, "{balance} W of {through} W");
}

fn check_layouts(answer: &TwoSpeedAnswer, tolerance: f64) {
    for alternative in &answer.found {
        let layout = decode(&alternative.layout).expect("a sound layout");
        assert_eq!(encode(&layout), alternative.layout);
        let reported = report(&lightly_loaded(&layout, alternative)).expect("computed");
        assert_eq!(reported.positions.len(), 2);
        for (position, gear) in reported.positions.iter().zip(&alternative.gears) {
            assert_eq!(position.state, State::Runs, "{}", alternative.layout);
            assert_eq!(position.id, gear.position);
            balance(&layout, position);
        }
        if alternative.reaches {
            for (gear, wanted) in alternative.gears.iter().zip(answer.wanted) {
                let error = gear.ratio / wanted - 1.0;
                assert!(
                    error.abs() <= tolerance * (1.0 + 1e-9),
                    "{error} in {}",
                    alternative.layout
                );
            }
        }
    }
}

#[test]
fn every_layout_runs_as_sized_and_its_power_balances() {
    check_layouts(&found(cart_job()), 0.02);
    check_layouts(&found(job(HOIST, [1.0 / 40.0, 1.0 / 12.0])), 0.02);
    check_layouts(&found(job(HOIST, [1.0, 3.0])), 0.02);
}

#[test]
fn the_same_question_has_the_same_answer() {
    assert_eq!(found(cart_job()), found(cart_job()));
}

#[test]
fn pull_and_speed_become_ratios_that_reach_them() {
    let wanted = WantedSpeeds::PullAndSpeed {
        pull: 4.5,
        speed: 0.95,
    };
    let answer = found(TwoSpeedJob { wanted, ..cart_job() });
    let best = &answer.found[0];
    assert!(best.reaches);
    assert!(best.gears[0].pull >= Some(4.5 * 0.98) && best.gears[1].speed >= Some(0.95 * 0.98));
}

fn refused(wanted: WantedSpeeds) {
    let answer = asked(TwoSpeedJob { wanted, ..cart_job() });
    assert!(matches!(answer, Err(JobProblem::Asked(_))), "{answer:?}");
}

#[test]
fn what_makes_no_sense_is_refused_with_a_sentence() {
    refused(WantedSpeeds::Ratios([0.1, 0.1]));
    refused(WantedSpeeds::Ratios([0.0, 0.1]));
    refused(WantedSpeeds::Ratios([f64::NAN, 0.1]));
    refused(WantedSpeeds::PullAndSpeed {
        pull: 4.0,
        speed: 1e3,
    });
    refused(WantedSpeeds::PullAndSpeed {
        pull: 0.1,
        speed: 0.1,
    });
}

#[test]
fn a_crank_without_a_limit_is_ranked_by_what_it_gains() {
    let text = r#"{"layshaft": 1, "shafts": [{"id": "low"}, {"id": "out"}], "elements": [
        {"id": "g", "kind": "crank", "shaft": "low", "speed_rpm": -30},
        {"id": "g2", "kind": "mesh", "a": "low", "b": "out", "teeth": [10, 30], "efficiency": 0.9},
        {"id": "clutch", "kind": "load", "shaft": "out", "torque_nm": 1}]}"#;
    let answer = found(job(text, [0.25, 0.5]));
    assert_eq!(answer.present.len(), 1);
    check_layouts(&answer, 0.02);
    let best = &answer.found[0];
    assert!(best.low_pulls_more() && best.gears[0].gain > Some(3.0));
    assert!(answer.found.len() >= 8, "{}", answer.found.len());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bin_gives_layouts_that_run_with_ratios_within_the_tolerance(
        teeth in proptest::collection::vec(5_u32..90, 0..10),
        count in proptest::option::of(1_u32..4),
        high in 0.01_f64..2.0,
        step in 1.03_f64..6.0,
        tolerance in 0.001_f64..0.1,
    ) {
        let answer = found(TwoSpeedJob {
            bin: bin(&teeth, count),
            tolerance,
            ..job(CART, [high / step, high])
        });
        check_layouts(&answer, tolerance);
    }
}
