//! The field table, first half: the top level, shafts and positions, with the caps on their numbers.

use super::fields::{Field, Need, Rule, Table, optional, required, with_default};
use crate::problem::{Counted, Range};
use crate::words::PAIR_WORDS;

/// The file version that is written.
pub const VERSION: u64 = 1;
/// Longest text that is read, in bytes.
pub const MOST_BYTES: usize = 32 * 1024 * 1024;
/// Deepest nesting of lists and objects that is read.
pub const MOST_LEVELS: usize = 64;
/// Longest number that is read, in characters; seventeen digits name every double.
pub const MOST_DIGITS: usize = 64;
/// Most shafts, and most elements.
pub const MOST_THINGS: usize = 200_000;
/// Most shift positions.
pub const MOST_POSITIONS: usize = 1000;
/// Most groups.
pub const MOST_GROUPS: usize = 10_000;
/// Most stretches of a course.
pub const MOST_STRETCHES: usize = 10_000;
/// Most JSON values in one text; two hundred thousand meshes with their shafts have three million.
pub const MOST_VALUES: usize = 4_000_000;
/// Most problems that are listed for one text.
pub const MOST_ERRORS: usize = 10_000;
/// Longest id, in characters.
pub const MOST_ID_CHARACTERS: usize = 200;

/// Any torque, in either sense; the limit only keeps sums finite.
pub(super) const SIGNED: Rule = Rule::Number(Range::closed(-1e9, 1e9));
/// What cannot be negative.
pub(super) const NOT_NEGATIVE: Rule = Rule::Number(Range::closed(0.0, 1e9));
/// A length that something solid has, in mm: from a thousandth to a hundred metres.
pub(super) const LENGTH_MM: Rule = Rule::Number(Range::closed(0.001, 100_000.0));
/// The word for a pair of materials.
pub(super) const PAIR: Rule = Rule::Word(&PAIR_WORDS);
/// A place on the drawing.
pub(super) const PLACE: Rule = Rule::List {
    of: &COORDINATE,
    least: 2,
    most: 2,
};
const COORDINATE: Rule = Rule::Number(Range::closed(-1e7, 1e7));

/// The top level of the file.
pub static TOP: Table = Table {
    on: "a layout",
    fields: TOP_FIELDS,
    either: &[],
};

static A_SHAFT: Rule = Rule::Object(&SHAFT);
static A_POSITION: Rule = Rule::Object(&POSITION);
static A_GROUP: Rule = Rule::Object(&GROUP);

static TOP_FIELDS: &[Field] = &[
    required(
        "layshaft",
        Rule::Count(Counted::Counter),
        "Version of the file; this is version 1.",
    ),
    optional("title", Rule::Text(1000), "Name of the layout, for people."),
    optional("notes", Rule::Text(1_000_000), "Free text of its owner."),
    optional(
        "drive",
        Rule::Shaft,
        "The shaft whose ratio is 1; left out: the first motor's or crank's, else the first.",
    ),
    optional(
        "last_number",
        Rule::Count(Counted::Counter),
        "Highest number ever used in a made-up id.",
    ),
    optional(
        "material_pair",
        PAIR,
        "Material pair of meshes, and of sets with known teeth, that give no loss of their own.",
    ),
    with_default(
        "shafts",
        Rule::List {
            of: &A_SHAFT,
            least: 0,
            most: MOST_THINGS,
        },
        Need::Empty,
        "The shafts.",
    ),
    with_default(
        "elements",
        Rule::List {
            of: &Rule::Element,
            least: 0,
            most: MOST_THINGS,
        },
        Need::Empty,
        "What joins, drives, holds and loads the shafts.",
    ),
    with_default(
        "positions",
        Rule::List {
            of: &A_POSITION,
            least: 0,
            most: MOST_POSITIONS,
        },
        Need::Empty,
        "Shift positions; left out or empty: one position `only` with nothing engaged.",
    ),
    with_default(
        "groups",
        Rule::List {
            of: &A_GROUP,
            least: 0,
            most: MOST_GROUPS,
        },
        Need::Empty,
        "Named sub-assemblies; a shaft or element is in one of them at most.",
    ),
    optional(
        "plan",
        Rule::Object(&super::plan::PLAN),
        "What the plan needs beyond `axis_mm` of the shafts.",
    ),
    optional("bin", Rule::Carried, "Gears at hand."),
    optional("tests", Rule::Carried, "Bench tests."),
    with_default(
        "course",
        Rule::List {
            of: &Rule::Stretch,
            least: 0,
            most: MOST_STRETCHES,
        },
        Need::Empty,
        "The way that a run goes, stretch by stretch; [3, 1.5] is short for 3 m at 1.5 degrees.",
    ),
    optional("view", Rule::Carried, "How the layout was last looked at."),
];

