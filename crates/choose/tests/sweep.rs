//! Sweeps beside closed forms, beside layouts with the value typed in, and from coarse to fine.

use layshaft_choose::sweep::{Mark, MarkKind, SweepAnswer, SweepJob, SweepTask};
use layshaft_choose::task::{Answer, Job, Steps, carry_out};
use layshaft_choose::{Input, Output};
use layshaft_layout::{Layout, decode, encode_compact, set_path};
use layshaft_report::{Limit, State, report};

const CART: &str = include_str!("../../../static/demos/trail-cart-a.layshaft.json");

/// A motor of 0.2 N·m at rest, a mesh of 0.8 and a load of 1.6 N·m: it stalls at the ratio 0.1.
const LIFT: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
    {"id": "m", "kind": "motor", "shaft": "a", "nominal_v": 12, "no_load_rpm": 3000, "no_load_a": 0, "stall_nm": 0.2, "stall_a": 5},
    {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [10, 200], "efficiency": 0.8},
    {"id": "l", "kind": "load", "shaft": "b", "torque_nm": 1.6}]}"#;

fn output(path: &str) -> Output {
    Output::parse(path).expect("an output")
}

fn job(layout: &str, inputs: &[Input], range: [f64; 2], points: usize, outputs: &[&str]) -> SweepJob {
    SweepJob {
        layout: layout.to_owned(),
        inputs: inputs.to_vec(),
        from: range[0],
        to: range[1],
        points,
        outputs: outputs.iter().map(|path| output(path)).collect(),
    }
}

fn swept(job: SweepJob) -> SweepAnswer {
    match carry_out(&Job::Sweep(job)) {
        Ok(Answer::Sweep(answer)) => answer,
        other => panic!("no sweep: {other:?}"),
    }
}

fn ratio(element: &str, plain_gears: Option<f64>) -> Input {
    Input::Ratio {
        element: element.into(),
        plain_gears,
    }
}

fn most(marks: &[Mark], output: usize) -> (f64, f64) {
    marks
        .iter()
        .find_map(|mark| match mark.kind {
            MarkKind::Most { output: own, value } if own == output => Some((mark.at, value)),
            _ => None,
        })
        .expect("a greatest value")
}

#[test]
fn a_motor_gives_most_power_at_half_its_stall_torque() {
    let job = job(LIFT, &[ratio("g", None)], [0.01, 0.2], 60, &["output_w"]);
    let series = &swept(job).series[0];
    let (at, value) = most(&series.marks, 0);
    assert!((at - 0.05).abs() < 1e-4 * 0.19, "{at}");
    // Half the stall torque at half the speed, times the efficiency of the mesh.
    let power = 0.8 * 0.1 * (1500.0 / 60.0 * std::f64::consts::TAU);
    assert!((value / power - 1.0).abs() < 1e-6, "{value} {power}");
    let turns: Vec<&Mark> = series
        .marks
        .iter()
        .filter(|mark| matches!(mark.kind, MarkKind::Turns { .. }))
        .collect();
    assert_eq!(
        turns.iter().map(|mark| mark.kind).collect::<Vec<_>>(),
        [MarkKind::Turns {
            from: Some(State::Runs),
            to: Some(State::Stalled)
        }]
    );
    assert!((turns[0].at - 0.1).abs() < 1e-4 * 0.19, "{}", turns[0].at);
}

/// The same number with the value typed into the layout.
fn typed(layout: &Layout, path: &str, value: f64, output: &Output) -> Vec<Option<f64>> {
    let mut layout = layout.clone();
    let command = set_path(&layout, path, &value.to_string()).expect("it can be typed");
    layout.apply(&command).expect("tried");
    let report = report(&layout).expect("it can be computed");
    report
        .positions
        .iter()
        .map(|position| output.of(position))
        .collect()
}

