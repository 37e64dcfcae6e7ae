//! Typing: every keystroke is previewed, Enter or leaving makes one change, Esc puts back what was.

use layshaft_layout::{Command, Id, Refusal};

use super::{Editing, Effect, Session};
use crate::fields;
use crate::numbers::MINUS;
use crate::target::{FieldRef, Target};
use crate::units::Units;

impl Session {
    /// Begins to edit a field: on the drawing where its number stands there, else in the panel.
    pub(super) fn begin_edit(&mut self, field: FieldRef, on_drawing: bool, effects: &mut Vec<Effect>) {
        if self
            .editing
            .as_ref()
            .is_some_and(|editing| editing.field == field)
        {
            return;
        }
        self.end_edit(effects);
        let layout = self.document.layout();
        if !super::handle::exists(layout, &field.target) {
            return;
        }
        let place = on_drawing.then(|| self.edit_place(&field)).flatten();
        self.editing = Some(Editing {
            text: fields::shown_text(layout, &field, self.units),
            spoken: fields::spoken_name(layout, &field),
            problem: None,
            place,
            fresh: false,
            then: None,
            field: field.clone(),
        });
        effects.push(Effect::FocusField(field));
    }

    /// Text was typed: what it would change is shown at once.
    pub(super) fn type_into(&mut self, field: FieldRef, text: String, effects: &mut Vec<Effect>) {
        if self.editing.as_ref().is_none_or(|editing| editing.field != field) {
            let mut ignored = Vec::new();
            self.end_edit(effects);
            self.begin_edit(field.clone(), false, &mut ignored);
        }
        let outcome = fields::edit(self.document.layout(), &field, &text, self.units);
        let problem = match outcome.map(|command| self.try_out(&field, &command)) {
            Ok(Ok(())) => None,
            Ok(Err(refusal)) => Some(fields::sentence(&refusal)),
            Err(sentence) => Some(sentence),
        };
        if let Some(editing) = &mut self.editing {
            editing.text = text;
            editing.problem = problem;
            editing.fresh = false;
        }
        self.follow_edit_place();
    }

    /// Previews a change. A new name is only tried: were it shown, the thing would be another one at every keystroke.
    fn try_out(&mut self, field: &FieldRef, command: &Command) -> Result<(), Refusal> {
        if field.path == "id" {
            return (**self.document.layout()).clone().apply(command).map(drop);
        }
        self.preview(command)
    }

    /// The number may have moved with what was typed, or with another size of the drawing; its editor stays on it.
    pub(super) fn follow_edit_place(&mut self) {
        let place = self
            .editing
            .as_ref()
            .and_then(|editing| self.edit_place(&editing.field));
        if let Some(editing) = self.editing.as_mut().filter(|editing| editing.place.is_some()) {
            editing.place = place.or(editing.place);
        }
    }

    /// Makes one change of what was typed. What is wrong stays in the field with its sentence, and out of the layout.
    pub(super) fn end_edit(&mut self, effects: &mut Vec<Effect>) {
        let Some(editing) = self.editing.take() else {
            return;
        };
        if editing.problem.is_some() {
            effects.extend(editing.problem.clone().map(Effect::Announce));
            self.editing = Some(editing);
            self.show_document();
            return;
        }
        let layout = self.document.layout();
        if editing.text == fields::shown_text(layout, &editing.field, self.units) {
            self.show_document();
        } else if let Ok(command) = fields::edit(layout, &editing.field, &editing.text, self.units) {
            let name = format!("set {}", told_field(&editing));
            let renamed = renamed(&editing.field, &command);
            if self.commit(command, &name, effects) {
                if let Some((old, new)) = renamed {
                    self.follow_rename(&old, &new);
                } else {
                    self.say_with_result(&format!("{} {}", editing.spoken, editing.text), effects);
                }
            }
        }
        self.leave_edit(&editing, effects);
    }

    /// Esc in a field.
    pub(super) fn cancel_edit(&mut self, effects: &mut Vec<Effect>) {
        let Some(editing) = self.editing.take() else {
            return;
        };
        self.show_document();
        if editing.place.is_some() {
            self.leave_edit(&editing, effects);
        } else {
            effects.push(Effect::FocusBench);
        }
    }

    /// An edit that is going on when something else is done: good text is kept, bad text is let go.
    pub(super) fn close_edit(&mut self, effects: &mut Vec<Effect>) {
        let was_on_drawing = self
            .editing
            .as_ref()
            .is_some_and(|editing| editing.place.is_some());
        self.leave_for_something_else(effects);
        if self.editing.take().is_some() {
            self.show_document();
        }
        if was_on_drawing {
            // What is done next says where the focus goes, or it stays with the drawing.
            effects.push(Effect::FocusBench);
        }
    }