/// Fields of the top level that are carried unchanged.
pub(crate) fn carried_fields() -> impl Iterator<Item = &'static str> {
    TOP_FIELDS
        .iter()
        .filter(|field| matches!(field.rule, Rule::Carried))
        .map(|field| field.name)
}

/// A shaft.
pub static SHAFT: Table = Table {
    on: "a shaft",
    fields: SHAFT_FIELDS,
    either: &[],
};

const SHAFT_FIELDS: &[Field] = &[
    required("id", Rule::Id, "Its name; `frame` is taken."),
    optional(
        "at",
        PLACE,
        "Where it is drawn, [x, y]; left out: in a row with the others.",
    ),
    optional(
        "axis_mm",
        PLACE,
        "Where its axis really is, seen along the shafts, [x, y] in mm, positive rotation turning x toward y; left out: \
         not known.",
    ),
    with_default(
        "drag_nm",
        NOT_NEGATIVE,
        Need::Number(0.0),
        "Constant friction torque in N·m.",
    ),
    with_default(
        "viscous_nms",
        NOT_NEGATIVE,
        Need::Number(0.0),
        "Viscous torque in N·m·s.",
    ),
    with_default(
        "inertia_kgm2",
        NOT_NEGATIVE,
        Need::Number(0.0),
        "Moment of inertia in kg·m².",
    ),
    with_default(
        "journal_friction",
        Rule::Number(Range::closed(0.0, 10.0)),
        Need::Number(0.0),
        "Friction coefficient of its plain bearings.",
    ),
    with_default(
        "journal_radius_mm",
        Rule::Number(Range::closed(0.0, 100_000.0)),
        Need::Number(0.0),
        "Radius of its plain bearings in mm.",
    ),
    with_default(
        "overhang",
        Rule::Number(Range::closed(0.0, 1000.0)),
        Need::Number(1.0),
        "Bearing load over applied load; 1 where the load sits between the bearings.",
    ),
];

/// A shift position.
pub static POSITION: Table = Table {
    on: "a position",
    fields: POSITION_FIELDS,
    either: &[],
};

const POSITION_FIELDS: &[Field] = &[
    required("id", Rule::Id, "Its name in references."),
    optional("name", Rule::Text(1000), "Its name for people; left out: the id."),
    with_default(
        "engaged",
        Rule::Names {
            of: &Rule::Engageable,
            least: 0,
            most: MOST_THINGS,
        },
        Need::Empty,
        "The clutches and brakes that are on.",
    ),
];

/// A group.
pub static GROUP: Table = Table {
    on: "a group",
    fields: GROUP_FIELDS,
    either: &[],
};

const GROUP_FIELDS: &[Field] = &[
    required("id", Rule::Id, "Its name in references."),
    optional("name", Rule::Text(200), "Its name for people; left out: the id."),
    required(
        "members",
        Rule::Names {
            of: &Rule::Member,
            least: 1,
            most: MOST_THINGS,
        },
        "The shafts and elements that belong to it, by id; an id that both a shaft and an element bear means both.",
    ),
    with_default(
        "folded",
        Rule::Flag,
        Need::Off,
        "Whether it is drawn as one thing.",
    ),
];

/// Length of a stretch in m.
pub(super) const STRETCH_LENGTH: Rule = Rule::Number(Range::above(0.0, 1e6));
/// Slope of a stretch in degrees.
pub(super) const STRETCH_SLOPE: Rule = Rule::Number(Range::closed(-89.0, 89.0));

/// A stretch of the course.
pub static STRETCH: Table = Table {
    on: "a stretch of the course",
    fields: STRETCH_FIELDS,
    either: &[],
};

const STRETCH_FIELDS: &[Field] = &[
    required("length_m", STRETCH_LENGTH, "How long it is, in m."),
    with_default(
        "slope_deg",
        STRETCH_SLOPE,
        Need::Number(0.0),
        "How steep it rises, in degrees; negative: downhill.",
    ),
];
