//! Fields of sources and loads.

use layshaft_layout::{DrivenAxles, Vehicle, WinchLoad};
use layshaft_quantity::QuantityKind;

use super::{Edit, Instead, Spec, count, end_shaft, number, spec};

pub fn motor() -> Vec<Spec> {
    let volts = |optional| number(QuantityKind::Voltage, "V", 0.5, optional);
    let amps = || number(QuantityKind::Current, "A", 0.01, false);
    vec![
        spec(
            "nominal_v",
            "Nominal voltage",
            "The voltage that the data sheet is for",
            volts(false),
        ),
        spec(
            "no_load_rpm",
            "No-load speed",
            "At nominal voltage with nothing on the shaft",
            number(QuantityKind::AngularSpeed, "rpm", 10.0, false),
        ),
        spec(
            "no_load_a",
            "No-load current",
            "At nominal voltage with nothing on the shaft",
            amps(),
        ),
        spec(
            "stall_nm",
            "Stall torque",
            "At nominal voltage, held still",
            number(QuantityKind::Torque, "N·m", 0.01, false),
        ),
        spec(
            "stall_a",
            "Stall current",
            "At nominal voltage, held still",
            amps(),
        ),
        spec(
            "supply_v",
            "Supply",
            "The voltage that you run it on; left empty: nominal",
            volts(true),
        ),
        spec(
            "supply_ohm",
            "Supply resistance",
            "Of battery and leads",
            number(QuantityKind::Resistance, "Ω", 0.1, false),
        ),
        end_shaft("shaft"),
        plain(
            "battery_mah",
            "Battery",
            "Its charge; left empty: not known",
            "mAh",
            100.0,
            true,
        ),
        plain(
            "heat_limit_w",
            "Heat it stands",
            "What it can lose for long; left empty: not known",
            "W",
            1.0,
            true,
        ),
        plain(
            "winding_c",
            "Winding",
            "Its temperature; the data sheet is for 20 °C, and a hot motor pulls less",
            "°C",
            10.0,
            false,
        ),
        plain(
            "rotor_kgm2",
            "Inertia of the rotor",
            "As felt at this shaft; counts in runs only",
            "kg·m²",
            1e-6,
            false,
        ),
    ]
}

/// A number without units to choose from, in the fold.
fn plain(path: &str, label: &str, hint: &'static str, unit: &'static str, step: f64, optional: bool) -> Spec {
    spec(
        path,
        label,
        hint,
        number(QuantityKind::Plain, unit, step, optional),
    )
    .seldom()
}

pub fn crank() -> Vec<Spec> {
    vec![
        spec(
            "speed_rpm",
            "Speed",
            "Its sign is the way round",
            number(QuantityKind::AngularSpeed, "rpm", 5.0, false),
        ),
        spec(
            "limit_nm",
            "Torque limit",
            "The most it can give; left empty: as much as is needed",
            number(QuantityKind::Torque, "N·m", 0.1, true),
        ),
        end_shaft("shaft"),
    ]
}

pub fn load() -> Vec<Spec> {
    let drag = |unit, step| number(QuantityKind::Plain, unit, step, false);
    vec![
        spec(
            "torque_nm",
            "Torque",
            "Resists turning, whichever way",
            number(QuantityKind::Torque, "N·m", 0.05, false),
        ),
        spec(
            "viscous_nms",
            "Viscous",
            "Torque for one radian a second",
            drag("N·m·s", 0.001),
        ),
        spec(
            "fan_nms2",
            "Fan",
            "Torque for the square of one radian a second",
            drag("N·m·s²", 0.0001),
        ),
        end_shaft("shaft"),
        plain(
            "inertia_kgm2",
            "Moment of inertia",
            "Counts in runs only",
            "kg·m²",
            1e-5,
            false,
        ),
    ]
}

const SENSES_OF_LOADS: &[(&str, &str)] = &[
    ("drive", "As the drive turns it"),
    ("positive", "Positive"),
    ("negative", "Negative"),
];

