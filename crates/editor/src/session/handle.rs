//! Every input leads to one method here or in a neighbouring file.

use std::rc::Rc;

use layshaft_layout::{Command, Id, Layout};

use super::{Effect, Input, Message, Session};
use crate::actions::Action;
use crate::fields;
use crate::keys;
use crate::target::Target;
use crate::wording;

impl Session {
    /// Takes what happened and says what the page is to do.
    pub fn handle(&mut self, input: Input) -> Vec<Effect> {
        let mut effects = Vec::new();
        if self.is_embedded && !crate::embed::takes(&input) {
            return effects;
        }
        self.take(input, &mut effects);
        self.follow_edit_place();
        self.focus_what_is_seen(&mut effects);
        self.follow_choosing(&mut effects);
        self.keep_on_shelf(&mut effects);
        effects
    }

    /// What hides in a folded group can't have the focus; its group has it instead.
    fn focus_what_is_seen(&self, effects: &mut [Effect]) {
        for effect in effects {
            if let Effect::Focus(target) = effect {
                *target = self.visible(target);
            }
        }
    }

    pub(super) fn take(&mut self, input: Input, effects: &mut Vec<Effect>) {
        match input {
            Input::Pointer(pointer) => self.pointer(&pointer, effects),
            Input::DoubleClick(at) => self.double_click(at, effects),
            Input::Zoom { at, by } => self.zoom(at, by),
            Input::PanBy(by) => self.pan(by),
            Input::Key(press) => {
                if let Some(action) = keys::action_for(&press) {
                    self.by_key(action, effects);
                }
            }
            Input::Act(action) => self.act(action, effects),
            Input::PlaceHere(kind) => self.place_here(kind, effects),
            Input::TrayOver(kind, at) => self.tray_over(kind, at),
            Input::TrayDrop(kind, at) => self.tray_drop(kind, at, effects),
            Input::TrayLeave => self.tray_leave(),
            Input::Focus(target) => self.focus(target),
            Input::Select {
                targets,
                add,
                position,
            } => self.select_listed(targets, add, position, effects),
            Input::Light(targets) => self.light(targets),
            Input::BeginEdit(field) => self.begin_edit(field, false, effects),
            Input::Type { field, text } => self.type_into(field, text, effects),
            Input::EndEdit => self.end_edit(effects),
            Input::LeaveEdit => self.leave_for_something_else(effects),
            Input::CancelEdit => self.cancel_edit(effects),
            Input::NextField { back } => self.next_field(back, effects),
            Input::StepField { field, by } => self.step_field(field, by, effects),
            Input::SetEngaged {
                position,
                element,
                on,
            } => self.set_engaged(position, element, on, effects),
            Input::SetFields { fields, name } => self.set_fields(&fields, &name, effects),
            Input::Change { command, name } => {
                self.close_edit(effects);
                self.commit(*command, &name, effects);
            }
            Input::Copied { cut } => self.copied(cut, effects),
            Input::Paste(text) => self.paste(&text, effects),
            Input::PasteRefused => self.paste_refused(effects),
            Input::CopyRefused => self.fail(wording::COPY_REFUSED.to_owned(), Vec::new(), effects),
            Input::TakeOffer => self.take_offer(effects),
            Input::OpenMenu(at, kind) => self.open_menu(Some(at), kind, effects),
            Input::ChooseFromMenu(number) => self.choose_from_menu(number, effects),
            Input::CloseMenu => self.close_menu(effects),
            Input::LeaveMenu => self.hands.menu = None,
            Input::FindAction(query) => self.find_action(query),
            Input::LongPress(pointer) => self.long_press(pointer, effects),
            Input::Space(down) => self.space(down, effects),
            Input::LetGo => self.let_go(),
            Input::Remove { targets } => self.remove(&targets, effects),
            Input::Position(id) => self.show_position(id, effects),
            Input::Working(shaft) => self.show_working(shaft),
            Input::Reveal(line) => {
                Rc::make_mut(&mut self.revealed).insert(line);
            }
            Input::SeekOtherStates => self.seek_other_states(effects),
            Input::Resize(size) => self.resize(size),
            Input::OpenText { text, name } => self.open_text(&text, &name, effects),
            Input::OpenLink(fragment) => self.open_link(&fragment, effects),
            Input::SetUnit(what, symbol) => self.set_unit(what, symbol, effects),
            Input::SortTable(table, column) => self.sort_table(table, column, effects),
            Input::ShowColumn { table, column, shown } => self.show_column(table, column, shown, effects),
            Input::Dropped(text) => self.dropped(&text, effects),
            Input::Face { file, face } => self.save_drawing(file, face.as_deref(), effects),
            Input::ChooseBuild(choice) => self.choose_build(choice, effects),
            Input::Explain { target, end } => self.explain_row(target, end),
            Input::SetPreferences(text) => self.set_preferences(&text),
            Input::SetTheme(theme) => self.theme = theme,
            Input::SystemIsDark(dark) => self.system_is_dark = dark,
            Input::Run(input) => self.run_input(input, effects),
            Input::Choose(input) => self.choose_input(input, effects),
            Input::DismissMessage => {
                self.message = None;
                self.hands.offered = None;
            }
            Input::Shelf(input) => self.shelf_input(input, effects),
        }
    }

