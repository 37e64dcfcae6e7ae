//! From older file versions to the newest: one numbered step per version, without gaps.
//!
//! A step works on the JSON value, so that it never needs the types of an older version. Each version keeps a stored
//! sample in the tests that must still open.

use std::collections::HashSet;

use serde_json::{Map, Value};

use super::tables::VERSION;

/// Lifts a file of one version to the next.
type Step = fn(&mut Map<String, Value>);

/// `STEPS[n]` lifts version `n + 1` to version `n + 2`; version 1 is the first and so far the newest.
#[expect(clippy::cast_possible_truncation, reason = "file versions are small")]
const STEPS: [Step; VERSION as usize - 1] = [];

/// Lifts a file of the given version, from 1 on, to the newest.
pub(super) fn migrate(file: &mut Map<String, Value>, version: u64) {
    run(&STEPS, file, version);
}

/// Runs the steps that a file of this version still needs, and writes the version it has then.
fn run(steps: &[Step], file: &mut Map<String, Value>, version: u64) {
    let done = usize::try_from(version.saturating_sub(1)).unwrap_or(usize::MAX);
    for (step, reached) in steps.iter().zip(2_u64..).skip(done) {
        step(file);
        file.insert("layshaft".to_owned(), Value::from(reached));
    }
}

/// Groups were carried unchanged once, as a name with a list of elements; these are read as they are written now.
pub(super) fn early_groups(file: &mut Map<String, Value>) {
    let Some(Value::Array(groups)) = file.get_mut("groups") else {
        return;
    };
    let is_early = |group: &Map<String, Value>| {
        group.contains_key("elements") && !group.contains_key("members") && !group.contains_key("id")
    };
    let ids = groups.iter().filter_map(|group| group.get("id")?.as_str());
    let mut taken: HashSet<String> = ids.map(str::to_owned).collect();
    let mut number = 0_u64;
    for group in groups.iter_mut().filter_map(Value::as_object_mut) {
        if !is_early(group) {
            continue;
        }
        let id = loop {
            number += 1;
            let id = format!("group{number}");
            if taken.insert(id.clone()) {
                break id;
            }
        };
        let members = group.shift_remove("elements").unwrap_or_default();
        group.insert("id".to_owned(), Value::from(id));
        group.insert("members".to_owned(), members);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn two(file: &mut Map<String, Value>) {
        file.insert("two".to_owned(), json!(true));
    }

    fn three(file: &mut Map<String, Value>) {
        file.insert("three".to_owned(), json!(true));
    }

    fn check(version: u64, expected: Value) {
        let mut file = Map::new();
        file.insert("layshaft".to_owned(), json!(version));
        run(&[two, three], &mut file, version);
        assert_eq!(Value::Object(file), expected);
    }

    #[test]
    fn early_groups_get_ids_of_their_own() {
        let groups =
            json!({"groups": [{"name": "A", "elements": ["g1"]}, {"id": "group1", "members": ["g2"]}]});
        let Value::Object(mut file) = groups else {
            return;
        };
        early_groups(&mut file);
        let expected = json!([
            {"name": "A", "id": "group2", "members": ["g1"]},
            {"id": "group1", "members": ["g2"]}
        ]);
        assert_eq!(file["groups"], expected);
    }

    #[test]
    fn only_the_missing_steps_are_taken() {
        check(1, json!({"layshaft": 3, "two": true, "three": true}));
        check(2, json!({"layshaft": 3, "three": true}));
        check(3, json!({"layshaft": 3}));
    }
}
