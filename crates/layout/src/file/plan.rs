//! The plan's settings in the file: its fields, and what binds them.

use std::collections::HashMap;

use serde_json::{Map, Value, json};

use super::check::Checker;
use super::fields::{Field, Need, Rule, Table, optional, required, with_default};
use super::place::Place;
use super::tables::{LENGTH_MM, MOST_THINGS, PLACE};
use super::{read, write};
use crate::document::{BorePattern, Plan};
use crate::problem::{Counted, Problem, Range};

/// Most bores that are listed.
pub const MOST_BORES: usize = 10_000;

static A_LAYER: Rule = Rule::Object(&LAYER);

/// The plan's settings.
pub static PLAN: Table = Table {
    on: "the plan",
    fields: PLAN_FIELDS,
    either: &[],
};

static PLAN_FIELDS: &[Field] = &[
    optional(
        "module_mm",
        Rule::Number(Range::closed(0.01, 1000.0)),
        "Module in mm of gears that give none of their own; left out: 1 is assumed.",
    ),
    with_default(
        "bores",
        Rule::Word(BorePattern::WORDS),
        Need::Word("none"),
        "How bores for shafts are spread.",
    ),
    with_default(
        "pitch_mm",
        LENGTH_MM,
        Need::Number(Plan::PITCH_MM),
        "Distance in mm of neighbouring bores of a square or triangular pattern, one of which is at [0, 0].",
    ),
    with_default(
        "points_mm",
        Rule::List {
            of: &PLACE,
            least: 0,
            most: MOST_BORES,
        },
        Need::Empty,
        "Bores of a pattern of points, [x, y] in mm each.",
    ),
    with_default(
        "tolerance_mm",
        Rule::Number(Range::closed(0.0, 1000.0)),
        Need::Number(Plan::TOLERANCE_MM),
        "How far in mm a shaft may be from its bore, and a distance of axes from what its gears need.",
    ),
    with_default(
        "shaft_mm",
        Rule::Number(Range::closed(0.0, 1000.0)),
        Need::Number(Plan::SHAFT_MM),
        "Diameter of shafts in mm.",
    ),
    with_default(
        "kerf_mm",
        Rule::Number(Range::closed(0.0, 100.0)),
        Need::Number(0.0),
        "Width in mm that a cut takes away.",
    ),
    with_default(
        "layers",
        Rule::List {
            of: &A_LAYER,
            least: 0,
            most: MOST_THINGS,
        },
        Need::Empty,
        "Layers of elements that were chosen by hand; the others find theirs.",
    ),
];

/// The layer of an element.
pub static LAYER: Table = Table {
    on: "a layer of the plan",
    fields: LAYER_FIELDS,
    either: &[],
};

const LAYER_FIELDS: &[Field] = &[
    required("element", Rule::AnElement, "The element."),
    required(
        "layer",
        Rule::Count(Counted::Layer),
        "Its layer, counted from 1, the nearest to the eye first.",
    ),
];

impl Checker<'_> {
    /// Notes an element that is put into two layers; each entry by itself has been looked at.
    pub(crate) fn plan(&mut self, plan: &Value, place: &Place<'_>) {
        let layers = place.field("layers");
        let mut seen = HashMap::new();
        for (number, layer) in plan
            .get("layers")
            .and_then(Value::as_array)
            .into_iter()
            .flatten()
            .enumerate()
        {
            let Some(id) = layer.get("element").and_then(Value::as_str) else {
                continue;
            };
            if *seen.entry(id).or_insert(number) != number {
                let problem = Problem::NamedTwice { id: id.to_owned() };
                self.note(&layers.entry(number).field("element"), problem);
            }
        }
    }

    /// Notes an element that is not there.
    pub(super) fn an_element(&mut self, id: &str, place: &Place<'_>) {
        if self.names.kind_of(id).is_some() {
            return;
        }
        let nearest = self.nearest.of(id, self.names.elements()).map(ToOwned::to_owned);
        let id = id.to_owned();
        self.note(place, Problem::UnknownElement { id, nearest });
    }
}

/// The plan's object; empty where nothing was set.
pub(crate) fn written(plan: &Plan) -> Map<String, Value> {
    let mut object = write::Writer::new(&PLAN);
    if let Some(module) = plan.module_mm {
        object.number("module_mm", module);
    }
    object.put("bores", Value::from(plan.bores.word()));
    object.number("pitch_mm", plan.pitch_mm);
    let points = plan
        .points_mm
        .iter()
        .map(|[x, y]| json!([write::number(*x), write::number(*y)]));
    object.put("points_mm", points.collect());
    object.number("tolerance_mm", plan.tolerance_mm);
    object.number("shaft_mm", plan.shaft_mm);
    object.number("kerf_mm", plan.kerf_mm);
    let layers = plan.layers.iter();
    object.put(
        "layers",
        layers
            .map(|(id, layer)| json!({"element": id.as_str(), "layer": layer}))
            .collect(),
    );
    object.map
}

/// The plan of a checked object.
pub(crate) fn plan(map: &Map<String, Value>) -> Plan {
    let fields = read::Fields { map, table: &PLAN };
    Plan {
        module_mm: fields.maybe_number("module_mm"),
        bores: fields.word("bores", BorePattern::from_word),
        pitch_mm: fields.number("pitch_mm"),
        points_mm: fields.list("points_mm", |point| read::pair(point, read::number)),
        tolerance_mm: fields.number("tolerance_mm"),
        shaft_mm: fields.number("shaft_mm"),
        kerf_mm: fields.number("kerf_mm"),
        layers: fields.list("layers", |layer| {
            (read::id(&layer["element"]), read::count(&layer["layer"]))
        }),
    }
}
