//! What a person has put elsewhere on the skeleton: heights of shafts, columns of elements, as the document carries them.
//!
//! In the file: `view.skeleton.shafts.ID.row` and `view.skeleton.elements.ID.at`, both in the drawing's pixels. Whatever can't be read
//! as that, or speaks of what is not there, is passed over: a drawing is no reason to refuse a layout.

use std::collections::BTreeMap;

use layshaft_layout::{Command, Id, Layout};
use serde_json::{Map, Value};

use super::rows::LEAST_GAP;
use super::train::Train;

/// Part of the file that drawings keep their things in.
const VIEW: &str = "view";
/// Its field for this drawing.
const SKELETON: &str = "skeleton";
/// Furthest that anything is put from the origin.
const FURTHEST: f64 = 1e5;

/// Heights and columns set by hand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Adjusted {
    /// Height of a shaft's axis.
    pub rows: BTreeMap<Id, f64>,
    /// Column of an element.
    pub columns: BTreeMap<Id, f64>,
}

impl Adjusted {
    /// What the document carries.
    pub fn of(layout: &Layout) -> Self {
        let skeleton = layout.carried.get(VIEW).and_then(|view| view.get(SKELETON));
        Self {
            rows: numbers(skeleton, "shafts", "row"),
            columns: numbers(skeleton, "elements", "at"),
        }
    }

    /// Whether nothing was put elsewhere.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty() && self.columns.is_empty()
    }

    /// The change that leaves the document with this.
    pub fn command(&self, layout: &Layout) -> Command {
        let mut view = match layout.carried.get(VIEW) {
            Some(Value::Object(view)) => view.clone(),
            _ => Map::new(),
        };
        let mut skeleton = Map::new();
        for (name, field, things) in [("shafts", "row", &self.rows), ("elements", "at", &self.columns)] {
            let things: Map<String, Value> = things
                .iter()
                .map(|(id, value)| (id.to_string(), serde_json::json!({ field: *value })))
                .collect();
            if !things.is_empty() {
                skeleton.insert(name.to_owned(), Value::Object(things));
            }
        }
        if skeleton.is_empty() {
            view.shift_remove(SKELETON);
        } else {
            view.insert(SKELETON.to_owned(), Value::Object(skeleton));
        }
        Command::SetCarried {
            name: VIEW.to_owned(),
            value: (!view.is_empty()).then_some(Value::Object(view)),
        }
    }

    /// Puts axes and stations where they were put by hand. An axis goes by the first of its shafts that was; axes that mesh stay
    /// apart, so that their wheels can be seen.
    pub fn put(&self, layout: &Layout, train: &Train, xs: &mut [f64], ys: &mut [f64]) {
        let mut set = vec![false; ys.len()];
        for (shaft, piece) in layout.shafts.iter().zip(&train.pieces) {
            if let Some(row) = self.rows.get(&shaft.id).filter(|_| !set[piece.axis]) {
                ys[piece.axis] = *row;
                set[piece.axis] = true;
            }
        }
        for station in &train.stations {
            if let [one, other] = station.axes[..]
                && (ys[one] - ys[other]).abs() < LEAST_GAP / 2.0
                && (set[one] || set[other])
            {
                let (moved, fixed) = if set[other] { (other, one) } else { (one, other) };
                let side = if ys[moved] < ys[fixed] { -1.0 } else { 1.0 };
                ys[moved] = ys[fixed] + side * LEAST_GAP / 2.0;
            }
        }
        for (station, x) in train.stations.iter().zip(xs) {
            let id = station.element.map(|number| &layout.elements[number].id);
            if let Some(column) = id.and_then(|id| self.columns.get(id)) {
                *x = *column;
            }
        }
    }
}

fn numbers(skeleton: Option<&Value>, things: &str, field: &str) -> BTreeMap<Id, f64> {
    let things = skeleton
        .and_then(|skeleton| skeleton.get(things))
        .and_then(Value::as_object);
    things
        .into_iter()
        .flatten()
        .filter_map(|(id, thing)| {
            let value = thing.get(field)?.as_f64()?;
            (value.abs() <= FURTHEST).then(|| (Id::from(id.as_str()), value))
        })
        .collect()
}
