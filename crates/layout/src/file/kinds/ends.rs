//! Fields of the ends of a train: sources and loads.

use super::super::fields::{Either, Field, Need, Rule, Table, optional, required, with_default};
use super::super::tables::{LENGTH_MM, NOT_NEGATIVE, SIGNED};
use super::{AT, FRICTION, ID, KIND, table};
use crate::document::{DrivenAxles, LiftSense};
use crate::problem::{Counted, Range};

const LOADED_SHAFT: Field = required("shaft", Rule::Shaft, "Its shaft.");
/// What a data sheet's number may be: never zero, since the motor's law divides by it.
const SHEET: Rule = Rule::Number(Range::closed(1e-9, 1e9));
const LIFTS: Rule = Rule::Word(LiftSense::WORDS);

pub(super) static MOTOR: Table = table(
    "a motor",
    &[
        ID,
        KIND,
        LOADED_SHAFT,
        required("nominal_v", SHEET, "Voltage that the data sheet is for, in V."),
        required("no_load_rpm", SHEET, "Speed without load in rpm."),
        required("no_load_a", NOT_NEGATIVE, "Current without load in A."),
        required("stall_nm", SHEET, "Torque when held still in N·m."),
        required("stall_a", SHEET, "Current when held still in A."),
        optional(
            "supply_v",
            SIGNED,
            "Supply voltage in V; left out: the nominal one.",
        ),
        with_default(
            "supply_ohm",
            NOT_NEGATIVE,
            Need::Number(0.0),
            "Resistance of supply and leads in Ω.",
        ),
        with_default(
            "rotor_kgm2",
            NOT_NEGATIVE,
            Need::Number(0.0),
            "Moment of inertia of the rotor, as felt at this shaft, in kg·m².",
        ),
        with_default(
            "winding_c",
            Rule::Number(Range::closed(-60.0, 250.0)),
            Need::Number(20.0),
            "Temperature of the winding in °C; the data sheet is for 20 °C.",
        ),
        optional(
            "battery_mah",
            Rule::Number(Range::above(0.0, 1e9)),
            "Charge of the battery in mAh.",
        ),
        optional(
            "heat_limit_w",
            Rule::Number(Range::above(0.0, 1e9)),
            "Heat that it stands for long, in W.",
        ),
        AT,
    ],
);

pub(super) static CRANK: Table = table(
    "a crank",
    &[
        ID,
        KIND,
        LOADED_SHAFT,
        required("speed_rpm", SIGNED, "Speed in rpm; its sign is the sense."),
        optional(
            "limit_nm",
            NOT_NEGATIVE,
            "Largest torque in N·m; left out: as much as needed.",
        ),
        AT,
    ],
);

pub(super) static LOAD: Table = table(
    "a load",
    &[
        ID,
        KIND,
        LOADED_SHAFT,
        with_default(
            "torque_nm",
            SIGNED,
            Need::Number(0.0),
            "Constant torque against the rotation in N·m.",
        ),
        with_default(
            "viscous_nms",
            NOT_NEGATIVE,
            Need::Number(0.0),
            "Torque per speed in N·m·s.",
        ),
        with_default(
            "fan_nms2",
            NOT_NEGATIVE,
            Need::Number(0.0),
            "Torque per square of speed in N·m·s².",
        ),
        with_default(
            "inertia_kgm2",
            NOT_NEGATIVE,
            Need::Number(0.0),
            "Moment of inertia in kg·m².",
        ),
        AT,
    ],
);

pub(super) static VEHICLE: Table = table(
    "a vehicle",
    &[
        ID,
        KIND,
        required(
            "shafts",
            Rule::Names {
                of: &Rule::Shaft,
                least: 1,
                most: 1000,
            },
            "Shafts of the driven wheels.",
        ),
        required("wheel_mm", LENGTH_MM, "Diameter of the wheels in mm."),
        required("mass_kg", NOT_NEGATIVE, "Mass with all on board in kg."),
        with_default(
            "rolling",
            FRICTION,
            Need::Number(0.0),
            "Coefficient of rolling resistance.",
        ),
        with_default(
            "slope_deg",
            Rule::Number(Range::closed(-90.0, 90.0)),
            Need::Number(0.0),
            "Slope to climb in degrees.",
        ),
        optional(
            "tyre_friction",
            FRICTION,
            "Friction between tyre and ground; left out: no limit.",
        ),
        optional("wheelbase_mm", LENGTH_MM, "Distance between the axles in mm."),
        optional(
            "cg_height_mm",
            Rule::Number(Range::closed(0.0, 100_000.0)),
            "Height of the centre of gravity in mm.",
        ),
        optional(
            "cg_from_rear_mm",
            Rule::Number(Range::closed(-100_000.0, 100_000.0)),
            "Centre of gravity before the rear axle in mm.",
        ),
        with_default(
            "driven",
            Rule::Word(DrivenAxles::WORDS),
            Need::Word("all"),
            "Driven axles.",
        ),
        optional(
            "rear_share",
            Rule::Number(Range::closed(0.0, 1.0)),
            "All axles driven only: share of the torque that an open centre differential gives the rear; left out: \
             the axles are joined rigidly.",
        ),
        with_default(
            "forward",
            LIFTS,
            Need::Word("drive"),
            "Which sense of the wheels is forward.",
        ),
        AT,
    ],
);

pub(super) static WINCH: Table = Table {
    on: "a winch",
    fields: &[
        ID,
        KIND,
        LOADED_SHAFT,
        required("drum_mm", LENGTH_MM, "Diameter of the drum in mm."),
        with_default(
            "rope_mm",
            Rule::Number(Range::closed(0.0, 100_000.0)),
            Need::Number(0.0),
            "Diameter of the rope in mm.",
        ),
        with_default(
            "layers",
            Rule::Count(Counted::Layers),
            Need::Number(1.0),
            "Layer that is being wound; 1: on the bare drum.",
        ),
        optional("mass_kg", NOT_NEGATIVE, "Mass that hangs on the rope in kg."),
        optional("pull_n", NOT_NEGATIVE, "Pull of the rope in N."),
        with_default(
            "lifts",
            LIFTS,
            Need::Word("drive"),
            "Which sense lifts; drive: the sense that the drive gives this shaft in the first position.",
        ),
        AT,
    ],
    either: &[Either {
        fields: &["mass_kg", "pull_n"],
        required: true,
    }],
};
