//! Quantiles beside those of a uniform number, one draw for a batch of gears, and the same draws always.

use layshaft_choose::task::{Answer, Job, Steps, carry_out};
use layshaft_choose::uncertainty::{
    Certainty, Doubt, Draws, UncertaintyAnswer, UncertaintyJob, UncertaintyTask,
};
use layshaft_choose::{Input, Output};
use layshaft_report::State;

/// A crank of 2 N·m at most through two equal meshes of one material.
const BATCH: &str = r#"{"layshaft": 1, "material_pair": "pla-pla-dry", "shafts": [{"id": "a"}, {"id": "b"}, {"id": "c"}], "elements": [
    {"id": "k", "kind": "crank", "shaft": "a", "speed_rpm": 60, "limit_nm": 2},
    {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 20]},
    {"id": "h", "kind": "mesh", "a": "b", "b": "c", "teeth": [20, 20]},
    {"id": "l", "kind": "load", "shaft": "c", "torque_nm": 1}]}"#;
const PLAIN: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
    {"id": "k", "kind": "crank", "shaft": "a", "speed_rpm": 60, "limit_nm": 2},
    {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 40], "efficiency": 0.8},
    {"id": "l", "kind": "load", "shaft": "b", "torque_nm": 3}]}"#;

fn job(layout: &str, doubts: &[(&str, f64, f64)], samples: usize) -> UncertaintyJob {
    let doubt = |(path, least, most): &(&str, f64, f64)| Doubt {
        input: Input::Field((*path).to_owned()),
        least: *least,
        most: *most,
    };
    UncertaintyJob {
        layout: layout.to_owned(),
        doubts: doubts.iter().map(doubt).collect(),
        outputs: vec![
            Output::parse("stall.torque_nm").expect("an output"),
            Output::Efficiency,
        ],
        samples,
        seed: 1,
    }
}

fn drawn(job: UncertaintyJob) -> UncertaintyAnswer {
    match carry_out(&Job::Uncertainty(job)) {
        Ok(Answer::Uncertainty(answer)) => answer,
        other => panic!("nothing drawn: {other:?}"),
    }
}

fn check(result: &Certainty, expected: [f64; 3], within: f64) {
    let quantiles = result.quantiles.expect("it applies");
    for (quantile, expected) in quantiles.iter().zip(expected) {
        assert!(
            (quantile - expected).abs() < within,
            "{quantiles:?}, expected {expected}"
        );
    }
}

#[test]
fn a_pull_that_is_in_proportion_has_the_quantiles_of_its_input() {
    // T = 2 N·m · 2 · efficiency, from 0.7 to 0.9: 2.8 to 3.6 N·m.
    let samples = 4000;
    let answer = drawn(job(PLAIN, &[("elements.g.efficiency", 0.7, 0.9)], samples));
    // Four standard errors √(p (1 − p) / n) / density at the middle.
    check(
        &answer.results[0],
        [2.84, 3.2, 3.56],
        4.0 * 0.8 * (0.25_f64 / 4000.0).sqrt(),
    );
    assert_eq!(answer.results[0].histogram.iter().sum::<u32>(), 4000);
    let [least, most] = answer.results[0].extremes;
    assert!(2.8 <= least && most <= 3.6);
    assert!((answer.results[0].applies - 1.0).abs() < 1e-12);
}

#[test]
fn states_have_their_shares() {
    // The load of 3 N·m is carried from an efficiency of 0.75.
    let answer = drawn(job(PLAIN, &[("elements.g.efficiency", 0.7, 0.9)], 4000));
    let share = |state| {
        let found = answer.states.iter().find(|share| share.state == Some(state));
        found.map_or(0.0, |share| share.share)
    };
    assert!((share(State::Stalled) - 0.25).abs() < 0.03);
    assert!((share(State::Runs) + share(State::Stalled) - 1.0).abs() < 1e-12);
    // Efficiency is that of what runs.
    assert!((answer.results[1].applies - share(State::Runs)).abs() < 1e-12);
    check(&answer.results[1], [0.7575, 0.825, 0.8925], 0.008);
}

