//! From older file versions to the newest: one numbered step per version, without gaps.
//!
//! A step works on the JSON value, so that it never needs the types of an older version. Each version keeps a stored
//! sample in the tests that must still open.

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
    fn only_the_missing_steps_are_taken() {
        check(1, json!({"layshaft": 3, "two": true, "three": true}));
        check(2, json!({"layshaft": 3, "three": true}));
        check(3, json!({"layshaft": 3}));
    }
}
