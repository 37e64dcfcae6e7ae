//! The menu: opened by pointer, key or long press; what stands in it; what choosing a line does.

use super::{Effect, Input, Session};
use crate::actions::{self, Action, ActionInfo, Panel};
use crate::geometry::{Point, Rect};
use crate::hit::Hit;
use crate::menu::{Menu, MenuEntry, OF_BENCH, OF_THINGS, PLACED};
use crate::target::Target;
use crate::tools::{Framing, PointerKind, Selecting, Tool};

/// Side of the square that shows that a finger has rested long enough, in screen pixels.
const MARK: f64 = 48.0;

impl Session {
    /// The menu that is open.
    #[must_use]
    pub const fn menu(&self) -> Option<&Menu> {
        self.hands.menu.as_ref()
    }

    /// Opens the menu of what lies at a place of the screen; without a place, of what is selected.
    pub(super) fn open_menu(&mut self, at: Option<Point>, kind: PointerKind, effects: &mut Vec<Effect>) {
        if self.is_in_gesture() {
            return;
        }
        self.close_edit(effects);
        match at {
            Some(at) => {
                let bench = self.view.to_bench(at);
                let hit = self.hit_at(bench, kind.tolerance() / self.view.zoom);
                self.open_menu_on(thing_of(hit), at);
            }
            None => {
                let about = self.selection.last().cloned();
                let place = about
                    .as_ref()
                    .and_then(|target| self.place_of(&self.visible(target)));
                let at = place.map_or(self.view.middle(), |place| self.view.to_screen(place));
                let (width, height) = (self.view.size.width, self.view.size.height);
                self.open_menu_on(about, Point::new(at.x.clamp(0.0, width), at.y.clamp(0.0, height)));
            }
        }
    }

    fn open_menu_on(&mut self, target: Option<Target>, at: Point) {
        self.hands.here = None;
        let before = (*self.selection).clone();
        let is_new = target.as_ref().is_some_and(|target| !before.contains(target));
        if let Some(target) = &target
            && !self.selection.contains(target)
        {
            self.select(vec![target.clone()]);
        }
        let entries = match &target {
            Some(target) if is_new && !before.is_empty() => self.with_joining(before, target),
            Some(_) => self.sections(OF_THINGS),
            None => self.bench_entries(at),
        };
        let several = self.selection.len();
        let title = match &target {
            None => "Bench".to_owned(),
            Some(_) if several > 1 => format!("{several} selected"),
            Some(target) => self.name_of(target),
        };
        self.hands.menu = Some(Menu {
            at,
            title,
            entries,
            about: target,
        });
    }

    /// The lines of a thing, and one that selects it beside what was selected: fingers have no Shift key.
    fn with_joining(&self, mut before: Vec<Target>, target: &Target) -> Vec<MenuEntry> {
        before.push(target.clone());
        let mut entries = vec![MenuEntry {
            name: "Select beside the others".to_owned(),
            key: "Shift+click".to_owned(),
            input: Input::Select {
                targets: before,
                add: false,
                position: None,
            },
            begins: false,
        }];
        entries.extend(self.sections(OF_THINGS));
        entries[1..2].iter_mut().for_each(|entry| entry.begins = true);
        entries
    }

    fn bench_entries(&mut self, at: Point) -> Vec<MenuEntry> {
        let bench = self.view.to_bench(at);
        let on_flow = self.drawing == crate::drawings::Drawing::Flow;
        let mut entries = Vec::new();
        if on_flow {
            self.hands.here = Some(bench);
            entries.extend(
                self.sections(&[&[Action::Paste]])
                    .into_iter()
                    .map(|entry| MenuEntry {
                        name: "Paste here".to_owned(),
                        ..entry
                    }),
            );
            entries.extend(PLACED.map(|kind| MenuEntry::placing(kind, at)));
            entries.push(MenuEntry {
                name: "Place another part…".to_owned(),
                key: String::new(),
                input: Input::FindAction("place ".to_owned()),
                begins: false,
            });
        }
        let mut others = self.sections(OF_BENCH);
        if let Some(first) = others.first_mut() {
            first.begins = on_flow;
        }
        entries.extend(others);
        entries
    }

