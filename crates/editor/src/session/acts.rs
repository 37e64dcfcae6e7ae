//! Actions: undo, delete, go, positions, panels and the rest of the list.

use std::collections::BTreeMap;
use std::rc::Rc;

use layshaft_layout::{Command, Element, Id, Layout, Position};

use super::edits::named;
use super::{Effect, Session, Theme};
use crate::actions::{Action, Direction, Panel};
use crate::demos;
use crate::fields;
use crate::geometry::Point;
use crate::parts;
use crate::placement::{GRID, arranged};
use crate::target::Target;
use crate::tools::Tool;

/// Names that positions get.
const ORDINALS: [&str; 8] = [
    "First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth",
];

impl Session {
    pub(super) fn act(&mut self, action: Action, effects: &mut Vec<Effect>) {
        match action {
            Action::Cancel => self.cancel(effects),
            Action::Fit => self.fit(),
            Action::ZoomIn => self.zoom(self.view.middle(), 1.25),
            Action::ZoomOut => self.zoom(self.view.middle(), 0.8),
            Action::ActualSize => self.zoom(self.view.middle(), 1.0 / self.view.zoom),
            Action::Toggle(panel) => self.toggle(panel),
            Action::ChangeTheme => self.change_theme(effects),
            Action::HideAnswers => self.change_answers(effects),
            Action::ToggleLabel(what) => self.toggle_label(what),
            Action::SelectTool => self.take_tool(Tool::Select, effects),
            Action::PanTool => self.take_tool(Tool::Pan, effects),
            Action::Place(kind) => self.take_tool(Tool::Place(kind), effects),
            Action::Go(direction) => self.go(direction, false, effects),
            Action::Extend(direction) => self.go(direction, true, effects),
            Action::NextPart => self.next_part(1, effects),
            Action::PreviousPart => self.next_part(-1, effects),
            Action::SelectAll => self.select_all(effects),
            Action::EditFirst => self.edit_first(effects),
            Action::Position(number) => self.show_numbered(number, effects),
            Action::NextPosition => self.turn_position(1, effects),
            Action::PreviousPosition => self.turn_position(-1, effects),
            other => {
                // What changes the document first finishes what is being typed.
                self.close_edit(effects);
                self.give_up_gesture(effects);
                self.change(other, effects);
            }
        }
    }

    /// Actions that change or replace the document.
    fn change(&mut self, action: Action, effects: &mut Vec<Effect>) {
        match action {
            Action::Undo => self.undo(effects),
            Action::Redo => self.redo(effects),
            Action::Delete => {
                let targets = (*self.selection).clone();
                self.remove(&targets, effects);
            }
            Action::Duplicate => self.duplicate(effects),
            Action::Step(by) => self.step_selected(by, effects),
            Action::Nudge(direction) => self.nudge(direction, effects),
            Action::Arrange => self.arrange(effects),
            Action::AddPosition => self.add_position(effects),
            Action::RemovePosition => self.remove_position(effects),
            Action::ToggleEngaged => self.toggle_engaged(effects),
            Action::MakeDrive => self.make_drive(effects),
            Action::EmptyBench => self.empty_bench(effects),
            Action::OpenDemo(id) => {
                if let Some(demo) = demos::demo(id) {
                    self.open_text(demo.text, demo.name, effects);
                }
            }
            Action::Share => self.share(effects),
            Action::Download => self.download(effects),
            _ => {}
        }
    }

    /// Backs out of one thing: an edit, a gesture, a tool, a message, a panel, the selection.
    fn cancel(&mut self, effects: &mut Vec<Effect>) {
        if self.editing.is_some() {
            self.cancel_edit(effects);
        } else if self.is_in_gesture() {
            self.give_up_gesture(effects);
        } else if self.tool != Tool::Select {
            self.take_tool(Tool::Select, effects);
        } else if self.message.is_some() {
            self.message = None;
        } else if self.panel.is_some() {
            self.panel = None;
            effects.push(Effect::FocusBench);
        } else {
            self.select(Vec::new());
        }
    }

