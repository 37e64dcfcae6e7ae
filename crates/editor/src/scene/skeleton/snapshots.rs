//! Every symbol of the skeleton as text, so that a change that nobody meant shows.
//!
//! The text stands in `symbols.txt`. Where a symbol is meant to change, run the test with `LAYSHAFT_WRITE_SYMBOLS=1` and look at
//! what became of the file, and at the drawing.

use std::fmt::Write as _;

use super::tests::{drawn, layout};
use crate::catalogue::{Kind, entries};
use crate::target::Target;

const WRITTEN: &str = include_str!("symbols.txt");

/// A name, and the element `e` that it is the symbol of.
const SYMBOLS: &[(&str, &str)] = &[
    (
        "gears",
        r#"{"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36]}"#,
    ),
    (
        "gear in a ring",
        r#"{"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36], "form": "internal"}"#,
    ),
    (
        "bevel gears",
        r#"{"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 20], "form": "bevel"}"#,
    ),
    (
        "gear on the frame",
        r#"{"id": "e", "kind": "mesh", "a": "a", "b": "frame", "teeth": [12, 36]}"#,
    ),
    (
        "worm",
        r#"{"id": "e", "kind": "worm", "worm": "a", "wheel": "b", "starts": 1, "teeth": 30, "hand": "right", "lead_angle_deg": 4, "friction": 0.2}"#,
    ),
    (
        "chain",
        r#"{"id": "e", "kind": "chain", "a": "a", "b": "b", "teeth": [12, 36]}"#,
    ),
    (
        "belt",
        r#"{"id": "e", "kind": "belt", "a": "a", "b": "b", "diameters_mm": [12, 36]}"#,
    ),
    (
        "crossed belt",
        r#"{"id": "e", "kind": "belt", "a": "a", "b": "b", "diameters_mm": [12, 36], "crossed": true}"#,
    ),
    (
        "friction wheels",
        r#"{"id": "e", "kind": "friction_wheel", "a": "a", "b": "b", "diameters_mm": [20, 40]}"#,
    ),
    (
        "differential",
        r#"{"id": "e", "kind": "differential", "sides": ["a", "b"], "carrier": "c"}"#,
    ),
    (
        "planetary set",
        r#"{"id": "e", "kind": "planetary", "sun": "a", "ring": "b", "carrier": "c", "teeth": {"sun": 12, "ring": 60}}"#,
    ),
    (
        "planetary set, ring on the frame",
        r#"{"id": "e", "kind": "planetary", "sun": "a", "ring": "frame", "carrier": "b", "teeth": {"sun": 12, "ring": 60}}"#,
    ),
    (
        "planetary set, planets in pairs",
        r#"{"id": "e", "kind": "planetary", "sun": "a", "ring": "b", "carrier": "c", "planets": "double", "teeth": {"sun": 12, "ring": 60}}"#,
    ),
    (
        "stepped planets",
        r#"{"id": "e", "kind": "stepped", "first": "a", "second": "b", "carrier": "c", "teeth": [[20, 30], [25, 70]], "rings": ["second"]}"#,
    ),
    (
        "clutch, open",
        r#"{"id": "e", "kind": "clutch", "a": "a", "b": "b"}"#,
    ),
    (
        "clutch, engaged",
        r#"{"id": "e", "kind": "clutch", "a": "a", "b": "b"}], "positions": [{"id": "p", "engaged": ["e"]}"#,
    ),
    ("brake, off", r#"{"id": "e", "kind": "brake", "shaft": "a"}"#),
    (
        "brake, on",
        r#"{"id": "e", "kind": "brake", "shaft": "a"}], "positions": [{"id": "p", "engaged": ["e"]}"#,
    ),
    (
        "one-way clutch",
        r#"{"id": "e", "kind": "one_way", "a": "a", "b": "b"}"#,
    ),
    (
        "backstop",
        r#"{"id": "e", "kind": "one_way", "a": "frame", "b": "b"}"#,
    ),
    (
        "slip clutch",
        r#"{"id": "e", "kind": "slip_clutch", "a": "a", "b": "b", "limit_nm": 2}"#,
    ),
    (
        "torque switch",
        r#"{"id": "e", "kind": "torque_switch", "a": "a", "b": "b", "up_nm": 2, "down_nm": 1, "from": "p", "to": "q"}], "positions": [{"id": "p"}, {"id": "q"}"#,
    ),
    (
        "motor",
        r#"{"id": "e", "kind": "motor", "shaft": "a", "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 0.09, "stall_nm": 0.36, "stall_a": 1.3}"#,
    ),
    (
        "crank",
        r#"{"id": "e", "kind": "crank", "shaft": "a", "speed_rpm": 60}"#,
    ),
    (
        "load",
        r#"{"id": "e", "kind": "load", "shaft": "a", "torque_nm": 1}"#,
    ),
    (
        "winch",
        r#"{"id": "e", "kind": "winch", "shaft": "a", "drum_mm": 30, "mass_kg": 6}"#,
    ),
    (
        "vehicle",
        r#"{"id": "e", "kind": "vehicle", "shafts": ["a"], "wheel_mm": 60, "mass_kg": 2, "rolling": 0.02, "slope_deg": 5, "tyre_friction": 0.8, "wheelbase_mm": 150, "cg_height_mm": 40, "cg_from_rear_mm": 70, "driven": "rear"}"#,
    ),
];

/// Its lines by type, one line of text each, from the lowest up.
fn symbol(element: &str) -> String {
    let picture = drawn(&layout(&["a", "b", "c"], element));
    let target = Target::Element("e".into());
    let mut text = String::new();
    for item in picture.items.iter().filter(|item| item.target == target) {
        for stroke in &item.strokes {
            let _ = writeln!(text, "{} {}", stroke.line.class(), stroke.path);
        }
    }
    text
}

fn all() -> String {
    let symbols = SYMBOLS.iter();
    let texts = symbols.map(|(name, element)| format!("# {name}\n{}", symbol(element)));
    texts.collect::<Vec<_>>().join("\n")
}

#[test]
fn every_symbol_is_as_it_was_drawn() {
    let drawn = all();
    if std::env::var_os("LAYSHAFT_WRITE_SYMBOLS").is_some() {
        let place = concat!(env!("CARGO_MANIFEST_DIR"), "/src/scene/skeleton/symbols.txt");
        std::fs::write(place, &drawn).expect("the file can be written");
        return;
    }
    let before: Vec<&str> = WRITTEN.split("\n\n").collect();
    for (drawn, before) in drawn.split("\n\n").zip(&before) {
        assert_eq!(drawn.trim_end(), before.trim_end());
    }
    assert_eq!(before.len(), SYMBOLS.len());
}

#[test]
fn every_kind_has_a_symbol_here() {
    let of = |(_, element): &(&str, &str)| {
        let layout = layout(&["a", "b", "c"], element);
        layout.element(&"e".into()).map(|element| Kind::of(&element.kind))
    };
    let drawn: Vec<Kind> = SYMBOLS.iter().filter_map(of).collect();
    for entry in entries().iter().filter(|entry| entry.kind != Kind::Shaft) {
        assert!(drawn.contains(&entry.kind), "{:?}", entry.kind);
    }
}