#[test]
fn gears_of_one_batch_have_one_friction() {
    let answer = drawn(job(BATCH, &[], 500));
    assert_eq!(answer.ranges.len(), 1);
    assert_eq!(answer.ranges[0].input, Input::Friction("pla-pla-dry".to_owned()));
    // Per mesh an efficiency of 1 − f H, so that the root of the pull over 2 N·m is that too, with the friction of this draw
    // and the same H in all of them.
    let draws = Draws::new(&job(BATCH, &[], 500)).expect("it makes sense");
    let factor = |sample: u64| {
        let torque = draws.sample(sample)[0].values[0].expect("it applies");
        (1.0 - (torque / 2.0).sqrt()) / draws.values(sample)[0]
    };
    let first = factor(0);
    assert!(first > 0.1);
    for sample in 1..500 {
        let own = factor(sample);
        assert!((own / first - 1.0).abs() < 1e-9, "{sample}: {own} {first}");
    }
}

#[test]
fn counts_are_drawn_as_whole_numbers_evenly() {
    let path = "elements.g.teeth.1";
    let draws = Draws::new(&job(PLAIN, &[(path, 37.5, 41.5)], 4000)).expect("it makes sense");
    let values: Vec<f64> = (0..4000).map(|sample| draws.values(sample)[0]).collect();
    for count in [38.0, 39.0, 40.0, 41.0] {
        let times = values.iter().filter(|value| **value == count).count();
        // Five standard deviations of a binomial number of mean 1000.
        assert!(times.abs_diff(1000) < 140, "{count}: {times}");
    }
    assert!(
        values
            .iter()
            .all(|value| (38.0..=41.0).contains(value) && value.fract() == 0.0)
    );
}

#[test]
fn a_typed_range_takes_the_place_of_the_materials_own() {
    let mut asked = job(BATCH, &[], 50);
    asked.doubts.push(Doubt {
        input: Input::Friction("pla-pla-dry".to_owned()),
        least: 0.2,
        most: 0.2,
    });
    let answer = drawn(asked);
    assert_eq!(answer.ranges.len(), 1);
    let [least, most] = answer.results[0].extremes;
    assert!((most - least).abs() < 1e-15, "{least} {most}");
}

#[test]
fn a_sample_depends_on_seed_and_number_alone() {
    let asked = job(BATCH, &[("elements.k.limit_nm", 1.0, 3.0)], 40);
    let draws = Draws::new(&asked).expect("it makes sense");
    let backwards: Vec<_> = (0..40).rev().map(|sample| draws.sample(sample)).collect();
    let forwards: Vec<_> = backwards.into_iter().rev().collect();
    assert_eq!(draws.answer(&forwards), drawn(asked.clone()));
    let other = UncertaintyJob { seed: 2, ..asked };
    assert_ne!(drawn(other).results, draws.answer(&forwards).results);
}

#[test]
fn a_partial_answer_tells_how_many_were_drawn() {
    let mut task = UncertaintyTask::begin(&job(BATCH, &[], 40)).expect("it makes sense");
    for _ in 0..10 {
        assert!(!task.advance());
    }
    let Answer::Uncertainty(answer) = task.answer() else {
        panic!("an answer of its own kind")
    };
    assert_eq!(answer.samples, 10);
    assert_eq!((task.progress().done, task.progress().of), (10, 40));
}

#[test]
fn what_makes_no_sense_is_refused_in_a_sentence() {
    let check = |job: UncertaintyJob, expected: &str| {
        let problem = UncertaintyTask::begin(&job).err().expect("refused").to_string();
        assert!(problem.contains(expected), "{problem}");
    };
    check(
        job(PLAIN, &[("elements.g.efficiency", 0.9, 0.7)], 10),
        "may not lie above",
    );
    check(
        job(PLAIN, &[("elements.g.teeth.0", 20.2, 20.8)], 10),
        "No whole number",
    );
    check(
        job(PLAIN, &[("elements.l.torque_nm", -1e308, 1e308)], 10),
        "too wide",
    );
    check(
        job(PLAIN, &[("elements.l.torque_nm", f64::NAN, 1.0)], 10),
        "may not lie above",
    );
    check(job(PLAIN, &[("elements.x.efficiency", 0.7, 0.9)], 10), "x");
    check(job(PLAIN, &[], 0), "1 to 100000");
}
