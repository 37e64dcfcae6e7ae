//! Dragging: what moves along, where it snaps, what it would connect to, and the one change that comes of it.

use std::cell::LazyCell;
use std::collections::BTreeSet;

use layshaft_layout::{Command, Element, Id, Layout};

use super::{Effect, Session};
use crate::catalogue::Kind;
use crate::drawings::Drawing;
use crate::geometry::Point;
use crate::groups;
use crate::parts;
use crate::placement::on_grid;
use crate::scene::element_places;
use crate::target::Target;
use crate::tools::snap;

impl Session {
    /// Shows what is selected moved, snapped by the thing that was grabbed.
    pub(super) fn preview_move(&mut self, grabbed: &Target, by: Point, snaps: bool, over: Option<Id>) {
        if self.drawing != Drawing::Flow {
            self.preview_move_on_picture(grabbed, by, snaps);
            return;
        }
        let Some(start) = self.start_of(grabbed) else {
            return;
        };
        let grabbed_all = self.grabbed_with(grabbed);
        let moving = shafts_of(&grabbed_all);
        let mut to = start + by;
        let (mut guides, mut gaps) = (Vec::new(), Vec::new());
        if snaps {
            let still = self
                .document
                .layout()
                .shafts
                .iter()
                .filter(|shaft| !moving.contains(&shaft.id));
            let snapped = snap(to, still.map(|shaft| Point::from(shaft.at)));
            (to, guides, gaps) = (snapped.at, snapped.guides, snapped.gaps);
        }
        let command = move_command(self.document.layout(), &grabbed_all, |_| to - start);
        // Moving things about is never refused for anything but a coordinate beyond the file's limits.
        if self.preview(&command).is_ok() {
            self.moving = Some(command);
            self.overlay.guides = guides;
            self.overlay.gaps = gaps;
            self.overlay.drop_shaft = over.filter(|shaft| self.connects_by_drop(grabbed, shaft));
        }
    }

    /// Where a thing stands in the document.
    fn start_of(&self, target: &Target) -> Option<Point> {
        let layout = self.document.layout();
        match target {
            Target::Shaft(id) => layout.shaft(id).map(|shaft| shaft.at.into()),
            Target::Element(id) => {
                let number = layout.elements.iter().position(|element| element.id == *id)?;
                element_places(layout).get(number).copied()
            }
            Target::Group(id) => groups::place(layout, layout.group(id)?),
            Target::Position(_) | Target::Layout => None,
        }
    }

    /// What moves with what was grabbed: all that is selected, with what is in selected groups.
    fn grabbed_with(&self, grabbed: &Target) -> Vec<Target> {
        let mut all = (*self.selection).clone();
        if !all.contains(grabbed) {
            all.push(grabbed.clone());
        }
        groups::expanded(self.document.layout(), &all)
    }

    /// Whether letting a thing go on a shaft connects it: sources, loads and brakes on another shaft than theirs.
    fn connects_by_drop(&self, grabbed: &Target, shaft: &Id) -> bool {
        let Target::Element(id) = grabbed else {
            return false;
        };
        let element = self.document.layout().element(id);
        element.is_some_and(|element| {
            Kind::of(&element.kind).port_count() == 1
                && parts::ports(&element.kind).len() == 1
                && parts::ports(&element.kind).iter().all(|port| port.shaft != shaft)
        })
    }

    pub(super) fn drop_moved(&mut self, grabbed: &Target, over: Option<Id>, effects: &mut Vec<Effect>) {
        self.clear_overlay();
        let moved = self.moving.take();
        if let (Target::Element(id), Some(shaft)) = (
            grabbed,
            over.filter(|shaft| self.connects_by_drop(grabbed, shaft)),
        ) {
            self.connect(id, None, &shaft, Vec::new(), effects);
            return;
        }
        let Some(command) = moved else { return };
        let name = match (self.selection.len(), grabbed.id()) {
            (0 | 1, Some(id)) => format!("move {id}"),
            (several, _) => format!("move {several} things"),
        };
        self.commit(command, &name, effects);
    }

    /// Shows an end of an element led to the pointer.
    pub(super) fn preview_end(&mut self, element: &Id, to: Point, over: Option<Id>) {
        let from = self
            .scene()
            .elements
            .iter()
            .find(|item| item.id == *element)
            .map(|item| item.at);
        self.overlay.band = from.map(|from| (from, to));
        self.overlay.drop_shaft = over;
    }

