//! What the sheet "Layouts" shows of the records: a card for each, those changed last first.

use std::rc::Rc;

use super::{Now, Record, Thumbnail};
use crate::session::file_name_of;
use crate::wording::shelf as words;

/// From so many cards on there is a field to search them.
const SEARCHED_FROM: usize = 5;

/// The layouts kept, as the sheet shows them.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfSheet {
    /// The cards that fit the search.
    pub cards: Vec<Rc<Card>>,
    /// How many there are in all.
    pub total: usize,
    /// What is searched for.
    pub search: String,
    /// Whether there is a field to search.
    pub has_search: bool,
    /// Said where there is no card to show.
    pub empty: Option<String>,
    /// What was deleted last and can be brought back: a sentence.
    pub deleted: Option<String>,
}

/// A layout kept, as it is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// Its record.
    pub id: Rc<str>,
    /// Its title.
    pub title: String,
    /// When it was changed: `changed 5 minutes ago`.
    pub changed: String,
    /// What it looks like.
    pub picture: Thumbnail,
    /// Whether it is the one on the bench.
    pub is_here: bool,
    /// Its file's name and text, for dragging it out of the page.
    pub file: (String, Rc<str>),
}

/// The sheet of these records.
#[must_use]
pub fn cards(
    records: &[Rc<Record>],
    here: Option<&Rc<str>>,
    search: &str,
    deleted: Option<&str>,
    now: Now,
) -> ShelfSheet {
    let mut found: Vec<&Rc<Record>> = records.iter().filter(|record| fits(record, search)).collect();
    found.sort_by(|one, other| other.changed_ms.total_cmp(&one.changed_ms));
    let cards: Vec<Rc<Card>> = found
        .into_iter()
        .map(|record| {
            Rc::new(Card {
                id: record.id.clone(),
                title: words::title(&record.title),
                changed: words::changed(&now.since(record.changed_ms)),
                picture: record.picture.clone(),
                is_here: here == Some(&record.id),
                file: (file_name_of(&record.title), record.text.clone()),
            })
        })
        .collect();
    ShelfSheet {
        empty: cards.is_empty().then(|| words::no_cards(records.len(), search)),
        cards,
        total: records.len(),
        search: search.to_owned(),
        has_search: records.len() >= SEARCHED_FROM || !search.is_empty(),
        deleted: deleted.map(words::deleted),
    }
}

/// Whether every word searched for is in the title, or in the names and notes of the layout.
fn fits(record: &Record, search: &str) -> bool {
    let (title, text) = (record.title.to_lowercase(), record.text.to_lowercase());
    search
        .to_lowercase()
        .split_whitespace()
        .all(|word| title.contains(word) || text.contains(&format!("\"{word}")))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn record(id: &str, title: &str, changed_ms: f64) -> Rc<Record> {
        Rc::new(Record {
            id: id.into(),
            title: title.to_owned(),
            changed_ms,
            revision: 1,
            by: "tab".into(),
            text: r#"{"layshaft": 1, "elements": [{"id": "g1", "kind": "worm"}]}"#.into(),
            picture: Thumbnail::default(),
        })
    }

    fn check(search: &str, expected: &[&str]) {
        let records = [
            record("1", "Crane", 1.0),
            record("2", "Hoist, new rope", 3.0),
            record("3", "", 2.0),
        ];
        let sheet = cards(&records, Some(&"2".into()), search, None, Now::default());
        let titles: Vec<&str> = sheet.cards.iter().map(|card| card.title.as_str()).collect();
        assert_eq!(titles, expected);
        assert_eq!(sheet.empty.is_some(), expected.is_empty());
    }

    #[test]
    fn what_was_changed_last_comes_first() {
        check("", &["Hoist, new rope", "Untitled", "Crane"]);
    }

    #[test]
    fn all_words_searched_for_must_be_there() {
        check("ROPE hoi", &["Hoist, new rope"]);
        check("worm cra", &["Crane"]);
        check("boat", &[]);
    }
}
