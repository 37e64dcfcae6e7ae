//! The layouts kept in the browser, as a session has them: which is on the bench, and what a person does with them.
//!
//! What the store and other tabs answer is in `tabs`, how a layout gets onto the shelf in `keeping`.

mod keeping;
mod tabs;

use std::collections::BTreeMap;
use std::rc::Rc;

use layshaft_layout::{Command, Layout, decode};

use super::document::Document;
use super::{Effect, Session, file_name_of};
use crate::shelf::{
    About, Found, Notice, Now, Record, ShelfEffect, ShelfInput, ShelfSheet, Thumbnail, cards, collection,
    documents, first_of, text_of, thumbnail,
};
use crate::wording::shelf as words;

/// Which record a document is, and what of it this session has seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held {
    pub id: Rc<str>,
    pub revision: u64,
}

/// What a session knows of the shelf.
#[derive(Clone, Debug, Default)]
pub struct Shelf {
    /// The name of this tab, new each time that the page is opened; ids of records begin with it.
    tab: Rc<str>,
    /// Records that this tab has made.
    made: u64,
    records: Rc<Vec<Rc<Record>>>,
    search: String,
    /// What was deleted last, and whether it was on the bench.
    deleted: Option<(Rc<Record>, bool)>,
    now: Now,
    notices: Rc<Vec<Notice>>,
    /// Copies made because another tab was first, by the record that they are copies of.
    copies: Rc<BTreeMap<Rc<str>, Rc<str>>>,
    /// The text of each record as the store last confirmed it to this tab.
    confirmed: Rc<BTreeMap<Rc<str>, Rc<str>>>,
    /// Changes kept so far, and how many of them the picture shows.
    changes: u64,
    pictured: u64,
}

impl Session {
    pub(super) fn shelf_input(&mut self, input: ShelfInput, effects: &mut Vec<Effect>) {
        match input {
            ShelfInput::Read(records) => self.shelf_read(records, effects),
            ShelfInput::Changed(record) => self.changed_elsewhere(*record, effects),
            ShelfInput::Gone(id) => self.take_from_shelf(&id),
            ShelfInput::Kept(record) => self.kept(&record),
            ShelfInput::Refused { stored, refused } => self.refused(*stored, *refused, effects),
            ShelfInput::NoStore => self.notify(
                About::Store,
                words::NO_STORE,
                vec![("Save as a file", crate::Input::Act(crate::Action::Download))],
            ),
            ShelfInput::AlsoOpen(id) => self.also_open(&id),
            ShelfInput::Settled => self.draw_thumbnail(effects),
            ShelfInput::Time(now) => self.shelf.now = now,
            ShelfInput::Search(search) => self.shelf.search = search,
            ShelfInput::Open(id) => self.open_record(&id, effects),
            ShelfInput::Rename { id, title } => self.rename_record(&id, &title, effects),
            ShelfInput::Duplicate(id) => self.duplicate_record(&id, effects),
            ShelfInput::Delete(id) => self.delete_record(&id, effects),
            ShelfInput::BringBack => self.bring_back(effects),
            ShelfInput::Export(id) => self.export_record(&id, effects),
            ShelfInput::Import(files) => self.import(files, effects),
            ShelfInput::UpdateReady => self.notify(
                About::Update,
                words::UPDATE,
                vec![("Load it", crate::Input::Shelf(ShelfInput::LoadUpdate))],
            ),
            ShelfInput::LoadUpdate => self.load_update(effects),
            ShelfInput::Dismiss(about) => self.dismiss(about),
        }
    }

    /// The sheet of the layouts kept.
    #[must_use]
    pub fn shelf_sheet(&self) -> ShelfSheet {
        let deleted = self
            .shelf
            .deleted
            .as_ref()
            .map(|(record, _)| record.title.as_str());
        cards(
            &self.shelf.records,
            self.record_here(),
            &self.shelf.search,
            deleted,
            self.shelf.now,
        )
    }

    /// What stands over the bench about tabs, the store and a newer program.
    #[must_use]
    pub fn notices(&self) -> &Rc<Vec<Notice>> {
        &self.shelf.notices
    }

