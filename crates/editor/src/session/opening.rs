//! Layouts from outside: files, links, demos, the empty bench; and the way out again.

use layshaft_layout::link::{self, LinkError};
use layshaft_layout::{DocumentError, Layout, decode, encode};

use super::document::Document;
use super::{Effect, Message, Session};
use crate::actions::Panel;
use crate::clipboard::Part;
use std::rc::Rc;

/// Most lines of a file's errors that are shown at once.
pub(super) const MOST_LINES: usize = 12;

impl Session {
    /// Opens a file's text; what can't be read leaves the bench as it was and is told with every path.
    pub(super) fn open_text(&mut self, text: &str, name: &str, effects: &mut Vec<Effect>) {
        self.close_edit(effects);
        self.give_up_gesture(effects);
        match decode(text) {
            Ok(layout) => self.open(layout, &format!("Opened {name}"), effects),
            Err(errors) => {
                self.fail(
                    format!("{name} could not be opened; the bench is as it was."),
                    lines_of(&errors),
                    effects,
                );
            }
        }
    }

    /// Text was dropped on the page: a whole layout is opened like a file, and one that is kept is the kept one; a part is
    /// pasted.
    pub(super) fn dropped(&mut self, text: &str, effects: &mut Vec<Effect>) {
        const DROPPED: &str = "What was dropped";
        if let Ok(part) = Part::read(text) {
            if !part.is_whole() {
                return self.paste(text, effects);
            }
            let layout = part.into_layout();
            if let Some(id) = self.kept_as(&encode(&layout)) {
                return self.open_record(&id, effects);
            }
            self.close_edit(effects);
            self.give_up_gesture(effects);
            let announced = format!("Opened {}", layout.title);
            return self.open(layout, &announced, effects);
        }
        self.import(vec![(DROPPED.to_owned(), text.to_owned())], effects);
    }

    /// Puts another layout on the bench; undo brings the old one back.
    pub(super) fn open(&mut self, layout: Layout, announced: &str, effects: &mut Vec<Effect>) {
        self.lay_on_bench(Document::new(layout), announced, effects);
    }

    /// As [`Self::open`], with all that was done to it.
    pub(super) fn lay_on_bench(&mut self, document: Document, announced: &str, effects: &mut Vec<Effect>) {
        self.leave_bench(effects);
        let replaced = std::mem::replace(&mut self.document, document);
        // An empty bench that nothing was done to is not worth going back to.
        if !replaced.layout().shafts.is_empty() || replaced.undo_name().is_some() {
            Rc::make_mut(&mut self.before).push(replaced);
        }
        self.after = Rc::default();
        self.message = None;
        self.hands.copied_here = false;
        self.hands.offered = None;
        self.settle(effects);
        self.position = super::first_position(&self.shown);
        self.select(Vec::new());
        self.lit = Rc::default();
        self.working_shaft = None;
        self.revealed = Rc::default();
        self.redraw();
        self.fit();
        effects.push(Effect::Announce(announced.to_owned()));
    }

    pub(super) fn empty_bench(&mut self, effects: &mut Vec<Effect>) {
        self.panel = None;
        self.open(
            super::untitled(),
            "An empty bench. Undo brings the old layout back.",
            effects,
        );
        effects.push(Effect::FocusBench);
    }

    pub(super) fn fail(&mut self, text: String, lines: Vec<String>, effects: &mut Vec<Effect>) {
        effects.push(Effect::Announce(text.clone()));
        self.message = Some(Message {
            text,
            lines,
            is_error: true,
        });
    }

    /// Opens the part of an address behind `#`, if it holds a layout.
    pub(super) fn open_link(&mut self, fragment: &str, effects: &mut Vec<Effect>) {
        match link::decode(fragment) {
            Ok(layout) => {
                self.close_edit(effects);
                self.give_up_gesture(effects);
                self.open(layout, "Opened the layout of the link", effects);
            }
            // An address without a layout in it is no failure.
            Err(LinkError::NotALink) => {}
            Err(LinkError::Document(errors)) => {
                let text = "The layout in this link has errors; the bench is as it was.";
                self.fail(text.to_owned(), lines_of(&errors), effects);
            }
            Err(error) => {
                let text = format!(
                    "{}. The bench is as it was.",
                    crate::fields::sentence_case(&error.to_string())
                );
                self.fail(text, Vec::new(), effects);
            }
        }
    }

    pub(super) fn share(&mut self, effects: &mut Vec<Effect>) {
        self.panel = Some(Panel::Share);
        match link::encode_checked(self.document.layout()) {
            Ok(link) => effects.push(Effect::CopyLink(link)),
            Err(_) => {
                let text = "This layout is too large for a link. Save it as a file and send that.";
                self.fail(text.to_owned(), Vec::new(), effects);
            }
        }
    }

    pub(super) fn download(&mut self, effects: &mut Vec<Effect>) {
        effects.push(Effect::Download {
            name: self.file_name(),
            text: self.file_text(),
        });
    }

    /// The layout as a file's text, for the store: what was last done, not what is being previewed.
    #[must_use]
    pub fn file_text(&self) -> String {
        encode(self.document.layout())
    }

    /// A file name made of the title.
    #[must_use]
    pub fn file_name(&self) -> String {
        file_name_of(&self.document.layout().title)
    }

    /// The address fragment that holds the layout, for the share panel.
    #[must_use]
    pub fn link(&self) -> String {
        link::encode(self.document.layout())
    }
}

/// A file name made of a title.
pub(crate) fn file_name_of(title: &str) -> String {
    let words: String = title
        .chars()
        .map(|c| {
            if c.is_alphanumeric() {
                c.to_lowercase().next().unwrap_or(c)
            } else {
                ' '
            }
        })
        .collect();
    let stem = words.split_whitespace().collect::<Vec<_>>().join("-");
    let stem = if stem.is_empty() { "layout" } else { &stem };
    format!("{stem}.layshaft.json")
}

/// All that is wrong with a file, each with its path; a long list is cut.
pub(super) fn lines_of(errors: &[DocumentError]) -> Vec<String> {
    let mut lines: Vec<String> = errors.iter().take(MOST_LINES).map(ToString::to_string).collect();
    if errors.len() > MOST_LINES {
        lines.push(format!("and {} more", errors.len() - MOST_LINES));
    }
    lines
}
