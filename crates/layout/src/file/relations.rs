//! What binds several fields of one element to each other; each field by itself has passed the table by now.

use serde_json::{Map, Value};

use super::check::Checker;
use super::fields::{Rule, Table};
use super::place::Place;
use super::read;
use crate::document::{ElementKind, FRAME, Mesh, MeshForm, Motor, Planetary, Sense, Stepped, SteppedRatio};
use crate::problem::Problem;

/// Notes every contradiction between the fields of one element.
pub(super) fn check(
    checker: &mut Checker<'_>,
    fields: &Map<String, Value>,
    table: &'static Table,
    place: &Place<'_>,
) {
    ends(checker, fields, table, place);
    // Most elements of a large layout are plain external meshes, in which nothing more can be wrong.
    if fields["kind"] == "mesh" && !fields.contains_key("form") && !fields.contains_key("sense") {
        return;
    }
    match read::kind(fields, table) {
        ElementKind::Mesh(mesh) => check_mesh(checker, fields, &mesh, place),
        ElementKind::Planetary(set) => check_planetary(checker, &set, place),
        ElementKind::Stepped(set) => check_stepped(checker, fields, &set, place),
        ElementKind::Motor(motor) => check_motor(checker, &motor, place),
        _ => {}
    }
}

/// An element whose ends are all on one shaft does nothing, and its equation would read 0 = 0.
fn ends(checker: &mut Checker<'_>, fields: &Map<String, Value>, table: &'static Table, place: &Place<'_>) {
    let mut shafts: Vec<&str> = Vec::new();
    for field in table.fields {
        match (&field.rule, fields.get(field.name)) {
            (Rule::ShaftOrFrame, Some(Value::String(shaft))) => shafts.push(shaft.as_str()),
            (
                Rule::List {
                    of: Rule::ShaftOrFrame,
                    ..
                },
                Some(Value::Array(list)),
            ) => {
                shafts.extend(list.iter().filter_map(Value::as_str));
            }
            _ => {}
        }
    }
    match shafts.as_slice() {
        [FRAME] => checker.note(&place.field("shaft"), Problem::FrameNotAllowed),
        [first, others @ ..] if !others.is_empty() && others.iter().all(|other| other == first) => {
            checker.note(
                place,
                Problem::OneShaftOnly {
                    shaft: (*first).to_owned(),
                },
            );
        }
        _ => {}
    }
}

fn check_mesh(checker: &mut Checker<'_>, fields: &Map<String, Value>, mesh: &Mesh, place: &Place<'_>) {
    let [inside, ring] = mesh.teeth;
    if mesh.form == MeshForm::Internal && ring <= inside {
        checker.note(
            &place.field("teeth"),
            Problem::RingTooSmall {
                ring,
                inside,
                inside_is: "pinion",
            },
        );
    }
    let always = match mesh.form {
        MeshForm::External => Sense::Opposite,
        MeshForm::Internal => Sense::Same,
        MeshForm::Bevel => return,
    };
    if fields.get("sense").is_some_and(|typed| typed != always.word()) {
        let (form, sense) = if always == Sense::Opposite {
            ("external", "opposite ways")
        } else {
            ("internal", "the same way")
        };
        checker.note(&place.field("sense"), Problem::SenseNotFree { form, sense });
    }
}

fn check_planetary(checker: &mut Checker<'_>, set: &Planetary, place: &Place<'_>) {
    if set.ring_teeth <= set.sun_teeth {
        let problem = Problem::RingTooSmall {
            ring: set.ring_teeth,
            inside: set.sun_teeth,
            inside_is: "sun",
        };
        checker.note(&place.field("teeth"), problem);
    }
}

fn check_stepped(checker: &mut Checker<'_>, fields: &Map<String, Value>, set: &Stepped, place: &Place<'_>) {
    let SteppedRatio::Teeth {
        first,
        second,
        first_is_ring,
        second_is_ring,
    } = set.ratio
    else {
        if fields.contains_key("rings") {
            checker.note(&place.field("rings"), Problem::OnlyWith { other: "teeth" });
        }
        return;
    };
    let teeth = place.field("teeth");
    let pairs = [
        (first_is_ring, first[0], first[1], 0),
        (second_is_ring, second[1], second[0], 1),
    ];
    for (is_ring, ring, inside, pair) in pairs {
        if is_ring && ring <= inside {
            checker.note(
                &teeth.entry(pair),
                Problem::RingTooSmall {
                    ring,
                    inside,
                    inside_is: "planet",
                },
            );
        }
    }
}

/// `Kt = Ts / (Is − I0)` and `Ke = (Vn − I0 R) / w0` need a stall current above the no-load current.
fn check_motor(checker: &mut Checker<'_>, motor: &Motor, place: &Place<'_>) {
    if motor.stall_a <= motor.no_load_a {
        let problem = Problem::StallCurrentTooLow {
            stall_a: motor.stall_a,
            no_load_a: motor.no_load_a,
        };
        checker.note(&place.field("stall_a"), problem);
    }
}
