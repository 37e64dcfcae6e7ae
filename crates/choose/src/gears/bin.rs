//! The gears at hand, and how they are read from and written to the `bin` of a layout file.

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};

use super::MOST_TEETH;

/// Tooth counts in a row that are written as a range.
const SHORTEST_RANGE: usize = 4;

/// Gears of one tooth count at hand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BinEntry {
    /// Tooth count.
    pub teeth: u32,
    /// How many there are; none: as many as wanted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// Their material's word, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<String>,
}

/// The gears at hand, by rising tooth count.
#[derive(Clone, Debug, PartialEq, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Bin(pub Vec<BinEntry>);

impl Bin {
    /// Puts entries in order and those of equal teeth together: counts add up, and no count means as many as wanted.
    #[must_use]
    pub fn tidy(entries: Vec<BinEntry>) -> Self {
        let mut entries = entries;
        entries.sort_by_key(|entry| entry.teeth);
        let mut tidied: Vec<BinEntry> = Vec::with_capacity(entries.len());
        for entry in entries {
            match tidied.last_mut().filter(|last| last.teeth == entry.teeth) {
                Some(last) => {
                    last.count = last
                        .count
                        .zip(entry.count)
                        .map(|(one, other)| one.saturating_add(other));
                    last.material = last.material.take().or(entry.material);
                }
                None => tidied.push(entry),
            }
        }
        Self(tidied)
    }

    /// Reads what stands in a file: a list of whole numbers or of `{teeth, count, material}`; what can't be read is passed over.
    #[must_use]
    pub fn read(value: &Value) -> Self {
        let listed = value.as_array().map(Vec::as_slice).unwrap_or_default();
        Self::tidy(listed.iter().filter_map(entry_of).collect())
    }

    /// As it stands in a file: a plain number where that says it all.
    #[must_use]
    pub fn write(&self) -> Value {
        let entries = self.0.iter().map(|entry| {
            if entry.count.is_none() && entry.material.is_none() {
                return json!(entry.teeth);
            }
            let mut object = Map::new();
            object.insert("teeth".to_owned(), json!(entry.teeth));
            if let Some(count) = entry.count {
                object.insert("count".to_owned(), json!(count));
            }
            if let Some(material) = &entry.material {
                object.insert("material".to_owned(), json!(material));
            }
            Value::Object(object)
        });
        Value::Array(entries.collect())
    }

    /// As people type it: `8-20, 24x2, 30`; four tooth counts or more in a row, as many of each, are a range.
    #[must_use]
    pub fn text(&self) -> String {
        let follows =
            |one: &BinEntry, next: &BinEntry| next.teeth == one.teeth + 1 && next.count == one.count;
        let counted = |teeth: String, count: Option<u32>| match count {
            None => teeth,
            Some(count) => format!("{teeth}x{count}"),
        };
        let mut words = Vec::new();
        for run in self.0.chunk_by(follows) {
            match run {
                [first, .., last] if run.len() >= SHORTEST_RANGE => {
                    words.push(counted(format!("{}-{}", first.teeth, last.teeth), first.count));
                }
                _ => words.extend(
                    run.iter()
                        .map(|entry| counted(entry.teeth.to_string(), entry.count)),
                ),
            }
        }
        words.join(", ")
    }
}

fn entry_of(value: &Value) -> Option<BinEntry> {
    let whole = |value: &Value| value.as_u64().and_then(|number| u32::try_from(number).ok());
    let teeth = |value: &Value| whole(value).filter(|teeth| (1..=MOST_TEETH).contains(teeth));
    if let Some(teeth) = teeth(value) {
        return Some(BinEntry {
            teeth,
            count: None,
            material: None,
        });
    }
    let object = value.as_object()?;
    Some(BinEntry {
        teeth: teeth(object.get("teeth")?)?,
        count: object.get("count").and_then(whole),
        material: object.get("material").and_then(Value::as_str).map(str::to_owned),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bin_is_read_leniently_and_written_shortly() {
        let read =
            Bin::read(&json!([20, {"teeth": 12, "count": 2, "material": "brass"}, "x", 0, {"count": 3}, 10]));
        assert_eq!(read.text(), "10, 12x2, 20");
        assert_eq!(
            read.write(),
            json!([10, {"teeth": 12, "count": 2, "material": "brass"}, 20])
        );
        assert_eq!(Bin::read(&read.write()), read);
        assert_eq!(Bin::read(&json!({"teeth": 3})), Bin::default());
    }

    #[test]
    fn entries_of_equal_teeth_are_put_together() {
        let entry = |teeth, count| BinEntry {
            teeth,
            count,
            material: None,
        };
        let tidied = Bin::tidy(vec![
            entry(12, Some(2)),
            entry(10, None),
            entry(12, Some(1)),
            entry(10, Some(1)),
        ]);
        assert_eq!(tidied.text(), "10, 12x3");
    }
}
