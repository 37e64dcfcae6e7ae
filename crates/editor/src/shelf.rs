//! Layouts kept in the browser: what a record is, when one may replace another, and how they are shown.
//!
//! A page knows all records; the store itself is the page's. Deeds are in `session::shelf`, sentences in
//! `wording::shelf`. Two tabs never overwrite each other: whoever writes says which revision it has seen
//! ([`Record::may_follow`]), and what comes too late becomes a record of its own.

mod cards;
mod collection;
mod note;
mod thumbnail;
mod when;

use std::rc::Rc;

use serde_json::{Value, json};

pub use cards::{Card, ShelfSheet, cards};
pub(crate) use collection::{Found, collection, documents, first_of, text_of};
pub use note::{BenchNote, read_note};
pub use thumbnail::{Thumbnail, thumbnail};
pub use when::Now;

use crate::session::Input;

/// A layout kept in the browser.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// Its name in the store; never used again.
    pub id: Rc<str>,
    /// Its title, as the layout has it.
    pub title: String,
    /// When it was last kept, in milliseconds since 1970; none before the store says so.
    pub changed_ms: f64,
    /// Rises by one with each time that it is kept.
    pub revision: u64,
    /// The tab that kept it.
    pub by: Rc<str>,
    /// The layout file.
    pub text: Rc<str>,
    /// What it looks like.
    pub picture: Thumbnail,
}

impl Record {
    /// As the store keeps it.
    #[must_use]
    pub fn to_json(&self) -> String {
        json!({
            "id": &*self.id,
            "title": self.title,
            "changed_ms": self.changed_ms,
            "revision": self.revision,
            "by": &*self.by,
            "text": &*self.text,
            "picture": self.picture.to_json(),
        })
        .to_string()
    }

    /// From what the store kept; none where that is no record.
    #[must_use]
    pub fn from_json(text: &str) -> Option<Self> {
        let value: Value = serde_json::from_str(text).ok()?;
        let word = |name: &str| value.get(name).and_then(Value::as_str);
        Some(Self {
            id: word("id")?.into(),
            title: word("title")?.to_owned(),
            changed_ms: value.get("changed_ms")?.as_f64()?,
            revision: value.get("revision")?.as_u64()?,
            by: word("by")?.into(),
            text: word("text")?.into(),
            picture: value.get("picture").map(Thumbnail::from_json).unwrap_or_default(),
        })
    }

    /// Whether this one may take the place of what the store holds: nothing; what it was made from; or what the same
    /// tab kept a moment ago, which may not have been told yet; or the same layout. Anything else is another tab's work.
    #[must_use]
    pub fn may_follow(&self, stored: Option<&Self>) -> bool {
        stored.is_none_or(|stored| {
            stored.by == self.by || stored.revision == self.revision || stored.text == self.text
        })
    }

    /// As it goes into the store after what is there. A new picture of the same layout is no new revision.
    #[must_use]
    pub fn following(mut self, stored: Option<&Self>, now_ms: f64) -> Self {
        if let Some(stored) = stored.filter(|stored| stored.text == self.text) {
            return Self {
                picture: self.picture,
                ..stored.clone()
            };
        }
        self.revision = stored.map_or(self.revision, |stored| stored.revision) + 1;
        self.changed_ms = now_ms;
        self
    }
}

/// Something that happened to the layouts kept.
#[derive(Clone, Debug, PartialEq)]
pub enum ShelfInput {
    /// All records as they are in the store now.
    Read(Vec<Record>),
    /// Another tab kept this.
    Changed(Box<Record>),
    /// Another tab deleted it.
    Gone(Rc<str>),
    /// The store kept this.
    Kept(Box<Record>),
    /// The store holds what another tab made meanwhile, so `refused` was not kept.
    Refused {
        /// What the store holds.
        stored: Box<Record>,
        /// What this tab wanted to keep.
        refused: Box<Record>,
    },
    /// The browser keeps nothing: no store, or no room.
    NoStore,
    /// Another tab has this record on its bench.
    AlsoOpen(Rc<str>),
    /// Nothing was changed for a moment: time to draw a picture.
    Settled,
    /// What time it is.
    Time(Now),
    /// Only those with these words in them are shown.
    Search(String),
    /// Put it on the bench.
    Open(Rc<str>),
    /// Give it another title.
    Rename {
        /// Which.
        id: Rc<str>,
        /// Its new title.
        title: String,
    },
    /// Keep a copy of it.
    Duplicate(Rc<str>),
    /// Delete it.
    Delete(Rc<str>),
    /// Bring back what was deleted last.
    BringBack,
    /// Save it as a file.
    Export(Rc<str>),
    /// Files with their names: put them on the shelf, a single layout on the bench.
    Import(Vec<(String, String)>),
    /// A newer program is ready.
    UpdateReady,
    /// Load the newer program.
    LoadUpdate,
    /// Put a notice away.
    Dismiss(About),
}

/// What the page is to do about the layouts kept.
#[derive(Clone, Debug, PartialEq)]
pub enum ShelfEffect {
    /// Keep this if [`Record::may_follow`] says so, and tell what came of it.
    Keep(Box<Record>),
    /// Delete it.
    Forget(Rc<str>),
    /// Load the newer program once everything is kept.
    LoadUpdate,
}

/// What a notice is about; there is one of each at most.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// The same layout in another tab.
    OtherTab,
    /// A copy that was made so that nothing is lost.
    Copy,
    /// The browser's store.
    Store,
    /// A newer program.
    Update,
    /// Files that were put on the shelf.
    Import,
}

/// A sentence over the bench with what can be done about it. It stays until it is put away or means nothing any more.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// What it is about.
    pub about: About,
    /// The sentence.
    pub text: String,
    /// Buttons: words and what they do.
    pub offers: Vec<(&'static str, Input)>,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn record(revision: u64, by: &str) -> Record {
        Record {
            id: "a-1".into(),
            title: "Hoist".to_owned(),
            changed_ms: 1.0,
            revision,
            by: by.into(),
            text: "{}".into(),
            picture: Thumbnail::default(),
        }
    }

    #[test]
    fn a_record_comes_back_from_the_store_as_it_went_in() {
        let kept = record(7, "tab");
        assert_eq!(Record::from_json(&kept.to_json()), Some(kept));
        assert_eq!(Record::from_json("no record"), None);
        assert_eq!(Record::from_json("{\"id\": 3}"), None);
    }

    #[test]
    fn who_has_not_seen_another_tab_s_work_does_not_overwrite_it() {
        let check = |mine: Record, stored: Option<Record>, expected| {
            assert_eq!(mine.may_follow(stored.as_ref()), expected);
        };
        check(record(0, "me"), None, true);
        check(record(4, "me"), Some(record(4, "other")), true);
        check(record(4, "me"), Some(record(5, "me")), true);
        let other = |text: &str| Record {
            text: text.into(),
            ..record(5, "other")
        };
        check(record(4, "me"), Some(other("another layout")), false);
        check(record(4, "me"), Some(other("{}")), true);
        // Deleted by another tab, but work goes on here.
        check(record(4, "me"), None, true);
    }

    #[test]
    fn revisions_rise_by_one_with_each_change_of_the_layout() {
        let stored = Record {
            text: "before".into(),
            ..record(5, "me")
        };
        assert_eq!(record(3, "me").following(Some(&stored), 9.0).revision, 6);
        assert_eq!(record(0, "me").following(None, 9.0).revision, 1);
        let pictured = record(3, "me").following(Some(&record(5, "other")), 9.0);
        assert_eq!(pictured, record(5, "other"));
    }
}
