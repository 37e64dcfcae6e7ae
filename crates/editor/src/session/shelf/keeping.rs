//! How a layout gets onto the shelf: with its first change, or when it came from outside and another takes its place.

use std::rc::Rc;

use super::{Held, Record, Session, Thumbnail, text_of, thumbnail, words};
use crate::demos::DEMOS;
use crate::session::Effect;
use crate::shelf::{BenchNote, ShelfEffect};
use crate::tools::Tool;

impl Session {
    /// The tab's name and the records that the store had when the page was opened.
    pub(crate) fn stock(&mut self, tab: &str, records: Vec<Record>) {
        self.shelf.tab = tab.into();
        self.shelf.records = Rc::new(records.into_iter().map(Rc::new).collect());
    }

    /// Lets the sheet be looked at only, with the hand as its tool; nothing is kept.
    pub(crate) fn embed(&mut self) {
        self.is_embedded = true;
        self.tool = Tool::Pan;
    }

    /// Whether the sheet stands inside another page.
    #[must_use]
    pub const fn is_embedded(&self) -> bool {
        self.is_embedded
    }

    /// What to note of the bench, so that the page opens with it again.
    #[must_use]
    pub fn bench_note(&self) -> BenchNote {
        match self.record_here() {
            Some(id) => BenchNote::Record(id.clone()),
            None => BenchNote::Text(self.file_text()),
        }
    }

    /// Changes with every change that the picture on the shelf doesn't show yet; none while it shows all.
    #[must_use]
    pub fn picture_due(&self) -> Option<u64> {
        (self.shelf.changes != self.shelf.pictured).then_some(self.shelf.changes)
    }

    /// After every input: what is to be saved and was ever changed goes into its record.
    pub(in crate::session) fn keep_on_shelf(&mut self, effects: &mut Vec<Effect>) {
        if self.is_embedded {
            effects.retain(|effect| *effect != Effect::Save);
        }
        if !effects.contains(&Effect::Save) {
            return;
        }
        if self.document.held.is_none() && self.document.undo_name().is_some() {
            self.document.held = Some(self.new_held());
        }
        if self.document.held.is_some() {
            self.keep_held(None, effects);
        }
    }

    /// Keeps what is on the bench in its record, unless it is there already.
    fn keep_held(&mut self, picture: Option<Thumbnail>, effects: &mut Vec<Effect>) {
        let Some(held) = self.document.held.clone() else {
            return;
        };
        let text = text_of(self.document.layout());
        let there = self.record(&held.id).cloned();
        let is_there = there.as_ref().is_some_and(|record| {
            *record.text == *text && picture.as_ref().is_none_or(|picture| *picture == record.picture)
        });
        if is_there {
            return;
        }
        if picture.is_none() {
            self.shelf.changes += 1;
        }
        let record = Record {
            id: held.id,
            title: self.document.layout().title.clone(),
            changed_ms: self.shelf.now.ms,
            revision: held.revision,
            by: self.shelf.tab.clone(),
            text: text.into(),
            picture: picture
                .or_else(|| there.map(|record| record.picture.clone()))
                .unwrap_or_default(),
        };
        self.keep_record(record, effects);
    }

    /// Draws the picture of what is on the bench once nothing has been changed for a moment.
    pub(super) fn draw_thumbnail(&mut self, effects: &mut Vec<Effect>) {
        if self.picture_due().is_none() || self.is_in_gesture() || self.editing.is_some() {
            return;
        }
        self.shelf.pictured = self.shelf.changes;
        let picture = thumbnail(&self.scene());
        self.keep_held(Some(picture), effects);
    }

    /// Before another layout comes: the picture is brought up to date, and what came by link or file and was never changed
    /// is kept too, since it may be nowhere else.
    pub(in crate::session) fn leave_bench(&mut self, effects: &mut Vec<Effect>) {
        self.dismiss(crate::shelf::About::OtherTab);
        self.dismiss(crate::shelf::About::Copy);
        self.keep_what_came_from_outside(effects);
        self.draw_thumbnail(effects);
    }

