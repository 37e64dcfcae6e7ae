//! The map of a data sheet, and of motors in layouts.

use layshaft_quantity::{Current, Resistance, Voltage};

use super::*;
use crate::session::Input;

/// Maker's data of a small motor at 1.5 V (from memory): best at 6990 rpm, 0.66 A, 0.59 mN·m and 0.43 W, so 43.4 %.
fn small_motor() -> Motor {
    Motor::from_sheet(
        Voltage::volts(1.5),
        (AngularSpeed::rpm(9100.0), Current::amperes(0.20)),
        (Torque::newton_metres(2.55e-3), Current::amperes(2.20)),
        Voltage::volts(1.5),
        Resistance::ZERO,
    )
}

fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, not {expected}");
}

/// How far a place is from the supply's line, up or down, in pixels.
fn off_the_line(map: &MotorMap, at: Point) -> f64 {
    let [from, to] = map.supply;
    from.y + (to.y - from.y) * (at.x - from.x) / (to.x - from.x) - at.y
}

fn opened(text: &str, motor: &str) -> Session {
    let mut session = Session::empty();
    session.handle(Input::OpenText {
        text: text.to_owned(),
        name: String::new(),
    });
    session.handle(Input::Select {
        targets: vec![Target::Element(Id::from(motor))],
        add: false,
        position: None,
    });
    session
}

/// One motor, two positions: 6 kg on a drum, by a gear and without it.
fn two_speeds(supply: &str) -> String {
    format!(
        r#"{{"layshaft": 1, "shafts": [{{"id": "a"}}, {{"id": "b"}}, {{"id": "c"}}], "elements": [
        {{"id": "m", "kind": "motor", "shaft": "a", "nominal_v": 12, "no_load_rpm": 200, "no_load_a": 0.2, "stall_nm": 2, "stall_a": 4{supply}}},
        {{"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [14, 42], "efficiency": 0.9}},
        {{"id": "h", "kind": "mesh", "a": "a", "b": "c", "teeth": [20, 36], "efficiency": 0.9}},
        {{"id": "k", "kind": "clutch", "a": "b", "b": "d"}}, {{"id": "l", "kind": "clutch", "a": "c", "b": "d"}},
        {{"id": "w", "kind": "winch", "shaft": "d", "drum_mm": 30, "mass_kg": 6}}],
        "positions": [{{"id": "1", "name": "Low", "engaged": ["k"]}}, {{"id": "2", "name": "High", "engaged": ["l"]}}]}}"#
    )
    .replace(r#"{"id": "c"}]"#, r#"{"id": "c"}, {"id": "d"}]"#)
}

#[test]
fn the_best_point_is_the_data_sheets() {
    let map = motor_map(&Id::from("m"), &small_motor(), &[], Units::default()).expect("it turns");
    let [best] = map.marks.as_slice() else {
        panic!("{:?}", map.marks)
    };
    assert_eq!(best.kind, MarkKind::Best);
    near(off_the_line(&map, best.at), 0.0, 1e-6);
    let axis = |ticks: &[Tick], at: f64| {
        let value = |tick: &Tick| tick.text.parse::<f64>().unwrap_or(f64::NAN);
        let (zero, one) = (&ticks[0], &ticks[1]);
        value(one) * (at - zero.at) / (one.at - zero.at)
    };
    near(axis(&map.speed.ticks, best.at.x), 6990.0, 5.0);
    near(axis(&map.torque.ticks, best.at.y), 0.59, 0.005);
    assert_eq!(map.torque.title, "Torque, mN·m");
    // The sheet rounds: 0.43 W of 1.5 V times 0.66 A.
    let percent = map.points[0].values[2].trim_end_matches("\u{202F}%");
    near(percent.parse().unwrap_or(f64::NAN), 43.4, 0.2);
    let levels: Vec<&str> = map.contours.iter().map(|line| line.text.as_str()).collect();
    assert_eq!(
        levels,
        ["10\u{202F}%", "20\u{202F}%", "30\u{202F}%", "40\u{202F}%"]
    );
}

