//! Layouts short enough to be read in one look: elements alone, with what can be made up left out.
//!
//! A shaft is there because an element names it (first named, first in the layout); an element without an `id` is called
//! by its kind, and by kind and number from the second on; positions are lists of what they engage. Everything else is
//! the layout file's own, and is read by the layout file's own reader.

use layshaft_layout::{FRAME, Layout, decode};
use serde_json::{Map, Value, json};

/// Reads a compact layout.
///
/// # Panics
/// When it is no sound layout; the message holds every error with its path.
#[must_use]
pub fn layout(compact: &Value) -> Layout {
    let text = expand(compact).to_string();
    decode(&text).unwrap_or_else(|errors| {
        let lines: Vec<String> = errors.iter().map(ToString::to_string).collect();
        panic!("not a sound layout: {}\n{text}", lines.join("; "))
    })
}

/// The layout file that a compact layout stands for.
#[must_use]
pub fn expand(compact: &Value) -> Value {
    let mut file = compact.as_object().expect("a compact layout is a table").clone();
    let mut elements = taken_list(&mut file, "elements");
    name_elements(&mut elements);
    let mut shafts = taken_list(&mut file, "shafts");
    add_named_shafts(&elements, &mut shafts);
    if let Some(positions) = file.remove("positions") {
        let positions = positions.as_object().expect("positions by id").clone();
        let list = positions
            .into_iter()
            .map(|(id, engaged)| json!({"id": id, "engaged": engaged}));
        file.insert("positions".into(), list.collect());
    }
    file.insert("layshaft".into(), json!(1));
    file.insert("shafts".into(), Value::Array(shafts));
    file.insert("elements".into(), Value::Array(elements));
    Value::Object(file)
}

fn taken_list(file: &mut Map<String, Value>, name: &str) -> Vec<Value> {
    match file.remove(name) {
        Some(Value::Array(list)) => list,
        _ => Vec::new(),
    }
}

fn name_elements(elements: &mut [Value]) {
    let mut counts: Map<String, Value> = Map::new();
    for element in elements {
        let fields = element.as_object_mut().expect("an element is a table");
        let kind = fields["kind"].as_str().expect("an element has a kind").to_owned();
        let count = counts.get(&kind).and_then(Value::as_u64).unwrap_or(0) + 1;
        counts.insert(kind.clone(), json!(count));
        if !fields.contains_key("id") {
            let id = if count == 1 {
                kind
            } else {
                format!("{kind}{count}")
            };
            fields.insert("id".into(), json!(id));
        }
    }
}

const ENDS: [&str; 10] = [
    "shaft", "a", "b", "worm", "wheel", "first", "second", "sun", "ring", "carrier",
];

fn add_named_shafts(elements: &[Value], shafts: &mut Vec<Value>) {
    let mut add = |name: &Value| {
        let known = shafts.iter().any(|shaft| shaft["id"] == *name);
        if name != FRAME && name.is_string() && !known {
            shafts.push(json!({ "id": name }));
        }
    };
    for element in elements {
        for list in ["sides", "shafts"] {
            element[list].as_array().into_iter().flatten().for_each(&mut add);
        }
        ENDS.iter().map(|end| &element[*end]).for_each(&mut add);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shafts_and_names_are_made_up() {
        let layout = layout(&json!({"elements": [
            {"kind": "mesh", "a": "in", "b": "mid", "teeth": [10, 20]},
            {"kind": "mesh", "a": "mid", "b": "out", "teeth": [10, 20]},
        ]}));
        assert_eq!(
            layout
                .shafts
                .iter()
                .map(|shaft| shaft.id.as_str())
                .collect::<Vec<_>>(),
            ["in", "mid", "out"]
        );
        assert_eq!(layout.elements[1].id.as_str(), "mesh2");
    }
}