    /// Lets an end go: on a shaft, or on a new one on the bare bench.
    pub(super) fn drop_end(
        &mut self,
        element: &Id,
        role: &str,
        at: Point,
        over: Option<Id>,
        effects: &mut Vec<Effect>,
    ) {
        self.clear_overlay();
        let (shaft, first) = match over {
            Some(shaft) => (shaft, Vec::new()),
            None => {
                let id = self.document.layout().next_shaft_id();
                let shaft = parts::new_shaft(&id, on_grid(at));
                (
                    id,
                    vec![Command::AddShaft {
                        index: usize::MAX,
                        shaft,
                    }],
                )
            }
        };
        self.connect(element, Some(role), &shaft, first, effects);
    }

    /// Puts an end of an element on a shaft; without a role, its only one.
    fn connect(
        &mut self,
        id: &Id,
        role: Option<&str>,
        shaft: &Id,
        mut commands: Vec<Command>,
        effects: &mut Vec<Effect>,
    ) {
        let Some(element) = self.document.layout().element(id) else {
            return;
        };
        let ports = parts::ports(&element.kind);
        let Some(port) = ports
            .iter()
            .find(|port| role.is_none_or(|role| port.path == role))
        else {
            return;
        };
        if port.shaft == shaft {
            return;
        }
        let role = port.path.clone();
        commands.push(Command::SetPort {
            element: id.clone(),
            role,
            shaft: shaft.clone(),
        });
        if element.at.is_some() {
            commands.push(Command::MoveElements {
                moves: vec![(id.clone(), None)],
            });
        }
        if self.commit(
            Command::Batch(commands),
            &format!("connect {id} to {shaft}"),
            effects,
        ) {
            effects.push(Effect::Announce(format!("{id} connected to {shaft}")));
        }
    }
}

/// The shafts among these.
fn shafts_of(targets: &[Target]) -> BTreeSet<Id> {
    let shafts = targets.iter().filter_map(|target| match target {
        Target::Shaft(id) => Some(id.clone()),
        _ => None,
    });
    shafts.collect()
}

/// Moves these shafts and elements, each by its own way, and the elements placed by hand whose shafts all move.
pub(super) fn move_command(layout: &Layout, targets: &[Target], way: impl Fn(&Target) -> Point) -> Command {
    let moving = shafts_of(targets);
    let shafts = layout.shafts.iter().filter(|shaft| moving.contains(&shaft.id));
    let moves = shafts
        .map(|shaft| {
            let by = way(&Target::Shaft(shaft.id.clone()));
            (shaft.id.clone(), moved(shaft.at.into(), by))
        })
        .collect();
    // Worked out for who asks only: dragging shafts does not, and comes with every movement of the pointer.
    let places = LazyCell::new(|| element_places(layout));
    let elements = layout
        .elements
        .iter()
        .enumerate()
        .filter_map(|(number, element)| {
            let place = || element.at.map_or_else(|| places[number], Point::from);
            let target = Target::Element(element.id.clone());
            // What stands between its shafts by itself follows them by itself.
            let follows = all_on(element, &moving);
            if targets.contains(&target) && (element.at.is_some() || !follows) {
                Some((element.id.clone(), Some(moved(place(), way(&target)))))
            } else if follows && element.at.is_some() {
                let ports = parts::ports(&element.kind);
                let shaft = ports.iter().find(|port| !port.shaft.is_frame())?.shaft;
                let by = way(&Target::Shaft(shaft.clone()));
                Some((element.id.clone(), Some(moved(place(), by))))
            } else {
                None
            }
        });
    Command::Batch(vec![
        Command::MoveShafts { moves },
        Command::MoveElements {
            moves: elements.collect(),
        },
    ])
}

/// Whether an element moves with its shafts by itself.
pub(super) fn follows(element: &Element, targets: &[Target]) -> bool {
    element.at.is_none() && all_on(element, &shafts_of(targets))
}

fn all_on(element: &Element, shafts: &BTreeSet<Id>) -> bool {
    let ports = parts::ports(&element.kind);
    let mut on = ports.iter().filter(|port| !port.shaft.is_frame()).peekable();
    on.peek().is_some() && on.all(|port| shafts.contains(port.shaft))
}

fn moved(at: Point, by: Point) -> [f64; 2] {
    // Whole units keep files and links short.
    [(at.x + by.x).round(), (at.y + by.y).round()]
}
