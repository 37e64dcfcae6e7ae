//! The field table, second half: every kind of element. Their fields are in the files below, by what they do.

mod ends;
mod holds;
mod pairs;
mod sets;

use super::fields::{Either, Field, Kind, Rule, Table, optional, required};
use super::tables::{PAIR, PLACE};
use crate::problem::{Counted, Range};
use ends::{CRANK, LOAD, MOTOR, VEHICLE, WINCH};
use holds::{BRAKE, CLUTCH, ONE_WAY, SLIP_CLUTCH, TORQUE_SWITCH};
use pairs::{BELT, CHAIN, FRICTION_WHEEL, MESH, WORM};
use sets::{DIFFERENTIAL, PLANETARY, STEPPED};

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

const TEETH: Rule = Rule::Count(Counted::Teeth);
const TWO_TEETH: Rule = Rule::List {
    of: &TEETH,
    least: 2,
    most: 2,
};
const EFFICIENCY: Rule = Rule::Number(Range::above(0.0, 1.0));
const FRICTION: Rule = Rule::Number(Range::closed(0.0, 10.0));
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

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use serde_json::Value;

    use super::*;
    use crate::file::tables::{SHAFT, TOP};

    const STORED: [&str; 3] = [
        include_str!("../../../../tests/layouts/version-1.layshaft.json"),
        include_str!("../../../../tests/layouts/every-field.layshaft.json"),
        include_str!("../../../../tests/layouts/plan.layshaft.json"),
    ];

    /// The names of all fields that objects in stored layouts have.
    fn used<'v>(objects: impl Iterator<Item = &'v Value>) -> BTreeSet<&'v str> {
        objects
            .filter_map(Value::as_object)
            .flat_map(|object| object.keys().map(String::as_str))
            .collect()
    }

    fn check(on: &str, table: &Table, used: &BTreeSet<&str>) {
        for field in table.fields {
            assert!(
                used.contains(field.name),
                "no stored layout has `{}` of {on}",
                field.name
            );
        }
    }

    #[test]
    fn every_field_stands_in_a_stored_layout() {
        let stored = STORED.map(|text| serde_json::from_str::<Value>(text).expect("JSON"));
        let things = |list: &'static str| {
            stored
                .iter()
                .filter_map(move |file| file[list].as_array())
                .flatten()
        };
        check("a layout", &TOP, &used(stored.iter()));
        check("a shaft", &SHAFT, &used(things("shafts")));
        for kind in KINDS {
            let of_kind = things("elements").filter(|element| element["kind"] == kind.name);
            let mut used = used(of_kind);
            // The place of a symbol is the same for all.
            used.insert(AT.name);
            check(kind.name, kind.table, &used);
        }
    }
}