    /// The actions of these sections that apply now.
    fn sections(&self, sections: &[&[Action]]) -> Vec<MenuEntry> {
        let all = actions::all();
        let mut entries = Vec::new();
        for section in sections {
            let applying = section.iter().filter(|action| self.why_not(action).is_none());
            let infos =
                applying.filter_map(|action| all.iter().find(|info: &&ActionInfo| info.action == *action));
            for (number, info) in infos.enumerate() {
                entries.push(MenuEntry {
                    name: self.name_now(info),
                    begins: number == 0 && !entries.is_empty(),
                    ..MenuEntry::of(info)
                });
            }
        }
        entries
    }

    /// The name of an action where what is selected makes it plainer.
    fn name_now(&self, info: &ActionInfo) -> String {
        let group = self.selected_group();
        let group = group.and_then(|id| self.document.layout().group(&id).cloned());
        match (&info.action, group) {
            (Action::Fold, Some(group)) if group.folded => format!("Open {}", group.name),
            (Action::Fold, Some(group)) => format!("Fold {}", group.name),
            _ => info.name.clone(),
        }
    }

    fn name_of(&self, target: &Target) -> String {
        let layout = self.document.layout();
        match target {
            Target::Shaft(id) => format!("shaft {id}"),
            Target::Element(id) => crate::parts::element_name(layout, id),
            Target::Group(id) => layout
                .group(id)
                .map_or_else(String::new, |group| group.name.clone()),
            Target::Position(_) | Target::Layout => layout.title.clone(),
        }
    }

    /// Puts the menu away; the focus goes back to what it was about.
    pub(super) fn close_menu(&mut self, effects: &mut Vec<Effect>) {
        if let Some(menu) = self.hands.menu.take() {
            effects.push(menu.about.map_or(Effect::FocusBench, Effect::Focus));
        }
    }

    /// A line of the menu was chosen.
    pub(super) fn choose_from_menu(&mut self, number: usize, effects: &mut Vec<Effect>) {
        let chosen = self.hands.menu.as_ref().and_then(|menu| menu.entries.get(number));
        let input = chosen.map(|entry| entry.input.clone());
        self.close_menu(effects);
        if let Some(input) = input {
            self.take(input, effects);
        }
    }

    /// Opens the list of actions with something to search for in it.
    pub(super) fn find_action(&mut self, query: String) {
        if self.panel == Some(Panel::Actions) {
            self.toggle(Panel::Actions);
        }
        self.toggle(Panel::Actions);
        self.hands.query = query;
    }

    /// A finger has rested for a while: on a thing it opens its menu, on the bare bench it begins a rectangle.
    pub(super) fn long_press(&mut self, pointer: i32, effects: &mut Vec<Effect>) {
        let Selecting::Pressed {
            pointer: pressed,
            screen,
            bench,
            hit,
            ..
        } = self.selecting.clone()
        else {
            return;
        };
        if pressed != pointer || matches!(self.tool, Tool::Place(_)) {
            return;
        }
        match thing_of(hit) {
            Some(target) => {
                self.selecting = Selecting::Idle;
                self.open_menu_on(Some(target), screen);
            }
            None => {
                let mark = Rect::around(bench, MARK / self.view.zoom, MARK / self.view.zoom);
                self.set_overlay(|overlay| overlay.marquee = Some(mark));
                self.selecting = Selecting::Framing(Framing {
                    pointer,
                    from: bench,
                    start: screen,
                    adds: true,
                    is_held: true,
                });
                effects.push(Effect::Announce(
                    "Drag to select what lies in the rectangle, or let go for the menu".to_owned(),
                ));
            }
        }
    }

    /// A finger that rested on the bare bench was let go where it was.
    pub(super) fn bench_menu(&mut self, at: Point) {
        self.open_menu_on(None, at);
    }
}

/// The thing that was hit, whatever part of it.
fn thing_of(hit: Hit) -> Option<Target> {
    match hit {
        Hit::Thing(target) | Hit::Ratio { target, .. } => Some(target),
        Hit::Edit(field) => Some(field.target),
        Hit::End { element, .. } => Some(Target::Element(element)),
        Hit::Bench => None,
    }
}