    /// The record that is on the bench; none for what was opened and not changed.
    #[must_use]
    pub fn record_here(&self) -> Option<&Rc<str>> {
        self.document.held.as_ref().map(|held| &held.id)
    }

    pub(super) fn record(&self, id: &str) -> Option<&Rc<Record>> {
        self.shelf.records.iter().find(|record| &*record.id == id)
    }

    /// Puts a record on the bench, with all that was done to it where this session had it there before.
    pub(super) fn open_record(&mut self, id: &Rc<str>, effects: &mut Vec<Effect>) {
        let Some(record) = self.record(id).cloned() else {
            return;
        };
        if self.record_here() == Some(id) {
            effects.push(Effect::Announce(format!(
                "{} is on the bench",
                words::title(&record.title)
            )));
            return;
        }
        self.close_edit(effects);
        self.give_up_gesture(effects);
        Rc::make_mut(&mut self.shelf.copies).remove(id);
        let document = match self.take_document(&record) {
            Some(document) => document,
            None => match decode(&record.text) {
                Ok(layout) => Document::held(
                    layout,
                    Held {
                        id: id.clone(),
                        revision: record.revision,
                    },
                ),
                Err(errors) => {
                    let lines = super::opening::lines_of(&errors);
                    return self.fail(words::NOT_READ.to_owned(), lines, effects);
                }
            },
        };
        let announced = format!("Opened {}", words::title(&record.title));
        self.lay_on_bench(document, &announced, effects);
    }

    /// Takes the document of a record out of those that were replaced; one that is not as the shelf has it is dropped.
    fn take_document(&mut self, record: &Record) -> Option<Document> {
        let is_it = |document: &Document| document.held.as_ref().is_some_and(|held| held.id == record.id);
        let mut found = None;
        for documents in [&mut self.before, &mut self.after] {
            let documents = Rc::make_mut(documents);
            while let Some(index) = documents.iter().position(is_it) {
                found = Some(documents.remove(index));
            }
        }
        found.filter(|document| text_of(document.layout()) == *record.text)
    }

    fn rename_record(&mut self, id: &Rc<str>, title: &str, effects: &mut Vec<Effect>) {
        let title = title.trim();
        let Some(record) = self
            .record(id)
            .cloned()
            .filter(|record| record.title != title && !title.is_empty())
        else {
            return;
        };
        let (command, name) = (Command::SetTitle(title.to_owned()), format!("rename to {title}"));
        if self.record_here() == Some(id) {
            self.close_edit(effects);
            self.commit(command, &name, effects);
            return;
        }
        for documents in [&mut self.before, &mut self.after] {
            let documents = Rc::make_mut(documents).iter_mut();
            for document in documents.filter(|document| document.is_record(id)) {
                // The title of a layout can always be set.
                let _ = document.carry_out(command.clone(), &name);
            }
        }
        if let Some(text) = retitled(&record.text, title) {
            let renamed = Record {
                title: title.to_owned(),
                text,
                ..(*record).clone()
            };
            self.keep_record(renamed, effects);
            effects.push(Effect::Announce(format!("Renamed to {title}")));
        }
    }

    fn duplicate_record(&mut self, id: &str, effects: &mut Vec<Effect>) {
        let Some(record) = self.record(id).cloned() else {
            return;
        };
        let title = self.copy_title(&record.title);
        if let Some(text) = retitled(&record.text, &title) {
            self.put_on_shelf(&title, text, record.picture.clone(), effects);
            effects.push(Effect::Announce(format!("Kept a copy: {title}")));
        }
    }

    pub(super) fn copy_title(&self, of: &str) -> String {
        words::copy_title(of, self.shelf.records.iter().map(|record| record.title.as_str()))
    }

    /// Deletes a record. What is on the bench makes way for an empty one.
    fn delete_record(&mut self, id: &Rc<str>, effects: &mut Vec<Effect>) {
        let Some(record) = self.record(id).cloned() else {
            return;
        };
        let was_here = self.record_here() == Some(id);
        if was_here {
            self.close_edit(effects);
            self.give_up_gesture(effects);
            self.lay_on_bench(Document::new(super::untitled()), "An empty bench", effects);
        }
        self.take_from_shelf(id);
        effects.push(Effect::Shelf(ShelfEffect::Forget(id.clone())));
        effects.push(Effect::Announce(words::deleted(&record.title)));
        self.shelf.deleted = Some((record, was_here));
    }