    fn take_tool(&mut self, tool: Tool, effects: &mut Vec<Effect>) {
        self.give_up_gesture(effects);
        self.clear_overlay();
        self.tool = tool;
        if let Tool::Place(_) = tool {
            effects.push(Effect::Announce(self.hint()));
        }
    }

    fn toggle(&mut self, panel: Panel) {
        self.panel = if self.panel == Some(panel) {
            None
        } else {
            Some(panel)
        };
        if self.panel == Some(Panel::Working) {
            self.working_shaft = self.selected_shaft().or(self.working_shaft.take());
        }
    }

    fn selected_shaft(&self) -> Option<Id> {
        match self.selection.last() {
            Some(Target::Shaft(id)) => Some(id.clone()),
            _ => None,
        }
    }

    fn change_theme(&mut self, effects: &mut Vec<Effect>) {
        let (theme, name) = match self.theme {
            Theme::System => (Theme::Paper, "paper"),
            Theme::Paper => (Theme::Slate, "slate"),
            Theme::Slate => (Theme::System, "as the system says"),
        };
        self.theme = theme;
        effects.extend([
            Effect::SavePreferences,
            Effect::Announce(format!("Colours: {name}")),
        ]);
    }

    fn change_answers(&mut self, effects: &mut Vec<Effect>) {
        self.hide_answers = !self.hide_answers;
        self.revealed = Rc::default();
        self.redraw();
        let words = if self.hide_answers {
            "Answers are hidden"
        } else {
            "Answers are shown"
        };
        effects.push(Effect::Announce(words.to_owned()));
    }

    fn toggle_label(&mut self, what: crate::actions::LabelPart) {
        use crate::actions::LabelPart;
        let shown = match what {
            LabelPart::Ratio => &mut self.labels.ratio,
            LabelPart::Speed => &mut self.labels.speed,
            LabelPart::Torque => &mut self.labels.torque,
            LabelPart::Power => &mut self.labels.power,
            LabelPart::Efficiency => &mut self.labels.efficiency,
        };
        *shown = !*shown;
        self.redraw();
    }

    fn undo(&mut self, effects: &mut Vec<Effect>) {
        if let Some(name) = self.document.undo() {
            self.settle(effects);
            effects.push(Effect::Announce(format!("Undone: {name}")));
        } else if let Some(before) = Rc::make_mut(&mut self.before).pop() {
            let replaced = std::mem::replace(&mut self.document, before);
            Rc::make_mut(&mut self.after).push(replaced);
            self.settle(effects);
            self.fit();
            effects.push(Effect::Announce("The layout from before is back".to_owned()));
        } else {
            effects.push(Effect::Announce("There is nothing to undo".to_owned()));
        }
    }

    fn redo(&mut self, effects: &mut Vec<Effect>) {
        if let Some(name) = self.document.redo() {
            self.settle(effects);
            effects.push(Effect::Announce(format!("Done again: {name}")));
        } else if let Some(after) = Rc::make_mut(&mut self.after).pop() {
            let replaced = std::mem::replace(&mut self.document, after);
            Rc::make_mut(&mut self.before).push(replaced);
            self.settle(effects);
            self.fit();
            effects.push(Effect::Announce("The layout opened last is back".to_owned()));
        } else {
            effects.push(Effect::Announce("There is nothing to do again".to_owned()));
        }
    }

    /// Deletes things; a shaft takes with it what sits on it.
    pub(super) fn remove(&mut self, targets: &[Target], effects: &mut Vec<Effect>) {
        let elements = targets.iter().filter_map(|target| match target {
            Target::Element(id) => Some(Command::RemoveElement { id: id.clone() }),
            _ => None,
        });
        let shafts = targets.iter().filter_map(|target| match target {
            Target::Shaft(id) => Some(Command::RemoveShaft { id: id.clone() }),
            _ => None,
        });
        let commands: Vec<Command> = elements.chain(shafts).collect();
        let name = match targets {
            [] => return,
            [one] => format!("delete {}", named(one)),
            several => format!("delete {} things", several.len()),
        };
        if !commands.is_empty() && self.commit(Command::Batch(commands), &name, effects) {
            effects.extend([Effect::Announce(format!("{name}: done")), Effect::FocusBench]);
        }
    }

