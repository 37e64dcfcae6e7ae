//! Fields of elements that join two shafts at a fixed ratio.

use super::super::fields::{Field, Need, Rule, Table, optional, required, with_default};
use super::super::tables::{LENGTH_MM, NOT_NEGATIVE};
use super::{
    A, AT, B, EFFICIENCY, FRICTION, ID, KIND, LOSSES, MATERIAL_PAIR, TEETH, TOOTH_FRICTION, TWO_TEETH, table,
};
use crate::document::{Hand, MeshForm, Sense, WheelForm};
use crate::problem::{Counted, Range};
use crate::words::MATERIAL_WORDS;

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

pub(super) static MESH: Table = Table {
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

pub(super) static CHAIN: Table = table(
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

pub(super) static BELT: Table = table(
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

pub(super) static FRICTION_WHEEL: Table = table(
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

pub(super) static WORM: Table = table(
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