fn check_typed(path: &str, range: [f64; 2], outputs: &[&str]) {
    let layout = decode(CART).expect("sound");
    let input = Input::parse(&layout, path).expect("an input");
    let answer = swept(job(CART, &[input], range, 9, outputs));
    assert_eq!(answer.series.len(), 2);
    for (number, name) in outputs.iter().enumerate() {
        for at in 0..answer.series[0].points.len() {
            let points = answer.series.iter().map(|series| &series.points[at]);
            let values: Vec<Option<f64>> = points.clone().map(|point| point.values[number]).collect();
            let value = points.clone().next().expect("two").at;
            assert_eq!(
                values,
                typed(&layout, path, value, &output(name)),
                "{path} {value} {name}"
            );
        }
    }
}

#[test]
fn points_are_what_the_layout_gives_with_the_value_typed_in() {
    let outputs = [
        "stall.pull_n",
        "start.slope_deg",
        "efficiency",
        "vehicle.top_speed_m_s",
        "circulating",
        "shafts.axle.torque_nm",
        "elements.m.current_a",
    ];
    check_typed("elements.cart.mass_kg", [0.5, 2.5], &outputs);
    check_typed("elements.g1.efficiency", [0.5, 1.0], &outputs);
    check_typed("elements.g2.teeth.1", [20.0, 60.0], &outputs);
    check_typed("elements.wg.friction", [0.0, 0.4], &outputs);
    check_typed("shafts.screw.drag_nm", [0.0, 0.01], &outputs);
}

#[test]
fn a_branch_pulls_best_through_plain_gears_and_never_through_the_worm() {
    let inputs = [ratio("wg", None), ratio("wg", Some(0.87))];
    let answer = swept(job(CART, &inputs, [-0.5, 0.5], 101, &["stall.pull_n"]));
    let series = |input: usize, position: usize| &answer.series[2 * input + position];
    // In first the worm holds the branch, whatever its ratio, so there is nothing worth marking.
    let first = series(0, 0).points[0].values[0].expect("a pull");
    assert!(series(0, 0).marks.is_empty(), "{:?}", series(0, 0).marks);
    let worm = series(0, 1).points.iter().filter_map(|point| point.values[0]);
    let worm = worm.fold(0.0, f64::max);
    assert!(worm <= first * (1.0 + 1e-9), "{worm} {first}");
    let (_, plain) = most(&series(1, 1).marks, 0);
    assert!(plain > first, "{plain} {first}");
}

#[test]
fn the_limit_changes_where_the_motor_can_spin_the_wheels() {
    let range = [-1.0, -0.05];
    let answer = swept(job(CART, &[ratio("g1", None)], range, 40, &["stall.pull_n"]));
    let limits = |mark: &&Mark| {
        matches!(
            mark.kind,
            MarkKind::Limit {
                from: Some(Limit::Motor),
                to: Some(Limit::Traction)
            }
        )
    };
    let mark = answer.series[0].marks.iter().find(limits);
    let mark = mark.expect("the grip of the tyres limits somewhere");
    // Both limits are equally steep there.
    let beside = swept(job(
        CART,
        &[ratio("g1", None)],
        [mark.at - 1e-4, mark.at + 1e-4],
        2,
        &["vehicle.torque_deg", "vehicle.traction_deg"],
    ));
    let motor_first = beside.series[0]
        .points
        .iter()
        .map(|point| point.values[0] < point.values[1]);
    assert_eq!(motor_first.collect::<Vec<_>>(), [true, false]);
}

#[test]
fn what_can_have_no_value_there_is_a_point_without_a_state() {
    let input = Input::Field("elements.g1.efficiency".to_owned());
    let answer = swept(job(CART, &[input], [0.8, 1.2], 5, &["stall.pull_n"]));
    let series = &answer.series[0];
    let states: Vec<bool> = series.points.iter().map(|point| point.state.is_some()).collect();
    assert_eq!(states, [true, true, true, false, false]);
    assert!((most(&series.marks, 0).0 - 1.0).abs() < 1e-9);
}

#[test]
fn whole_inputs_take_whole_numbers_once() {
    let input = Input::Field("elements.g1.teeth.0".to_owned());
    let answer = swept(job(CART, &[input], [8.0, 16.0], 50, &["stall.pull_n"]));
    let at: Vec<f64> = answer.series[0].points.iter().map(|point| point.at).collect();
    assert_eq!(at, [8.0, 9.0, 10.0, 11.0, 12.0, 13.0, 14.0, 15.0, 16.0]);
    let mut marks = answer.series.iter().flat_map(|series| &series.marks);
    assert!(marks.all(|mark| mark.at.fract() == 0.0));
}

