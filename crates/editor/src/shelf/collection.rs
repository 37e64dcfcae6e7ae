//! Many layouts in one file: `{"layshaft_shelf": 1, "layouts": [ … ]}`, each entry a whole layout document.
//!
//! What is read may be such a file or a single layout's.

use layshaft_layout::{Layout, decode, encode};
use serde_json::{Value, json};

/// The version of the collection; each document in it has its own.
const VERSION: u64 = 1;
const KEY: &str = "layshaft_shelf";

/// A layout found in a file, or why it is none.
pub(crate) struct Found {
    /// What it is called: its title, or the file's name.
    pub name: String,
    /// The layout with its text, or a sentence.
    pub layout: Result<Layout, String>,
}

/// All texts as one file.
pub(crate) fn collection<'a>(texts: impl Iterator<Item = &'a str>) -> String {
    let layouts: Vec<Value> = texts.filter_map(|text| serde_json::from_str(text).ok()).collect();
    let file = json!({ KEY: VERSION, "layouts": layouts });
    serde_json::to_string_pretty(&file).unwrap_or_default()
}

/// The layouts in a file; `None` where it is a single layout's.
pub(crate) fn documents(name: &str, text: &str) -> Option<Vec<Found>> {
    let value: Value = serde_json::from_str(text).ok()?;
    let version = value.get(KEY)?;
    if version.as_u64() != Some(VERSION) {
        let sentence = "it was made by a newer version; update the program";
        return Some(vec![Found {
            name: name.to_owned(),
            layout: Err(sentence.to_owned()),
        }]);
    }
    let layouts = value.get("layouts").and_then(Value::as_array);
    let Some(layouts) = layouts else {
        return Some(vec![Found {
            name: name.to_owned(),
            layout: Err("`layouts` should be a list of layouts".to_owned()),
        }]);
    };
    Some(
        layouts
            .iter()
            .enumerate()
            .map(|(index, value)| found(index, value))
            .collect(),
    )
}

fn found(index: usize, value: &Value) -> Found {
    let title = value.get("title").and_then(Value::as_str);
    Found {
        name: title.map_or_else(|| format!("layout {}", index + 1), ToOwned::to_owned),
        layout: decode(&value.to_string()).map_err(|errors| first_of(&errors)),
    }
}

/// The first thing that is wrong, and how much more.
pub(crate) fn first_of(errors: &[layshaft_layout::DocumentError]) -> String {
    let first = errors.first().map(ToString::to_string).unwrap_or_default();
    match errors.len() {
        0 | 1 => first,
        more => format!("{first}, and {} more", more - 1),
    }
}

/// The text of a layout as records keep it.
pub(crate) fn text_of(layout: &Layout) -> String {
    encode(layout)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_demos_go_into_one_file_and_come_out_again() {
        let layouts: Vec<Layout> = crate::demos::DEMOS
            .iter()
            .map(|demo| decode(demo.text).expect("sound"))
            .collect();
        let texts: Vec<String> = layouts.iter().map(encode).collect();
        let file = collection(texts.iter().map(String::as_str));
        let found = documents("all.json", &file).expect("a collection");
        let again: Vec<Layout> = found
            .into_iter()
            .map(|found| found.layout.expect("sound"))
            .collect();
        assert_eq!(again, layouts);
    }

    #[test]
    fn a_single_layout_is_no_collection() {
        assert!(documents("a.json", r#"{"layshaft": 1}"#).is_none());
        assert!(documents("a.json", "nonsense").is_none());
    }

    #[test]
    fn what_is_wrong_is_told_of_each() {
        let text = r#"{"layshaft_shelf": 1, "layouts": [{"layshaft": 1, "title": "A", "shafts": [{"id": "frame"}]}, 3]}"#;
        let found = documents("all.json", text).expect("a collection");
        let told: Vec<String> = found
            .into_iter()
            .map(|found| format!("{}: {}", found.name, found.layout.expect_err("not sound")))
            .collect();
        assert!(told[0].starts_with("A: shafts[0].id"), "{told:?}");
        assert!(told[1].starts_with("layout 2: "), "{told:?}");
        let newer = documents("all.json", r#"{"layshaft_shelf": 2}"#).expect("a collection");
        assert!(
            newer[0]
                .layout
                .as_ref()
                .is_err_and(|sentence| sentence.contains("newer"))
        );
    }
}