    /// Copies the selected shafts and elements a little below; ends on shafts that were not copied stay there.
    fn duplicate(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout().clone();
        let mut ids = layout.id_maker();
        let mut renamed = BTreeMap::new();
        let (mut commands, mut made) = (Vec::new(), Vec::new());
        for shaft in layout
            .shafts
            .iter()
            .filter(|shaft| self.selection.contains(&Target::Shaft(shaft.id.clone())))
        {
            let id = ids.shaft();
            let at = [shaft.at[0] + GRID * 2.0, shaft.at[1] + GRID * 6.0];
            commands.push(Command::AddShaft {
                index: usize::MAX,
                shaft: layshaft_layout::Shaft {
                    id: id.clone(),
                    at,
                    ..shaft.clone()
                },
            });
            made.push(Target::Shaft(id.clone()));
            renamed.insert(shaft.id.clone(), id);
        }
        for element in layout
            .elements
            .iter()
            .filter(|element| self.selection.contains(&Target::Element(element.id.clone())))
        {
            let id = ids.element(crate::Kind::of(&element.kind).id_stem());
            let copy = copied(element, &id, &renamed);
            commands.push(Command::AddElement {
                index: usize::MAX,
                element: copy,
            });
            made.push(Target::Element(id));
        }
        if !commands.is_empty() && self.commit(Command::Batch(commands), "duplicate", effects) {
            effects.extend(made.last().cloned().map(Effect::Focus));
            self.select(made);
        }
    }

    fn nudge(&mut self, direction: Direction, effects: &mut Vec<Effect>) {
        let Some(grabbed) = self.selection.last().cloned() else {
            return;
        };
        let by = direction.vector() * GRID;
        self.preview_move(&grabbed, by, false, None);
        self.drop_moved(&grabbed, None, effects);
    }

    fn arrange(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout();
        let moves = arranged(layout, self.computed.report().drive.as_ref());
        let symbols = layout
            .elements
            .iter()
            .filter(|element| element.at.is_some())
            .map(|element| (element.id.clone(), None));
        let symbols = symbols.collect();
        let command = Command::Batch(vec![
            Command::MoveShafts { moves },
            Command::MoveElements { moves: symbols },
        ]);
        if self.commit(command, "arrange", effects) {
            self.fit();
        }
    }

    fn select_all(&mut self, effects: &mut Vec<Effect>) {
        let all: Vec<Target> = all_parts(&self.shown);
        effects.push(Effect::Announce(format!("{} things selected", all.len())));
        self.select(all);
    }

    fn next_part(&mut self, by: isize, effects: &mut Vec<Effect>) {
        let parts = all_parts(&self.shown);
        if parts.is_empty() {
            return;
        }
        let current = self
            .selection
            .last()
            .and_then(|target| parts.iter().position(|part| part == target));
        let count = parts.len() as isize;
        let next = current.map_or(if by > 0 { 0 } else { count - 1 }, |number| {
            (number as isize + by).rem_euclid(count)
        });
        self.go_to(parts[next.unsigned_abs()].clone(), false, effects);
    }

    /// Goes to the connected part that lies most nearly in a direction.
    fn go(&mut self, direction: Direction, keeps: bool, effects: &mut Vec<Effect>) {
        let Some(here) = self.selection.last().cloned() else {
            let start = self.computed.report().drive.clone().map(Target::Shaft);
            if let Some(target) = start.or_else(|| all_parts(&self.shown).first().cloned()) {
                self.go_to(target, false, effects);
            }
            return;
        };
        let scene = self.scene();
        let place = |target: &Target| match target {
            Target::Shaft(id) => scene
                .shafts
                .iter()
                .find(|shaft| shaft.id == *id)
                .map(|shaft| shaft.at),
            Target::Element(id) => scene
                .elements
                .iter()
                .find(|element| element.id == *id)
                .map(|element| element.at),
            Target::Position(_) | Target::Layout => None,
        };
        let Some(from) = place(&here) else { return };
        let along = direction.vector();
        let next = connected(&self.shown, &here)
            .into_iter()
            .filter_map(|target| Some((steepness(place(&target)? - from, along)?, target)))
            .min_by(|one, other| one.0.total_cmp(&other.0));
        match next {
            Some((_, target)) => self.go_to(target, keeps, effects),
            None => effects.push(Effect::Announce("Nothing is connected that way".to_owned())),
        }
    }

