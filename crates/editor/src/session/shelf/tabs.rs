//! What the store answers, and what other tabs do: this one follows, or keeps its own as a copy; nothing is lost.

use std::rc::Rc;

use super::{About, Document, Held, Record, Session, text_of, words};
use crate::session::{Effect, Input};

impl Session {
    /// All records as they are now; the one on the bench is followed if another tab went on with it.
    pub(super) fn shelf_read(&mut self, records: Vec<Record>, effects: &mut Vec<Effect>) {
        let here = self.record_here().cloned();
        let changed = records
            .iter()
            .find(|record| here.as_ref() == Some(&record.id))
            .cloned();
        self.shelf.records = Rc::new(records.into_iter().map(Rc::new).collect());
        if let Some(record) = changed {
            self.changed_elsewhere(record, effects);
        }
    }

    /// Another tab kept a record.
    pub(super) fn changed_elsewhere(&mut self, record: Record, effects: &mut Vec<Effect>) {
        let held = self.document.held.clone().filter(|held| held.id == record.id);
        let Some(held) = held else {
            return self.show_record(record);
        };
        if *record.text == *text_of(self.document.layout()) {
            self.document.held = Some(Held {
                id: held.id,
                revision: held.revision.max(record.revision),
            });
            return self.show_record(record);
        }
        let is_news = record.by != self.shelf.tab && record.revision > held.revision;
        if !is_news || self.is_in_gesture() || self.editing.is_some() {
            // What is being done here ends in a change, which the store then refuses: it becomes a copy.
            return;
        }
        self.show_record(record.clone());
        self.follow(&record, effects);
    }

    /// Shows what another tab has made of the record that is on the bench. Undo goes back to how it was here.
    fn follow(&mut self, record: &Record, effects: &mut Vec<Effect>) {
        let seen = Held {
            id: record.id.clone(),
            revision: record.revision,
        };
        let Ok(layout) = layshaft_layout::decode(&record.text) else {
            return;
        };
        self.confirm(record);
        let mut followed = std::mem::replace(&mut self.document, Document::held(layout, seen.clone()));
        // Who goes back to it has seen what came after it.
        followed.held = Some(seen);
        if followed.undo_name().is_some() {
            Rc::make_mut(&mut self.before).push(followed);
        }
        self.after = Rc::default();
        // Not `settle`: nothing was done here that wants saving.
        self.show_document();
        self.forget_what_is_gone();
        effects.push(Effect::Announce(words::FOLLOWED.to_owned()));
    }

    /// The store kept a record of this tab.
    pub(super) fn kept(&mut self, record: &Record) {
        self.dismiss(About::Store);
        Rc::make_mut(&mut self.shelf.copies).remove(&record.id);
        self.confirm(record);
        if let Some(known) = self.record(&record.id).cloned() {
            // Its text may have gone on since.
            self.show_record(Record {
                revision: record.revision.max(known.revision),
                changed_ms: record.changed_ms,
                ..(*known).clone()
            });
        }
        if let Some(held) = self.document.held.as_mut().filter(|held| held.id == record.id) {
            held.revision = held.revision.max(record.revision);
        }
        for documents in [&mut self.before, &mut self.after] {
            if documents.iter().any(|document| document.is_record(&record.id)) {
                for document in Rc::make_mut(documents) {
                    if let Some(held) = document.held.as_mut().filter(|held| held.id == record.id) {
                        held.revision = held.revision.max(record.revision);
                    }
                }
            }
        }
    }

    fn confirm(&mut self, record: &Record) {
        Rc::make_mut(&mut self.shelf.confirmed).insert(record.id.clone(), record.text.clone());
    }

    /// Another tab was first. What was done here becomes a record of its own.
    pub(super) fn refused(&mut self, stored: Record, refused: Record, effects: &mut Vec<Effect>) {
        let id = stored.id.clone();
        if self.shelf.confirmed.get(&id) == Some(&refused.text) {
            // Only its picture was new: nothing was done here that could be lost.
            return self.changed_elsewhere(stored, effects);
        }
        let copy = self.shelf.copies.get(&id).cloned();
        self.show_record(stored.clone());
        if let Some(copy) = copy {
            // The next of several that were on their way. A copy on the bench has it already.
            if self.record_here() != Some(&copy)
                && let Some(record) = self.record(&copy).cloned()
                && let Some(text) = super::retitled(&refused.text, &record.title)
            {
                self.keep_record(
                    Record {
                        text,
                        ..(*record).clone()
                    },
                    effects,
                );
            }
            return;
        }
        let title = self.copy_title(&refused.title);
        let is_here = self
            .document
            .held
            .as_ref()
            .is_some_and(|held| held.id == id && held.revision < stored.revision);
        let copy = if is_here {
            self.fork(&title, effects);
            self.notify(About::Copy, words::kept_as_copy(&title), Vec::new());
            self.record_here().cloned()
        } else {
            let text = super::retitled(&refused.text, &title);
            text.map(|text| {
                self.notify(About::Copy, words::left_as_copy(&title), Vec::new());
                self.put_on_shelf(&title, text, refused.picture, effects)
            })
        };
        if let Some(copy) = copy {
            Rc::make_mut(&mut self.shelf.copies).insert(id, copy);
        }
    }

    /// Another tab has the same record on its bench.
    pub(super) fn also_open(&mut self, id: &Rc<str>) {
        if self.record_here() == Some(id) {
            let copy = Input::Act(crate::Action::WorkOnCopy);
            self.notify(About::OtherTab, words::ALSO_OPEN, vec![("Work on a copy", copy)]);
        }
    }
}