    /// An action by key: parts go where the keyboard is instead of waiting for a pointer.
    fn by_key(&mut self, action: Action, effects: &mut Vec<Effect>) {
        // A number that opened by itself lets go of keys that begin no number; what was open ends first.
        if self.editing.is_some() && action != Action::Cancel {
            self.close_edit(effects);
        }
        match action {
            Action::Place(kind) => self.place_here(kind, effects),
            other => self.act(other, effects),
        }
    }

    /// Makes one change; a refusal becomes a message and leaves everything as it was.
    pub(super) fn commit(&mut self, command: Command, name: &str, effects: &mut Vec<Effect>) -> bool {
        match self.document.carry_out(command, name) {
            Ok(()) => {
                self.after = Rc::default();
                self.settle(effects);
                true
            }
            Err(refusal) => {
                self.show_document();
                let text = fields::sentence(&refusal);
                effects.push(Effect::Announce(text.clone()));
                self.message = Some(Message {
                    text,
                    lines: Vec::new(),
                    is_error: true,
                });
                false
            }
        }
    }

    /// After the document has changed: shows it, forgets what is gone, has it stored.
    pub(super) fn settle(&mut self, effects: &mut Vec<Effect>) {
        self.show_document();
        self.forget_what_is_gone();
        effects.push(Effect::Save);
    }

    /// Shows the document as it is, without what was being dragged or typed.
    pub(super) fn show_document(&mut self) {
        let layout = self.document.layout().clone();
        self.show(layout);
    }

    /// Shows what a command would do, without doing it; false where it is refused.
    pub(super) fn preview(&mut self, command: &Command) -> Result<(), layshaft_layout::Refusal> {
        let mut layout = (**self.document.layout()).clone();
        layout.apply(command)?;
        self.show(Rc::new(layout));
        Ok(())
    }

    fn show(&mut self, layout: Rc<Layout>) {
        self.computed.follow(&layout);
        self.shown = layout;
        self.redraw();
    }

    /// The drawing has to be made anew when it is next asked for.
    pub(super) fn redraw(&mut self) {
        self.scene.replace(None);
        self.picture.replace(None);
    }

    pub(super) fn forget_what_is_gone(&mut self) {
        let layout = self.shown.clone();
        let is_there = |target: &Target| exists(&layout, target);
        Rc::make_mut(&mut self.selection).retain(is_there);
        Rc::make_mut(&mut self.lit).retain(is_there);
        let positions = layout.effective_positions();
        if !positions.iter().any(|position| position.id == self.position) {
            self.position = positions
                .first()
                .map_or_else(|| Id::from("only"), |position| position.id.clone());
        }
        self.working_shaft = self
            .working_shaft
            .take()
            .filter(|shaft| layout.shaft(shaft).is_some());
        self.redraw();
    }
}

/// Whether something is in the layout.
pub(super) fn exists(layout: &Layout, target: &Target) -> bool {
    match target {
        Target::Shaft(id) => layout.shaft(id).is_some(),
        Target::Element(id) => layout.element(id).is_some(),
        Target::Position(id) => layout
            .effective_positions()
            .iter()
            .any(|position| position.id == *id),
        Target::Group(id) => layout.group(id).is_some(),
        Target::Layout => true,
    }
}