#[test]
fn a_partial_answer_is_a_whole_picture() {
    let job = job(
        CART,
        &[ratio("wg", Some(0.9))],
        [0.0, 0.5],
        257,
        &["stall.pull_n"],
    );
    let mut task = SweepTask::begin(&job).expect("it makes sense");
    for _ in 0..5 {
        assert!(!task.advance());
    }
    let Answer::Sweep(answer) = task.answer() else {
        panic!("a sweep's answer")
    };
    let at: Vec<f64> = answer.series[1].points.iter().map(|point| point.at).collect();
    assert_eq!(at, [0.0, 0.125, 0.25, 0.375, 0.5]);
    while !task.advance() {}
    let progress = task.progress();
    assert_eq!(progress.done, progress.of);
    assert_eq!(task.answer(), Answer::Sweep(swept(job)));
}

#[test]
fn what_makes_no_sense_is_refused_in_a_sentence() {
    let check = |layout: &str, path: &str, range: [f64; 2], points: usize, expected: &str| {
        let inputs = [Input::Field(path.to_owned())];
        let job = job(layout, &inputs, range, points, &["stall.pull_n"]);
        let problem = SweepTask::begin(&job).err().expect("refused").to_string();
        assert!(problem.contains(expected), "{problem}");
    };
    check("{}", "elements.g1.efficiency", [0.0, 1.0], 5, "can't be read");
    check(CART, "elements.g9.efficiency", [0.0, 1.0], 5, "g9");
    check(CART, "elements.g1.kind", [0.0, 1.0], 5, "no number");
    check(CART, "elements.g1.efficiency", [1.0, 1.0], 5, "differ");
    check(CART, "elements.g1.efficiency", [0.5, 1.0], 20_000, "10000");
    let text = encode_compact(&decode(CART).expect("sound"));
    check(&text, "elements.cart.mass_kg", [0.5, 1.0], 1, "2 to 10000");
}

#[test]
fn searches_end_in_ranges_as_fine_as_numbers() {
    // The load stalls at the ratio 0.1; the greatest power is at 0.05.
    for middle in [0.05, 0.1] {
        let range = [
            middle * (1.0 - 8.0 * f64::EPSILON),
            middle * (1.0 + 8.0 * f64::EPSILON),
        ];
        let answer = swept(job(LIFT, &[ratio("g", None)], range, 5, &["output_w"]));
        let points = &answer.series[0].points;
        assert!((points[0].at - range[0]).abs() <= 0.0 && points.len() > 1);
    }
    // A field sees every number that there is.
    let torque = Input::Field("elements.l.torque_nm".to_owned());
    let stalls = 0.2 * 0.8 * 20.0;
    let range = [
        stalls * (1.0 - 8.0 * f64::EPSILON),
        stalls * (1.0 + 8.0 * f64::EPSILON),
    ];
    let answer = swept(job(LIFT, &[torque], range, 3, &["output_w"]));
    let marks = &answer.series[0].marks;
    assert!(
        marks.iter().all(|mark| (range[0]..=range[1]).contains(&mark.at)),
        "{marks:?}"
    );
}

#[test]
fn the_load_turns_round_where_the_branch_takes_all() {
    // The direct path turns its side at −1/3 of `in`; a branch of +1/3 takes all of it away.
    let branch = Input::Ratio {
        element: layshaft_layout::Id::from("wg"),
        plain_gears: Some(0.9),
    };
    let job = job(CART, &[branch], [0.1, 0.9], 40, &["stall.slope_deg"]);
    let Ok(Answer::Sweep(answer)) = carry_out(&Job::Sweep(job)) else {
        panic!("a sweep")
    };
    let second = &answer.series[1];
    let turns: Vec<f64> = second
        .marks
        .iter()
        .filter(|mark| mark.kind == MarkKind::TurnsRound)
        .map(|mark| mark.at)
        .collect();
    assert_eq!(turns.len(), 1, "{:?}", second.marks);
    assert!((turns[0] - 1.0 / 3.0).abs() < 1e-4, "{turns:?}");
}