    fn go_to(&mut self, target: Target, keeps: bool, effects: &mut Vec<Effect>) {
        let mut selection = if keeps {
            (*self.selection).clone()
        } else {
            Vec::new()
        };
        selection.retain(|other| *other != target);
        selection.push(target.clone());
        self.select(selection);
        self.show_target(&target);
        effects.push(Effect::Focus(target));
    }

    /// The browser's focus came to a thing by itself.
    pub(super) fn focus(&mut self, target: Target) {
        if !self.selection.contains(&target) && super::handle::exists(&self.shown, &target) {
            self.select(vec![target]);
        }
    }

    pub(super) fn select_listed(
        &mut self,
        targets: Vec<Target>,
        add: bool,
        position: Option<Id>,
        effects: &mut Vec<Effect>,
    ) {
        if let Some(position) = position {
            self.show_position(position, effects);
        }
        let mut selection = if add {
            (*self.selection).clone()
        } else {
            Vec::new()
        };
        selection.extend(
            targets
                .into_iter()
                .filter(|target| super::handle::exists(&self.shown, target)),
        );
        selection.dedup();
        if let Some(last) = selection.last().cloned() {
            self.show_target(&last);
        }
        self.select(selection);
    }

    pub(super) fn light(&mut self, targets: Vec<Target>) {
        if *self.lit != targets {
            self.lit = Rc::new(targets);
            self.redraw();
        }
    }

    fn edit_first(&mut self, effects: &mut Vec<Effect>) {
        let Some(target) = self.selection.last() else {
            return;
        };
        if let Some(field) = fields::first_number(&self.shown, target) {
            self.begin_edit(field, true, effects);
            // What has no number on the drawing is edited in the panel.
            if self
                .editing
                .as_ref()
                .is_some_and(|editing| editing.place.is_none())
            {
                self.panel = Some(Panel::Details);
            }
        }
    }

    pub(super) fn show_position(&mut self, id: Id, effects: &mut Vec<Effect>) {
        let positions = self.shown.effective_positions();
        let Some(position) = positions.iter().find(|position| position.id == id) else {
            return;
        };
        if self.position != id {
            self.position = id;
            self.revealed = Rc::default();
            self.redraw();
            effects.push(Effect::Announce(format!(
                "Position {}: {}",
                position.name,
                self.headline().headline
            )));
        }
    }

    fn show_numbered(&mut self, number: usize, effects: &mut Vec<Effect>) {
        if let Some(position) = self.shown.effective_positions().get(number) {
            self.show_position(position.id.clone(), effects);
        }
    }

    fn turn_position(&mut self, by: isize, effects: &mut Vec<Effect>) {
        let positions = self.shown.effective_positions();
        let current = positions
            .iter()
            .position(|position| position.id == self.position)
            .unwrap_or(0) as isize;
        let next = (current + by).rem_euclid(positions.len().max(1) as isize);
        self.show_numbered(next.unsigned_abs(), effects);
    }

    fn add_position(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout();
        let mut commands = Vec::new();
        let written = layout.effective_positions();
        let first = || ORDINALS[0].to_owned();
        match &layout.positions[..] {
            [] => commands.push(Command::AddPosition {
                index: usize::MAX,
                position: Position {
                    name: first(),
                    ..Position::only()
                },
            }),
            // The name of a single position says nothing beside a second one.
            [only] if only.name == Position::only().name => {
                commands.push(Command::NamePosition {
                    id: only.id.clone(),
                    name: first(),
                });
            }
            _ => {}
        }
        let engaged = written
            .iter()
            .find(|position| position.id == self.position)
            .map(|position| position.engaged.clone());
        let id = layout.next_position_id();
        let name = ORDINALS.get(written.len()).map_or_else(
            || format!("Position {}", written.len() + 1),
            |name| (*name).to_owned(),
        );
        let position = Position {
            id: id.clone(),
            name: name.clone(),
            engaged: engaged.unwrap_or_default(),
        };
        commands.push(Command::AddPosition {
            index: usize::MAX,
            position,
        });
        if self.commit(Command::Batch(commands), &format!("add position {name}"), effects) {
            self.show_position(id, effects);
        }
    }

