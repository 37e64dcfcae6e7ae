//! The field table, second half: every kind of element.

use super::fields::{Either, Field, Kind, Need, Rule, Table, optional, required, with_default};
use super::tables::{LENGTH_MM, NOT_NEGATIVE, PAIR, PLACE, SIGNED};
use crate::document::{DrivenAxles, Hand, LiftSense, MeshForm, OneWaySense, Pins, Planets, Sense, WheelForm};
use crate::problem::{Counted, Range};
use crate::words::MATERIAL_WORDS;

/// Every kind of element, in the order of the trade's families: mesh, branch, hold, drive, load.
pub static KINDS: &[Kind] = &[
    kind("mesh", "Two gears in contact.", &MESH),
    kind("chain", "Chain or toothed belt over two sprockets.", &CHAIN),
    kind("belt", "Plain belt over two pulleys.", &BELT),
    kind(
        "friction_wheel",
        "Two wheels pressed together, one driving the other by friction.",
        &FRICTION_WHEEL,
    ),
    kind("worm", "Worm and worm wheel.", &WORM),
    kind(
        "differential",
        "Bevel differential: the carrier turns at the mean of its sides.",
        &DIFFERENTIAL,
    ),
    kind(
        "planetary",
        "Planetary set with sun, ring and carrier.",
        &PLANETARY,
    ),
    kind(
        "stepped",
        "Two central gears through stepped planets on a carrier.",
        &STEPPED,
    ),
    kind(
        "clutch",
        "Dog clutch, engaged in the positions that list it.",
        &CLUTCH,
    ),
    kind("brake", "Brake, on in the positions that list it.", &BRAKE),
    kind(
        "one_way",
        "One-way clutch: a drives b one way round and is overrun the other; with a the frame, a backstop.",
        &ONE_WAY,
    ),
    kind("slip_clutch", "Clutch that slips above a torque.", &SLIP_CLUTCH),
    kind(
        "torque_switch",
        "Coupling that shifts by the torque through it.",
        &TORQUE_SWITCH,
    ),
    kind("motor", "DC motor by its data sheet.", &MOTOR),
    kind("crank", "Hand crank, or any source of given speed.", &CRANK),
    kind("load", "Torque that resists rotation.", &LOAD),
    kind("vehicle", "Vehicle on its driven wheels.", &VEHICLE),
    kind("winch", "Drum that winds a rope.", &WINCH),
];

/// The kind of this name.
#[must_use]
pub fn kind_named(name: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|kind| kind.name == name)
}

const fn kind(name: &'static str, about: &'static str, table: &'static Table) -> Kind {
    Kind { name, about, table }
}

const fn table(on: &'static str, fields: &'static [Field]) -> Table {
    Table {
        on,
        fields,
        either: &[],
    }
}

const ID: Field = required("id", Rule::Id, "Its name.");
const KIND: Field = required("kind", Rule::Kind, "What it is.");
const AT: Field = optional(
    "at",
    PLACE,
    "Where its symbol is drawn; left out: between its shafts.",
);
const A: Field = required("a", Rule::ShaftOrFrame, "First shaft.");
const B: Field = required("b", Rule::ShaftOrFrame, "Second shaft.");
const CARRIER: Field = required("carrier", Rule::ShaftOrFrame, "Shaft of the carrier.");
const LOADED_SHAFT: Field = required("shaft", Rule::Shaft, "Its shaft.");

const TEETH: Rule = Rule::Count(Counted::Teeth);
const TWO_TEETH: Rule = Rule::List {
    of: &TEETH,
    least: 2,
    most: 2,
};
const EFFICIENCY: Rule = Rule::Number(Range::above(0.0, 1.0));
const FRICTION: Rule = Rule::Number(Range::closed(0.0, 10.0));
const PRESSURE_ANGLE: Field = with_default(
    "pressure_angle_deg",
    Rule::Number(Range::below(0.0, 45.0)),
    Need::Number(20.0),
    "Normal pressure angle in degrees.",
);
const PAIR_EFFICIENCY: Field = optional(
    "efficiency",
    EFFICIENCY,
    "Power out over power in, above 0 and at most 1; left out: lossless.",
);
const BASIC_EFFICIENCY: Field = optional(
    "efficiency",
    EFFICIENCY,
    "Efficiency with the carrier held; left out: lossless.",
);
const PIN_FRICTION: Field = with_default(
    "pin_friction",
    FRICTION,
    Need::Number(Pins::NOT_GIVEN.friction),
    "Friction of the planets on their pins; counts where no efficiency is typed.",
);
const PIN_RATIO: Field = with_default(
    "pin_ratio",
    Rule::Number(Range::closed(0.0, 1.0)),
    Need::Number(Pins::USUAL_RATIO),
    "Radius of a pin over pitch radius of its planet.",
);
const TOOTH_FRICTION: Field = optional(
    "friction",
    FRICTION,
    "Coefficient of tooth friction; the loss follows from the tooth counts.",
);
const MATERIAL_PAIR: Field = optional(
    "material_pair",
    PAIR,
    "Materials of the teeth; the loss follows from the range of their friction and the tooth counts.",
);
const LOSSES: &[Either] = &[LOSS];
const LOSS: Either = Either {
    fields: &["efficiency", "friction", "material_pair"],
    required: false,
};
const TWO_DIAMETERS: Rule = Rule::List {
    of: &LENGTH_MM,
    least: 2,
    most: 2,
};
const SLIP: Field = optional(
    "slip_nm",
    NOT_NEGATIVE,
    "Torque at a above which it slips, in N·m; left out: never.",
);
const PRETENSION: Field = with_default(
    "pretension_n",
    NOT_NEGATIVE,
    Need::Number(0.0),
    "Pull in each strand at rest, in N.",
);
/// What a data sheet's number may be: never zero, since the motor's law divides by it.
const SHEET: Rule = Rule::Number(Range::closed(1e-9, 1e9));
const LIFTS: Rule = Rule::Word(LiftSense::WORDS);

