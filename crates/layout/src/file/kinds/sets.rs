//! Fields of elements with a carrier.

use super::super::fields::{Either, Field, Need, Rule, Table, optional, required, with_default};
use super::{
    AT, EFFICIENCY, FRICTION, ID, KIND, LOSS, LOSSES, MATERIAL_PAIR, TEETH, TOOTH_FRICTION, TWO_TEETH, table,
};
use crate::document::{Pins, Planets};
use crate::problem::{Counted, Range};

const CARRIER: Field = required("carrier", Rule::ShaftOrFrame, "Shaft of the carrier.");
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

pub(super) static DIFFERENTIAL: Table = Table {
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

pub(super) static PLANETARY: Table = Table {
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

pub(super) static STEPPED: Table = Table {
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