    fn remove_position(&mut self, effects: &mut Vec<Effect>) {
        if self.document.layout().positions.len() < 2 {
            effects.push(Effect::Announce("A layout has at least one position".to_owned()));
            return;
        }
        let id = self.position.clone();
        let name = self.position_name();
        self.commit(
            Command::RemovePosition { id },
            &format!("remove position {name}"),
            effects,
        );
    }

    pub(super) fn position_name(&self) -> String {
        let positions = self.shown.effective_positions();
        let position = positions
            .into_iter()
            .find(|position| position.id == self.position);
        position.map_or_else(|| self.position.to_string(), |position| position.name)
    }

    fn toggle_engaged(&mut self, effects: &mut Vec<Effect>) {
        let Some(Target::Element(id)) = self.selection.last().cloned() else {
            return;
        };
        let positions = self.document.layout().effective_positions();
        let Some(position) = positions.iter().find(|position| position.id == self.position) else {
            return;
        };
        let on = !position.engaged.contains(&id);
        self.set_engaged(self.position.clone(), id, on, effects);
    }

    pub(super) fn set_engaged(&mut self, position: Id, element: Id, on: bool, effects: &mut Vec<Effect>) {
        self.close_edit(effects);
        let name = format!("{} {element}", if on { "engage" } else { "release" });
        let done = format!("{element} is {}", if on { "on" } else { "off" });
        if self.commit(
            Command::SetEngaged {
                position,
                element,
                engaged: on,
            },
            &name,
            effects,
        ) {
            effects.push(Effect::Announce(done));
        }
    }

    fn make_drive(&mut self, effects: &mut Vec<Effect>) {
        if let Some(shaft) = self.selected_shaft() {
            let name = format!("refer ratios to {shaft}");
            self.commit(Command::SetDrive(Some(shaft)), &name, effects);
        }
    }

    pub(super) fn show_working(&mut self, shaft: Id) {
        if self.working_shaft.as_ref() != Some(&shaft) {
            self.revealed = Rc::default();
        }
        self.working_shaft = Some(shaft);
        self.panel = Some(Panel::Working);
    }
}

/// A copy of an element under a new name, its ends on the copies of its shafts.
fn copied(element: &Element, id: &Id, renamed: &BTreeMap<Id, Id>) -> Element {
    let mut copy = Element {
        id: id.clone(),
        at: None,
        kind: element.kind.clone(),
    };
    for port in parts::ports(&element.kind) {
        if let Some(shaft) = renamed.get(port.shaft) {
            copy.set_port(&port.path, shaft);
        }
    }
    copy
}

fn all_parts(layout: &Layout) -> Vec<Target> {
    let shafts = layout.shafts.iter().map(|shaft| Target::Shaft(shaft.id.clone()));
    shafts
        .chain(
            layout
                .elements
                .iter()
                .map(|element| Target::Element(element.id.clone())),
        )
        .collect()
}

fn connected(layout: &Layout, target: &Target) -> Vec<Target> {
    match target {
        Target::Shaft(id) => layout
            .elements_on(id)
            .map(|element| Target::Element(element.id.clone()))
            .collect(),
        Target::Element(id) => {
            let ports = layout
                .element(id)
                .map(|element| parts::ports(&element.kind))
                .unwrap_or_default();
            let shafts = ports.into_iter().filter(|port| !port.shaft.is_frame());
            shafts.map(|port| Target::Shaft(port.shaft.clone())).collect()
        }
        Target::Position(_) | Target::Layout => Vec::new(),
    }
}

/// How far off a direction something lies: 0 straight on; none behind or square to it. Far things count for a little.
fn steepness(offset: Point, along: Point) -> Option<f64> {
    let ahead = offset.x * along.x + offset.y * along.y;
    let aside = (offset.x * along.y - offset.y * along.x).abs();
    (ahead > 1.0).then(|| aside / ahead + offset.length() * 1e-4)
}