    fn bring_back(&mut self, effects: &mut Vec<Effect>) {
        let Some((record, was_here)) = self.shelf.deleted.take() else {
            return;
        };
        let id = record.id.clone();
        // The keyboard's undo may have brought it back already.
        if self.record(&id).is_none() {
            self.keep_record((*record).clone(), effects);
        }
        effects.push(Effect::Announce(format!(
            "{} is back",
            words::title(&record.title)
        )));
        if was_here {
            self.open_record(&id, effects);
        }
    }

    fn export_record(&self, id: &str, effects: &mut Vec<Effect>) {
        effects.extend(self.record(id).map(|record| Effect::Download {
            name: file_name_of(&record.title),
            text: record.text.to_string(),
        }));
    }

    /// All records in one file, and what is on the bench where it is no record yet.
    pub(super) fn download_all(&mut self, effects: &mut Vec<Effect>) {
        self.keep_what_came_from_outside(effects);
        effects.push(Effect::Download {
            name: "all-layouts.layshaft-shelf.json".to_owned(),
            text: collection(self.shelf.records.iter().map(|record| &*record.text)),
        });
    }

    /// A single layout goes on the bench, several go on the shelf; what is there already is not kept twice.
    pub(super) fn import(&mut self, files: Vec<(String, String)>, effects: &mut Vec<Effect>) {
        if let [(name, text)] = files.as_slice()
            && documents(name, text).is_none()
        {
            return self.open_text(text, name, effects);
        }
        let found: Vec<Found> = files
            .iter()
            .flat_map(|(name, text)| documents(name, text).unwrap_or_else(|| vec![single(name, text)]))
            .collect();
        let (mut added, mut known, mut lines) = (0, 0, Vec::new());
        for Found { name, layout } in found {
            match layout {
                Ok(layout) if self.is_kept(&text_of(&layout)) => known += 1,
                Ok(layout) => {
                    let picture = thumbnail(&Self::new(layout.clone()).scene());
                    self.put_on_shelf(&layout.title, text_of(&layout).into(), picture, effects);
                    added += 1;
                }
                Err(sentence) => lines.push(format!("{name}: {sentence}")),
            }
        }
        let sentence = words::imported(added, known, lines.len());
        if lines.is_empty() {
            effects.push(Effect::Announce(sentence.clone()));
            self.notify(About::Import, sentence, Vec::new());
        } else {
            lines.truncate(super::opening::MOST_LINES);
            self.fail(sentence, lines, effects);
        }
    }

    fn load_update(&mut self, effects: &mut Vec<Effect>) {
        self.dismiss(About::Update);
        self.close_edit(effects);
        self.give_up_gesture(effects);
        effects.extend([Effect::Save, Effect::Shelf(ShelfEffect::LoadUpdate)]);
    }

    pub(super) fn notify(
        &mut self,
        about: About,
        text: impl Into<String>,
        offers: Vec<(&'static str, crate::Input)>,
    ) {
        self.dismiss(about);
        let text = text.into();
        Rc::make_mut(&mut self.shelf.notices).push(Notice { about, text, offers });
    }

    pub(super) fn dismiss(&mut self, about: About) {
        if self.shelf.notices.iter().any(|notice| notice.about == about) {
            Rc::make_mut(&mut self.shelf.notices).retain(|notice| notice.about != about);
        }
    }
}

fn single(name: &str, text: &str) -> Found {
    Found {
        name: name.to_owned(),
        layout: decode(text).map_err(|errors| first_of(&errors)),
    }
}

/// The text of a layout under another title; none where it is no layout.
fn retitled(text: &str, title: &str) -> Option<Rc<str>> {
    let layout = decode(text).ok()?;
    Some(
        text_of(&Layout {
            title: title.to_owned(),
            ..layout
        })
        .into(),
    )
}