/// Every position's point lies on the supply's line, whichever way the motor turns.
#[test]
fn operating_points_lie_on_the_supplys_line() {
    for supply in [
        "",
        r#", "supply_v": 9, "supply_ohm": 0.4"#,
        r#", "supply_v": -12"#,
    ] {
        let map = opened(&two_speeds(supply), "m").motor_map().expect("a map");
        let names: Vec<&str> = map.marks.iter().map(|mark| mark.text.as_str()).collect();
        assert_eq!(map.marks.len(), 3, "{names:?}");
        assert!(names.contains(&"Low") && names.contains(&"High"), "{names:?}");
        for mark in &map.marks {
            near(off_the_line(&map, mark.at), 0.0, 1e-6);
        }
        assert!(
            map.marks.iter().all(|mark| mark.label.is_some()),
            "{:?}",
            map.marks
        );
    }
}

#[test]
fn only_motors_have_a_map_and_hidden_answers_hide_it() {
    let mut session = opened(&two_speeds(""), "g");
    assert_eq!(session.motor_map(), None);
    session = opened(&two_speeds(""), "m");
    assert!(session.motor_map().is_some());
    session.handle(Input::Act(crate::Action::HideAnswers));
    assert_eq!(session.motor_map(), None);
}

/// A table's cell says what the engine says, and a dash where the supply is too weak.
#[test]
fn the_table_holds_what_the_supply_can_do() {
    let motor = small_motor();
    let map = motor_map(&Id::from("m"), &motor, &[], Units::default()).expect("it turns");
    let lowest = map.values.rows.last().expect("a row");
    let work = motor.work_for(AngularSpeed::rpm(2000.0), Torque::newton_metres(0.5e-3));
    assert_eq!(
        (lowest.torque.as_str(), map.values.speeds[0].as_str()),
        ("0.5", "2000")
    );
    near(
        lowest.efficiencies[0].parse().unwrap_or(f64::NAN),
        work.efficiency.unwrap_or(0.0) * 100.0,
        0.05,
    );
    let highest = map.values.rows.first().expect("a row");
    assert_eq!(highest.efficiencies.last().map(String::as_str), Some("–"));
}

/// Motors at the edge: no friction of their own, kept at rest by it, good beyond reason. Every number is finite.
#[test]
fn odd_motors_are_drawn_or_left_out() {
    let own = |amperes: f64| Motor {
        no_load_current: Current::amperes(amperes),
        ..small_motor()
    };
    assert!(motor_map(&Id::from("m"), &own(3.0), &[], Units::default()).is_none());
    for motor in [own(0.0), own(1e-6), own(2.1), small_motor().at_temperature(200.0)] {
        let map = motor_map(&Id::from("m"), &motor, &[], Units::default()).expect("it turns");
        let paths: String = map.contours.iter().map(|line| line.path.as_str()).collect();
        assert!(!paths.contains("NaN") && !paths.contains("inf"), "{paths}");
        assert!(!map.contours.is_empty());
    }
}

/// Points close together at the lower end: names stand clear of one another, those that move away keep a line to their
/// point, and what the motor does alike in two positions is one mark.
#[test]
fn names_of_crowded_points_stand_apart() {
    let motor = small_motor();
    let working = |number: u32| Working {
        name: format!("Position {number}"),
        current: number == 2,
        work: Some(motor.work_at(AngularSpeed::rpm(8800.0 - 150.0 * f64::from(number / 2)))),
    };
    let workings: Vec<Working> = (0..8).map(working).collect();
    let map = motor_map(&Id::from("m"), &motor, &workings, Units::default()).expect("it turns");
    let names: Vec<&str> = map.marks.iter().map(|mark| mark.text.as_str()).collect();
    assert_eq!(names.len(), 5, "{names:?}");
    assert_eq!(names.last(), Some(&"Position 2, Position 3"));
    let mut heights: Vec<f64> = map.marks.iter().filter_map(|mark| Some(mark.label?.y)).collect();
    heights.sort_by(f64::total_cmp);
    assert_eq!(heights.len(), 5);
    assert!(
        heights.windows(2).all(|pair| pair[1] - pair[0] > 16.0),
        "{heights:?}"
    );
    assert!(map.marks.iter().any(|mark| !mark.leader.is_empty()));
}