static MESH: Table = Table {
    on: "a mesh",
    fields: &[
        ID,
        KIND,
        A,
        B,
        required("teeth", TWO_TEETH, "Tooth counts on a and b."),
        with_default(
            "form",
            Rule::Word(MeshForm::WORDS),
            Need::Word("external"),
            "Form; internal: b is the ring.",
        ),
        optional(
            "sense",
            Rule::Word(Sense::WORDS),
            "Bevel mesh only: which way round; left out: opposite.",
        ),
        PAIR_EFFICIENCY,
        TOOTH_FRICTION,
        MATERIAL_PAIR,
        optional("module_mm", LENGTH_MM, "Normal module in mm."),
        PRESSURE_ANGLE,
        optional(
            "material",
            Rule::Word(&MATERIAL_WORDS),
            "Material of the weaker gear, for the strength of its teeth.",
        ),
        optional("width_mm", LENGTH_MM, "Face width in mm."),
        optional(
            "skip_nm",
            NOT_NEGATIVE,
            "Measured torque at a at which teeth skip, in N·m.",
        ),
        AT,
    ],
    either: LOSSES,
};

static CHAIN: Table = table(
    "a chain",
    &[
        ID,
        KIND,
        A,
        B,
        required("teeth", TWO_TEETH, "Teeth of the sprockets on a and b."),
        PAIR_EFFICIENCY,
        optional(
            "pitch_mm",
            LENGTH_MM,
            "Pitch of the chain in mm; its pull loads plain bearings.",
        ),
        PRETENSION,
        AT,
    ],
);

static BELT: Table = table(
    "a belt",
    &[
        ID,
        KIND,
        A,
        B,
        required(
            "diameters_mm",
            TWO_DIAMETERS,
            "Diameters of the pulleys on a and b in mm.",
        ),
        with_default(
            "crossed",
            Rule::Flag,
            Need::Off,
            "Crossed: the pulleys turn opposite ways.",
        ),
        PAIR_EFFICIENCY,
        SLIP,
        PRETENSION,
        AT,
    ],
);

static FRICTION_WHEEL: Table = table(
    "a friction wheel",
    &[
        ID,
        KIND,
        A,
        B,
        required(
            "diameters_mm",
            TWO_DIAMETERS,
            "Diameters of the wheels on a and b where they touch, in mm.",
        ),
        with_default(
            "form",
            Rule::Word(WheelForm::WORDS),
            Need::Word("external"),
            "Form; internal: a runs inside b.",
        ),
        PAIR_EFFICIENCY,
        SLIP,
        with_default(
            "press_n",
            NOT_NEGATIVE,
            Need::Number(0.0),
            "Force that presses the wheels together, in N.",
        ),
        AT,
    ],
);

static WORM: Table = table(
    "a worm",
    &[
        ID,
        KIND,
        required("worm", Rule::ShaftOrFrame, "Shaft of the worm."),
        required("wheel", Rule::ShaftOrFrame, "Shaft of the worm wheel."),
        required("starts", Rule::Count(Counted::Starts), "Threads on the worm."),
        required("teeth", TEETH, "Teeth of the worm wheel."),
        with_default(
            "hand",
            Rule::Word(Hand::WORDS),
            Need::Word("right"),
            "Hand of the thread; right: the wheel turns positive for a positive worm.",
        ),
        required(
            "lead_angle_deg",
            Rule::Number(Range::between(0.0, 90.0)),
            "Lead angle in degrees.",
        ),
        required("friction", FRICTION, "Coefficient of friction."),
        PRESSURE_ANGLE,
        optional("wheel_mm", LENGTH_MM, "Pitch diameter of the wheel in mm."),
        optional(
            "collar_mm",
            LENGTH_MM,
            "Mean diameter of the thrust collar of the worm in mm; left out: no friction there.",
        ),
        optional(
            "collar_friction",
            FRICTION,
            "Coefficient of friction of the collar; left out: that of the thread.",
        ),
        AT,
    ],
);

