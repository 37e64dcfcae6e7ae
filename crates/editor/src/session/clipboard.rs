//! Copying, cutting, pasting and duplicating: one change each, by the page's own clipboard events or by action.

use layshaft_layout::Layout;

use super::{Effect, Message, Session};
use crate::clipboard::{BESIDE, NotAPart, Part, Pasting};
use crate::geometry::Point;
use crate::groups;
use crate::target::Target;
use crate::wording;

/// The button that opens what was put beside.
const OFFER: &str = "Open it by itself instead";

impl Session {
    /// The text that copying puts on the clipboard; none where nothing is selected.
    #[must_use]
    pub fn copied_text(&self) -> Option<String> {
        self.part().map(|part| part.text())
    }

    /// What is offered beside the message over the bench.
    #[must_use]
    pub fn offer(&self) -> Option<&'static str> {
        let offered = self.hands.offered.as_ref()?;
        let message = self.message.as_ref()?;
        (message.text == wording::put_beside(&offered.title)).then_some(OFFER)
    }

    /// Shafts and elements that are selected, with those of selected groups.
    pub(super) fn selected_things(&self) -> Vec<Target> {
        let mut things = groups::expanded(self.document.layout(), &self.selection);
        things.retain(|target| matches!(target, Target::Shaft(_) | Target::Element(_)));
        things
    }

    fn part(&self) -> Option<Part> {
        Part::of(self.document.layout(), &self.selected_things())
    }

    /// What is selected was copied by the page's own event; a cut takes it away.
    pub(super) fn copied(&mut self, cut: bool, effects: &mut Vec<Effect>) {
        let Some(part) = self.part() else { return };
        self.hands.copied = Some(part.text());
        self.hands.copied_here = true;
        let things = wording::things(part.count());
        if cut {
            let targets = (*self.selection).clone();
            self.remove_as(&targets, &format!("cut {things}"), effects);
        } else {
            effects.push(Effect::Announce(format!("{things} copied")));
        }
    }

    /// Copies by action: the page is asked to put the text on the clipboard.
    pub(super) fn copy(&mut self, cut: bool, effects: &mut Vec<Effect>) {
        if let Some(text) = self.copied_text() {
            effects.push(Effect::CopyText(text));
            self.copied(cut, effects);
        }
    }

    /// The browser did not let the page read its clipboard: what was copied here is pasted, if anything was.
    pub(super) fn paste_refused(&mut self, effects: &mut Vec<Effect>) {
        match self.hands.copied.clone() {
            Some(text) => self.paste(&text, effects),
            None => {
                self.hands.here = None;
                self.fail(wording::PASTE_REFUSED.to_owned(), Vec::new(), effects);
            }
        }
    }

    /// Pastes a part, a whole layout or a link.
    pub(super) fn paste(&mut self, text: &str, effects: &mut Vec<Effect>) {
        self.close_edit(effects);
        self.give_up_gesture(effects);
        let here = self.hands.here.take();
        match Part::read(text) {
            Ok(part) if part.is_whole() => self.paste_whole(part, effects),
            Ok(part) => {
                let keeps_ends = self.was_copied_here(text) || part.is_from(self.document.layout());
                let over = here.or_else(|| self.pointed());
                let beside = || part.place_beside(self.document.layout()).filter(|_| keeps_ends);
                let at = over.or_else(beside).unwrap_or_else(|| self.middle());
                let by = part.way_to(at, self.document.layout(), keeps_ends);
                self.put(&part, keeps_ends, by, "paste", effects);
            }
            Err(refusal) => self.refuse_paste(&refusal, effects),
        }
    }

    /// Whether this is what was copied last from the layout on the bench; systems may end lines in their own way.
    fn was_copied_here(&self, text: &str) -> bool {
        let copied = self.hands.copied.as_deref().filter(|_| self.hands.copied_here);
        copied.is_some_and(|copied| copied.lines().eq(text.lines()))
    }

    /// Where the pointer is on the bench, if it is over the drawing.
    fn pointed(&self) -> Option<Point> {
        self.hands.pointer.map(|at| self.flow_view().to_bench(at))
    }

    /// The middle of what is seen.
    fn middle(&self) -> Point {
        let view = self.flow_view();
        view.to_bench(view.middle())
    }

    fn refuse_paste(&mut self, refusal: &NotAPart, effects: &mut Vec<Effect>) {
        let (text, lines) = wording::not_pasted(refusal);
        self.fail(text, lines, effects);
    }

    /// A whole layout goes beside what is there; on an empty bench it is opened.
    fn paste_whole(&mut self, part: Part, effects: &mut Vec<Effect>) {
        let announced = format!("Opened {} from the clipboard", part.title());
        if self.document.layout().shafts.is_empty() {
            return self.open(part.into_layout(), &announced, effects);
        }
        let by = part.way_below(self.document.layout());
        let beside = wording::put_beside(part.title());
        if self.put(&part, false, by, "paste", effects) {
            self.fit();
            self.message = Some(Message {
                text: beside,
                lines: Vec::new(),
                is_error: false,
            });
            self.hands.offered = Some(part.into_layout());
        }
    }

    /// Opens what was put beside by itself: the pasting is taken back first.
    pub(super) fn take_offer(&mut self, effects: &mut Vec<Effect>) {
        let Some(layout) = self.hands.offered.take() else {
            return;
        };
        if self
            .document
            .undo_name()
            .is_some_and(|name| name.starts_with("paste "))
        {
            self.undo(&mut Vec::new());
        }
        let announced = format!("Opened {} from the clipboard", layout.title);
        self.open(layout, &announced, effects);
    }

    /// Copies what is selected a little below; ends on shafts that were not copied stay there.
    pub(super) fn duplicate(&mut self, effects: &mut Vec<Effect>) {
        if let Some(part) = self.part() {
            self.put(&part, true, BESIDE, "duplicate", effects);
        }
    }

    /// Puts a part into the layout as one change and selects what was made.
    fn put(
        &mut self,
        part: &Part,
        keeps_ends: bool,
        by: Point,
        verb: &str,
        effects: &mut Vec<Effect>,
    ) -> bool {
        let Pasting { command, made } = part.pasted(self.document.layout(), keeps_ends, by);
        let things = wording::things(made.len());
        if !self.commit(command, &format!("{verb} {things}"), effects) {
            return false;
        }
        let made = as_selected(self.document.layout(), &made);
        let last = made.last().cloned();
        self.select(made);
        if let Some(last) = last {
            self.show_target(&last);
            effects.push(Effect::Focus(last));
        }
        effects.push(Effect::Announce(wording::pasted(&things, verb)));
        true
    }
}

/// Folded groups in the place of what hides in them.
fn as_selected(layout: &Layout, made: &[Target]) -> Vec<Target> {
    let mut found: Vec<Target> = Vec::new();
    for target in made.iter().map(|target| groups::visible(layout, target)) {
        if !found.contains(&target) {
            found.push(target);
        }
    }
    found
}
