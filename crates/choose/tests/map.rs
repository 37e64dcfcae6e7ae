//! Maps beside a closed form, and from coarse to fine.

use layshaft_choose::map::{MapAnswer, MapJob, MapTask, Span};
use layshaft_choose::task::{Answer, Job, Steps, carry_out};
use layshaft_choose::{Input, Output};

/// A crank of 2 N·m at most lifts by two meshes.
const LIFT: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}, {"id": "c"}], "elements": [
    {"id": "k", "kind": "crank", "shaft": "a", "speed_rpm": 60, "limit_nm": 2},
    {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [10, 20], "efficiency": 0.8},
    {"id": "h", "kind": "mesh", "a": "b", "b": "c", "teeth": [10, 30], "efficiency": 0.9},
    {"id": "l", "kind": "load", "shaft": "c", "torque_nm": 1}]}"#;

fn job(points: [usize; 2]) -> MapJob {
    let span = |path: &str, from, to, points| Span {
        input: Input::Field(path.to_owned()),
        from,
        to,
        points,
    };
    MapJob {
        layout: LIFT.to_owned(),
        across: span("elements.g.efficiency", 0.5, 1.0, points[0]),
        up: span("elements.h.teeth.1", 20.0, 60.0, points[1]),
        output: Output::parse("stall.torque_nm").expect("an output"),
        position: "only".into(),
    }
}

fn mapped(job: MapJob) -> MapAnswer {
    match carry_out(&Job::Map(job)) {
        Ok(Answer::Map(answer)) => answer,
        other => panic!("no map: {other:?}"),
    }
}

#[test]
fn a_plain_trains_pull_is_the_product_of_what_it_is_made_of() {
    let map = mapped(job([6, 41]));
    assert_eq!((map.across.len(), map.up.len(), map.values.len()), (6, 41, 41));
    for (teeth, row) in map.up.iter().zip(&map.values) {
        for (efficiency, value) in map.across.iter().zip(row) {
            let expected = 2.0 * efficiency * 0.9 * 2.0 * teeth / 10.0;
            let value = value.expect("a pull");
            assert!(
                (value / expected - 1.0).abs() < 1e-9,
                "{efficiency} {teeth}: {value}"
            );
        }
    }
}

#[test]
fn a_partial_map_has_fewer_rows() {
    let mut task = MapTask::begin(&job([4, 41])).expect("it makes sense");
    for _ in 0..13 {
        assert!(!task.advance());
    }
    let Answer::Map(map) = task.answer() else {
        panic!("a map's answer")
    };
    assert_eq!(map.up, [20.0, 47.0, 60.0]);
    assert_eq!(task.progress().done, 13);
}

#[test]
fn too_many_points_are_refused_in_a_sentence() {
    let mut large = job([10_000, 41]);
    assert!(
        MapTask::begin(&large)
            .err()
            .expect("refused")
            .to_string()
            .contains("at most 250000")
    );
    large = job([10, 10]);
    large.position = "third".into();
    assert!(
        MapTask::begin(&large)
            .err()
            .expect("refused")
            .to_string()
            .contains("third")
    );
}

#[test]
fn one_number_in_both_directions_is_refused() {
    let mut twice = job([5, 5]);
    twice.up.input = twice.across.input.clone();
    let refused = MapTask::begin(&twice).err().expect("refused").to_string();
    assert!(refused.contains("the same number"), "{refused}");
}