static DIFFERENTIAL: Table = Table {
    on: "a differential",
    fields: &[
        ID,
        KIND,
        required(
            "sides",
            Rule::List {
                of: &Rule::ShaftOrFrame,
                least: 2,
                most: 2,
            },
            "Shafts of the two side gears.",
        ),
        CARRIER,
        optional("teeth", Rule::Object(&SIDE_AND_PLANET), "Tooth counts."),
        BASIC_EFFICIENCY,
        TOOTH_FRICTION,
        MATERIAL_PAIR,
        PIN_FRICTION,
        PIN_RATIO,
        AT,
    ],
    either: LOSSES,
};

static SIDE_AND_PLANET: Table = table(
    "the teeth of a differential",
    &[
        required("side", TEETH, "Teeth of either side gear."),
        required("planet", TEETH, "Teeth of each planet."),
    ],
);

static PLANETARY: Table = Table {
    on: "a planetary set",
    fields: &[
        ID,
        KIND,
        required("sun", Rule::ShaftOrFrame, "Shaft of the sun."),
        required("ring", Rule::ShaftOrFrame, "Shaft of the ring."),
        CARRIER,
        required("teeth", Rule::Object(&SUN_AND_RING), "Tooth counts."),
        with_default(
            "planets",
            Rule::Word(Planets::WORDS),
            Need::Word("single"),
            "One planet between sun and ring, or two in mesh.",
        ),
        BASIC_EFFICIENCY,
        TOOTH_FRICTION,
        MATERIAL_PAIR,
        PIN_FRICTION,
        PIN_RATIO,
        optional(
            "count",
            Rule::Count(Counted::Planets),
            "How many planets, or pairs of planets.",
        ),
        AT,
    ],
    either: LOSSES,
};

static SUN_AND_RING: Table = table(
    "the teeth of a planetary set",
    &[
        required("sun", TEETH, "Teeth of the sun."),
        required("ring", TEETH, "Teeth of the ring."),
    ],
);

static STEPPED: Table = Table {
    on: "a stepped set",
    fields: &[
        ID,
        KIND,
        required("first", Rule::ShaftOrFrame, "Shaft of the first central gear."),
        required("second", Rule::ShaftOrFrame, "Shaft of the second central gear."),
        CARRIER,
        optional(
            "basic_ratio",
            Rule::List {
                of: &Rule::Count(Counted::RatioPart),
                least: 2,
                most: 2,
            },
            "Speed of first over speed of second, both against the carrier, as [numerator, denominator].",
        ),
        optional(
            "teeth",
            Rule::List {
                of: &TWO_TEETH,
                least: 2,
                most: 2,
            },
            "[[first, its planet], [second's planet, second]].",
        ),
        with_default(
            "rings",
            Rule::Names {
                of: &Rule::Word(&["first", "second"]),
                least: 0,
                most: 2,
            },
            Need::Empty,
            "Which central gears are ring gears.",
        ),
        BASIC_EFFICIENCY,
        TOOTH_FRICTION,
        MATERIAL_PAIR,
        PIN_FRICTION,
        PIN_RATIO,
        AT,
    ],
    either: &[
        Either {
            fields: &["basic_ratio", "teeth"],
            required: true,
        },
        LOSS,
    ],
};

static CLUTCH: Table = table("a clutch", &[ID, KIND, A, B, AT]);

static BRAKE: Table = table(
    "a brake",
    &[
        ID,
        KIND,
        required("shaft", Rule::ShaftOrFrame, "The shaft it holds."),
        optional(
            "limit_nm",
            NOT_NEGATIVE,
            "Largest torque it holds, in N·m; left out: as much as needed.",
        ),
        AT,
    ],
);

static ONE_WAY: Table = table(
    "a one-way clutch",
    &[
        ID,
        KIND,
        A,
        B,
        with_default(
            "sense",
            Rule::Word(OneWaySense::WORDS),
            Need::Word("positive"),
            "Which way round a drives b; positive: a never turns faster than b.",
        ),
        AT,
    ],
);

static SLIP_CLUTCH: Table = table(
    "a slip clutch",
    &[
        ID,
        KIND,
        A,
        B,
        required("limit_nm", NOT_NEGATIVE, "Torque above which it slips, in N·m."),
        AT,
    ],
);

static TORQUE_SWITCH: Table = table(
    "a torque switch",
    &[
        ID,
        KIND,
        A,
        B,
        required("up_nm", SIGNED, "Torque above which it shifts up, in N·m."),
        required(
            "down_nm",
            SIGNED,
            "Torque below which it shifts back, in N·m; less than up_nm.",
        ),
        required("from", Rule::Position, "The position it shifts up from."),
        required("to", Rule::Position, "The position it shifts up to."),
        AT,
    ],
);

static MOTOR: Table = table(
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

static CRANK: Table = table(
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

static LOAD: Table = table(
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

static VEHICLE: Table = table(
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

static WINCH: Table = Table {
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
