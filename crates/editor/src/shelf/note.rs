//! What lies on the bench, noted so that the page opens with it again: a record, or a text that is no record yet.

use std::rc::Rc;

use serde_json::{Value, json};

/// What lies on the bench.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BenchNote {
    /// The record with this id.
    Record(Rc<str>),
    /// A layout that was opened and not changed.
    Text(String),
    /// The text of a layout, as the first version of the store kept it: changed or not.
    Old(String),
}

impl BenchNote {
    /// As it is kept.
    #[must_use]
    pub fn to_json(&self) -> String {
        match self {
            Self::Record(id) => json!({ "record": &**id }).to_string(),
            Self::Text(text) => json!({ "text": text }).to_string(),
            Self::Old(text) => text.clone(),
        }
    }
}

/// A note from what was kept. A layout file as such is what the first version kept.
#[must_use]
pub fn read_note(kept: &str) -> BenchNote {
    let value = serde_json::from_str(kept).unwrap_or(Value::Null);
    let word = |name: &str| value.get(name).and_then(Value::as_str);
    if value.get("layshaft").is_some() {
        BenchNote::Old(kept.to_owned())
    } else if let Some(id) = word("record") {
        BenchNote::Record(id.into())
    } else if let Some(text) = word("text") {
        BenchNote::Text(text.to_owned())
    } else {
        BenchNote::Old(kept.to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_come_back_as_they_went_in() {
        for note in [
            BenchNote::Record("a-1".into()),
            BenchNote::Text("{\"layshaft\": 1}".to_owned()),
            BenchNote::Old("{\"layshaft\": 1}".to_owned()),
            BenchNote::Old("damaged".to_owned()),
        ] {
            assert_eq!(read_note(&note.to_json()), note);
        }
    }
}