    /// Ends an edit without moving the focus: on the field's own thing it would select that.
    pub(super) fn leave_for_something_else(&mut self, effects: &mut Vec<Effect>) {
        self.stay_after_edit();
        let before = effects.len();
        self.end_edit(effects);
        let made = effects.split_off(before);
        effects.extend(
            made.into_iter()
                .filter(|effect| !matches!(effect, Effect::Focus(_))),
        );
    }

    /// An arrow key in a number field.
    pub(super) fn step_field(&mut self, field: FieldRef, by: i32, effects: &mut Vec<Effect>) {
        let editing = self.editing.as_ref().filter(|editing| editing.field == field);
        let current = editing.map_or_else(
            || fields::shown_text(&self.shown, &field, self.units),
            |editing| editing.text.clone(),
        );
        if let Some(text) = stepped(&self.shown, &field, &current, by, self.units) {
            self.type_into(field, text, effects);
        }
    }

    /// Steps the first number of what is selected, as one change.
    pub(super) fn step_selected(&mut self, by: i32, effects: &mut Vec<Effect>) {
        let Some(target) = self.selection.last().cloned() else {
            return;
        };
        let layout = self.document.layout().clone();
        let Some(field) = fields::first_number(&layout, &target) else {
            return;
        };
        let current = fields::shown_text(&layout, &field, self.units);
        let Some(text) = stepped(&layout, &field, &current, by, self.units) else {
            return;
        };
        match fields::edit(&layout, &field, &text, self.units) {
            Ok(command) => {
                let what = fields::spoken_name(&layout, &field).to_lowercase();
                if self.commit(command, &format!("set {what}"), effects) {
                    self.say_with_result(&format!("{what} {text}"), effects);
                }
            }
            Err(sentence) => effects.push(Effect::Announce(sentence)),
        }
    }

    /// Sets several fields as one change; their texts are in the file's units.
    pub(super) fn set_fields(
        &mut self,
        fields: &[(FieldRef, String)],
        name: &str,
        effects: &mut Vec<Effect>,
    ) {
        self.close_edit(effects);
        let mut layout = (**self.document.layout()).clone();
        let mut commands = Vec::new();
        for (field, text) in fields {
            match fields::edit(&layout, field, text, Units::default()) {
                Ok(command) if layout.apply(&command).is_ok() => commands.push(command),
                Ok(_) => {}
                Err(sentence) => effects.push(Effect::Announce(sentence)),
            }
        }
        if !commands.is_empty() {
            self.commit(Command::Batch(commands), name, effects);
        }
    }

    fn follow_rename(&mut self, old: &Target, new: &Target) {
        let selection = self
            .selection
            .iter()
            .map(|target| if target == old { new } else { target })
            .cloned()
            .collect();
        self.select(selection);
        if let Target::Shaft(new) = new
            && self.working_shaft.as_ref() == old.id()
        {
            self.working_shaft = Some(new.clone());
        }
        // Selected by its old name it was forgotten when the document changed.
        if self.selection.is_empty() {
            self.select(vec![new.clone()]);
        }
    }
}

fn told_field(editing: &Editing) -> String {
    let what = editing.spoken.to_lowercase();
    editing
        .field
        .target
        .id()
        .map_or_else(|| what.clone(), |id| format!("{what} of {id}"))
}

/// The old and the new name, where the change is a renaming.
fn renamed(field: &FieldRef, command: &Command) -> Option<(Target, Target)> {
    match command {
        Command::RenameShaft { to, .. } => Some((field.target.clone(), Target::Shaft(to.clone()))),
        Command::RenameElement { to, .. } => Some((field.target.clone(), Target::Element(to.clone()))),
        _ => None,
    }
}

/// The text of a number some steps up or down; none where it is no number.
fn stepped(
    layout: &layshaft_layout::Layout,
    field: &FieldRef,
    text: &str,
    by: i32,
    units: Units,
) -> Option<String> {
    let step = fields::step_of(layout, field, units)?;
    let plain = text.replace(MINUS, "-").replace(',', ".");
    let value: f64 = if plain.trim().is_empty() {
        0.0
    } else {
        plain.trim().parse().ok()?
    };
    // Steps are decimal, so the sum is rounded to what a person would have typed.
    let sum = value + step * f64::from(by);
    let digits = decimals(step).max(decimals(value)).min(9);
    let rounded = format!("{sum:.digits$}");
    let tidy = if rounded.contains('.') {
        rounded.trim_end_matches('0').trim_end_matches('.')
    } else {
        &rounded
    };
    Some(if tidy == "-0" {
        "0".to_owned()
    } else {
        tidy.replace('-', &MINUS.to_string())
    })
}

fn decimals(value: f64) -> usize {
    format!("{value}")
        .split_once('.')
        .map_or(0, |(_, part)| part.len())
}

/// The id of what is selected, for names of changes.
pub(super) fn named(target: &Target) -> String {
    target.id().map_or_else(|| "the layout".to_owned(), Id::to_string)
}
