//! What binds several fields of one element to each other; each field by itself has passed the table by now.

use serde_json::{Map, Value};

use super::check::Checker;
use super::fields::{Rule, Table};
use super::place::Place;
use super::read;
use crate::document::{
    DrivenAxles, ElementKind, FRAME, FrictionWheel, Mesh, MeshForm, Motor, Planetary, Sense, Stepped,
    SteppedRatio, TorqueSwitch, Vehicle, WheelForm,
};
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
        ElementKind::FrictionWheel(wheels) => check_friction_wheel(checker, &wheels, place),
        ElementKind::Worm(_) => {
            only_with(checker, fields, &["collar_mm"], "wheel_mm", place);
            only_with(checker, fields, &["collar_friction"], "collar_mm", place);
        }
        ElementKind::Differential(_) => only_with(checker, fields, FROM_FRICTION, "teeth", place),
        ElementKind::TorqueSwitch(switch) => check_switch(checker, &switch, place),
        ElementKind::Vehicle(vehicle) => check_vehicle(checker, &vehicle, place),
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
        only_with(checker, fields, &["rings"], "teeth", place);
        only_with(checker, fields, FROM_FRICTION, "teeth", place);
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

/// Losses that follow from friction and so need tooth counts.
const FROM_FRICTION: &[&str] = &["friction", "material_pair"];

/// Fields that mean something only beside another one.
fn only_with(
    checker: &mut Checker<'_>,
    fields: &Map<String, Value>,
    these: &[&str],
    other: &'static str,
    place: &Place<'_>,
) {
    if fields.contains_key(other) {
        return;
    }
    for name in these.iter().filter(|name| fields.contains_key(**name)) {
        checker.note(&place.field(name), Problem::OnlyWith { other });
    }
}

fn check_friction_wheel(checker: &mut Checker<'_>, wheels: &FrictionWheel, place: &Place<'_>) {
    let [inner_mm, outer_mm] = wheels.diameters_mm;
    if wheels.form == WheelForm::Internal && outer_mm <= inner_mm {
        let problem = Problem::OuterWheelTooSmall { outer_mm, inner_mm };
        checker.note(&place.field("diameters_mm"), problem);
    }
}

fn check_switch(checker: &mut Checker<'_>, switch: &TorqueSwitch, place: &Place<'_>) {
    let (up_nm, down_nm) = (switch.up_nm, switch.down_nm);
    if down_nm >= up_nm {
        checker.note(
            &place.field("down_nm"),
            Problem::SwitchDownTooHigh { up_nm, down_nm },
        );
    }
    if switch.from == switch.to {
        let position = switch.to.to_string();
        checker.note(&place.field("to"), Problem::SwitchStays { position });
    }
}

fn check_vehicle(checker: &mut Checker<'_>, vehicle: &Vehicle, place: &Place<'_>) {
    if vehicle.rear_share.is_some() && vehicle.driven != DrivenAxles::All {
        let problem = Problem::OnlyWhere {
            other: "driven",
            word: DrivenAxles::All.word(),
        };
        checker.note(&place.field("rear_share"), problem);
    }
}