    pub(super) fn keep_what_came_from_outside(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout();
        if self.is_embedded
            || self.document.held.is_some()
            || !is_from_outside(layout)
            || self.is_kept(&text_of(layout))
        {
            return;
        }
        let picture = thumbnail(&self.scene());
        self.document.held = Some(self.new_held());
        self.keep_held(Some(picture), effects);
    }

    /// Keeps what was kept by the first version of the store, or what was opened and not changed before the bench was
    /// emptied: without drawing it, because drawing it may be what went wrong.
    pub(crate) fn keep_text(&mut self, text: &str, effects: &mut Vec<Effect>) {
        if let Ok(layout) = layshaft_layout::decode(text)
            && is_from_outside(&layout)
            && !self.is_kept(&text_of(&layout))
        {
            self.put_on_shelf(
                &layout.title,
                text_of(&layout).into(),
                Thumbnail::default(),
                effects,
            );
        }
    }

    /// Lets what is on the bench be a record from now on.
    pub(crate) fn adopt(&mut self, effects: &mut Vec<Effect>) {
        self.keep_what_came_from_outside(effects);
    }

    /// Goes on with a copy, and leaves the record as it is.
    pub(in crate::session) fn work_on_copy(&mut self, effects: &mut Vec<Effect>) {
        let title = self.copy_title(&self.document.layout().title);
        self.fork(&title, effects);
        self.dismiss(crate::shelf::About::OtherTab);
        effects.push(Effect::Announce(format!(
            "This is {} from now on",
            words::title(&title)
        )));
    }

    /// What is on the bench becomes a new record under this title.
    pub(super) fn fork(&mut self, title: &str, effects: &mut Vec<Effect>) {
        self.close_edit(effects);
        self.give_up_gesture(effects);
        self.document.held = Some(self.new_held());
        let command = layshaft_layout::Command::SetTitle(title.to_owned());
        self.commit(command, "make it a copy", effects);
    }

    pub(super) fn put_on_shelf(
        &mut self,
        title: &str,
        text: Rc<str>,
        picture: Thumbnail,
        effects: &mut Vec<Effect>,
    ) -> Rc<str> {
        let Held { id, revision } = self.new_held();
        let record = Record {
            id: id.clone(),
            title: title.to_owned(),
            changed_ms: self.shelf.now.ms,
            revision,
            by: self.shelf.tab.clone(),
            text,
            picture,
        };
        self.keep_record(record, effects);
        id
    }

    /// Shows a record as kept and has it kept.
    pub(super) fn keep_record(&mut self, record: Record, effects: &mut Vec<Effect>) {
        let record = Record {
            by: self.shelf.tab.clone(),
            ..record
        };
        self.show_record(record.clone());
        effects.push(Effect::Shelf(ShelfEffect::Keep(Box::new(record))));
    }

    pub(super) fn show_record(&mut self, record: Record) {
        let records = Rc::make_mut(&mut self.shelf.records);
        let record = Rc::new(record);
        match records.iter_mut().find(|other| other.id == record.id) {
            Some(place) => *place = record,
            None => records.push(record),
        }
    }

    pub(super) fn take_from_shelf(&mut self, id: &str) {
        Rc::make_mut(&mut self.shelf.records).retain(|record| &*record.id != id);
    }

    pub(super) fn is_kept(&self, text: &str) -> bool {
        self.kept_as(text).is_some()
    }

    /// The record with this text.
    pub(in crate::session) fn kept_as(&self, text: &str) -> Option<Rc<str>> {
        let mut records = self.shelf.records.iter();
        let record = records.find(|record| &*record.text == text)?;
        Some(record.id.clone())
    }

    /// A record that this tab makes: ids of no two tabs are the same, nor any two of one.
    fn new_held(&mut self) -> Held {
        self.shelf.made += 1;
        Held {
            id: format!("{}-{}", self.shelf.tab, self.shelf.made).into(),
            revision: 0,
        }
    }
}

/// Whether a layout is neither empty nor one of those that come with the program.
fn is_from_outside(layout: &layshaft_layout::Layout) -> bool {
    let is_demo = |text: &str| layshaft_layout::decode(text).is_ok_and(|demo| demo == *layout);
    let is_empty = layout.shafts.is_empty() && layout.elements.is_empty();
    !is_empty && !DEMOS.iter().any(|demo| is_demo(demo.text))
}