pub fn winch(load: WinchLoad) -> Vec<Spec> {
    let length = |step| number(QuantityKind::Length, "mm", step, false);
    let hanging = match load {
        WinchLoad::Mass(_) => spec(
            "mass_kg",
            "Hanging mass",
            "What it lifts",
            number(QuantityKind::Mass, "kg", 0.5, false),
        ),
        WinchLoad::Pull(_) => spec(
            "pull_n",
            "Line pull",
            "What pulls on the rope",
            number(QuantityKind::Force, "N", 5.0, false),
        ),
    };
    vec![
        hanging,
        spec("drum_mm", "Drum", "Its bare diameter", length(1.0)),
        spec("rope_mm", "Rope", "Its diameter", length(0.5)),
        count("layers", "Layer", "The layer being wound, 1 on the bare drum"),
        spec(
            "lifts",
            "Lifts when turned",
            "Which way round winds the rope up",
            Edit::Choice(SENSES_OF_LOADS),
        ),
        end_shaft("shaft"),
    ]
}

/// Where the weight of a vehicle sits, and how its axles share the torque.
fn stance(driven: DrivenAxles) -> Vec<Spec> {
    const AXLES: &[(&str, &str)] = &[("all", "All"), ("rear", "Rear"), ("front", "Front")];
    let length = |path: &str, label: &str, hint| {
        spec(path, label, hint, number(QuantityKind::Length, "mm", 5.0, true)).seldom()
    };
    let mut fields = vec![
        spec(
            "driven",
            "Driven axles",
            "For grip and tipping",
            Edit::Choice(AXLES),
        )
        .seldom(),
        length(
            "wheelbase_mm",
            "Wheelbase",
            "Between the axles; left empty: not known",
        ),
        length(
            "cg_height_mm",
            "Height of the weight",
            "Of the centre of gravity over the ground; left empty: not known",
        ),
        length(
            "cg_from_rear_mm",
            "Weight before the rear axle",
            "Of the centre of gravity; left empty: not known",
        ),
    ];
    if driven == DrivenAxles::All {
        let share = spec(
            "rear_share",
            "Rear share of the torque",
            "What an open centre differential gives the rear axle, such as 0.5; left empty: axles joined rigidly",
            number(QuantityKind::Share, "", 0.05, true),
        );
        fields.insert(1, share.seldom());
    }
    fields
}

pub fn vehicle(vehicle: &Vehicle) -> Vec<Spec> {
    let wheel_shafts = vehicle.shafts.len();
    let length = |optional| number(QuantityKind::Length, "mm", 5.0, optional);
    let mut fields = vec![
        spec(
            "mass_kg",
            "Mass",
            "With everything on board",
            number(QuantityKind::Mass, "kg", 0.1, false),
        ),
        spec(
            "slope_deg",
            "Slope",
            "What it is to climb",
            number(QuantityKind::Angle, "°", 1.0, false),
        ),
        spec("wheel_mm", "Wheels", "Their diameter", length(false)),
        spec(
            "rolling",
            "Rolling resistance",
            "Coefficient: 0.02 hard wheels on a floor, 0.1 on carpet",
            number(QuantityKind::Plain, "", 0.005, false),
        ),
        spec(
            "tyre_friction",
            "Grip",
            "Friction between tyre and ground; left empty: no limit",
            number(QuantityKind::Plain, "", 0.05, true),
        ),
        spec(
            "forward",
            "Forward when turned",
            "Which way round drives it on",
            Edit::Choice(SENSES_OF_LOADS),
        ),
    ];
    // One more than there are, so that a wheel can be added.
    for n in 0..=wheel_shafts {
        let (label, hint, instead) = match n {
            0 => (
                "First driven wheel".to_owned(),
                "The shaft that it sits on",
                Instead::Nothing,
            ),
            n if n == wheel_shafts => (
                "One more wheel".to_owned(),
                "Choose a shaft to drive another wheel",
                Instead::None,
            ),
            n => (
                format!("Driven wheel {}", n + 1),
                "Choose no shaft to take it off",
                Instead::None,
            ),
        };
        fields.push(spec(&format!("shafts.{n}"), &label, hint, Edit::Shaft(instead)));
    }
    fields.extend(stance(vehicle.driven));
    fields
}
