//! Placing parts: by click, by drawing from shaft to shaft, from the tray, by key.

use layshaft_layout::{ElementKind, Id};

use super::reworking::Inserted;
use super::{Effect, Session};
use crate::catalogue::Kind;
use crate::geometry::{Point, Rect};
use crate::hit::{self, Hit};
use crate::parts;
use crate::placing::{Spot, plan, shaft_offsets};
use crate::scene::{Ghost, Overlay};
use crate::target::Target;
use crate::tools::{Hover, Tool};

/// Width and height of the room that a placed thing is to have in view, in bench units.
const PLACED_ROOM: f64 = 48.0;

impl Session {
    /// Shows the kind in hand at the pointer.
    pub(super) fn hover(&mut self, hover: Option<Hover>) {
        let Tool::Place(kind) = self.tool else {
            self.clear_overlay();
            return;
        };
        self.overlay = hover.map_or_else(Overlay::default, |hover| self.ghost(kind, hover));
    }

    fn ghost(&self, kind: Kind, hover: Hover) -> Overlay {
        let at_shaft = |id: &Id| self.shown.shaft(id).map(|shaft| Point::from(shaft.at));
        let band = hover
            .from
            .as_ref()
            .and_then(at_shaft)
            .map(|from| (from, hover.over.as_ref().and_then(at_shaft).unwrap_or(hover.at)));
        let free = hover.over.is_none() && band.is_none();
        let ghost = free.then(|| Ghost {
            symbol: kind.entry().symbol,
            at: hover.at,
            shafts: shaft_offsets(kind)
                .into_iter()
                .map(|offset| hover.at + offset)
                .collect(),
        });
        Overlay {
            ghost,
            band,
            drop_shaft: hover.over,
            ..Overlay::default()
        }
    }

    pub(super) fn place_by_pointer(
        &mut self,
        at: Point,
        first: Option<Id>,
        second: Option<Id>,
        again: bool,
        effects: &mut Vec<Effect>,
    ) {
        let Tool::Place(kind) = self.tool else { return };
        let drawn_to_bench = |shaft: &Id| {
            let from = self.shown.shaft(shaft).map(|shaft| Point::from(shaft.at));
            kind.port_count() >= 2 && from.is_some_and(|from| from.distance(at) > 60.0)
        };
        let spot = match (first, second) {
            (Some(first), Some(second)) if kind.port_count() >= 2 => Spot::Shafts(vec![first, second]),
            (_, Some(shaft)) => Spot::Shafts(vec![shaft]),
            (Some(shaft), None) if drawn_to_bench(&shaft) => Spot::Drawn(shaft, at),
            (Some(shaft), None) => Spot::Shafts(vec![shaft]),
            (None, None) => Spot::Bench(at),
        };
        if let Some((element, output)) = self.place(kind, &spot, None, effects) {
            let output = Target::Shaft(output);
            let target = element.clone().map_or(output.clone(), Target::Element);
            self.select(vec![target.clone()]);
            if !again {
                self.tool = Tool::Select;
                effects.push(Effect::Focus(target.clone()));
                if let Some(element) = element {
                    self.open_numbers(&element, target.clone(), effects);
                }
                self.show_what_was_placed(&[output, target]);
            }
        }
    }

    /// Places a kind as one change, with the numbers of another one where given; gives the element and the shaft to build
    /// on from.
    fn place(
        &mut self,
        kind: Kind,
        spot: &Spot,
        like: Option<&ElementKind>,
        effects: &mut Vec<Effect>,
    ) -> Option<(Option<Id>, Id)> {
        let plan = plan(self.document.layout(), kind, spot, like, &self.position);
        self.clear_overlay();
        self.joined_from = None;
        if !self.commit(plan.command, &plan.name, effects) {
            return None;
        }
        self.placed_last.clone_from(&plan.element);
        self.say_with_result(&format!("Placed {}", plan.spoken), effects);
        Some((plan.element, plan.output))
    }

    /// By key: on the selected shafts, else on the bare bench; then the new output shaft has the keyboard, so that a
    /// train can be typed as a row of keys.
    pub(super) fn place_here(&mut self, kind: Kind, effects: &mut Vec<Effect>) {
        self.place_like(kind, None, effects);
    }

    /// The part placed last once more, with the numbers that it has now.
    pub(super) fn place_again(&mut self, effects: &mut Vec<Effect>) {
        let last = self
            .placed_last
            .as_ref()
            .and_then(|id| self.shown.element(id))
            .map(|element| element.kind.clone());
        match last {
            Some(like) => self.place_like(Kind::of(&like), Some(&like), effects),
            None => effects.push(Effect::Announce("Nothing was placed yet".to_owned())),
        }
    }

    fn place_like(&mut self, kind: Kind, like: Option<&ElementKind>, effects: &mut Vec<Effect>) {
        self.close_edit(effects);
        let shafts = if kind == Kind::Shaft {
            Vec::new()
        } else {
            self.shafts_in_hand()
        };
        let spot = if shafts.is_empty() {
            Spot::Bench(self.free_bench(kind))
        } else {
            Spot::Shafts(shafts)
        };
        if let Some((element, output)) = self.place(kind, &spot, like, effects) {
            let target = Target::Shaft(output);
            self.tool = Tool::Select;
            self.select(vec![target.clone()]);
            self.show_target(&target);
            effects.push(Effect::Focus(target.clone()));
            if let Some(element) = element.filter(|_| like.is_none()) {
                self.open_numbers(&element, target, effects);
            }
        }
    }

    /// The selected shafts in order; where an element is selected, its last shaft.
    pub(super) fn shafts_in_hand(&self) -> Vec<Id> {
        let shafts: Vec<Id> = self
            .selection
            .iter()
            .filter_map(|target| match target {
                Target::Shaft(id) => Some(id.clone()),
                _ => None,
            })
            .collect();
        if !shafts.is_empty() {
            return shafts;
        }
        let Some(Target::Element(id)) = self.selection.last() else {
            return shafts;
        };
        let ports = self
            .shown
            .element(id)
            .map(|element| parts::ports(&element.kind))
            .unwrap_or_default();
        ports
            .iter()
            .rev()
            .map(|port| port.shaft)
            .find(|shaft| !shaft.is_frame())
            .cloned()
            .into_iter()
            .collect()
    }

    /// A place on the bare bench: the middle of the view, or below everything where that is taken.
    fn free_bench(&self, kind: Kind) -> Point {
        let scene = self.scene();
        let view = self.flow_view();
        let middle = view.to_bench(view.middle());
        let is_free = |at: Point| {
            let near = |other: Point| {
                shaft_offsets(kind)
                    .iter()
                    .any(|offset| (at + *offset).distance(other) < 90.0)
            };
            let shafts = scene.shafts.iter().map(|shaft| shaft.at);
            !shafts
                .chain(scene.elements.iter().map(|element| element.at))
                .any(near)
        };
        if is_free(middle) {
            middle
        } else {
            Point::new(scene.bounds.x + 120.0, scene.bounds.bottom() + 90.0)
        }
    }

    pub(super) fn tray_over(&mut self, kind: Kind, at: Point) {
        let at = self.view.to_bench(at);
        let over = hit::shaft_at(&self.scene(), at, 12.0).cloned();
        let into = self.connection_at(kind, at).filter(|_| over.is_none());
        if let Some(into) = into {
            self.clear_overlay();
            self.light(vec![Target::Element(into)]);
            return;
        }
        self.light(Vec::new());
        self.overlay = self.ghost(kind, Hover { at, from: None, over });
    }

    /// The connection under the pointer that a part dropped there would be put into.
    fn connection_at(&self, kind: Kind, at: Point) -> Option<Id> {
        if kind.port_count() != 2 || kind == Kind::TorqueSwitch {
            return None;
        }
        match hit::hit(&self.scene(), at, 4.0) {
            Hit::Thing(Target::Element(id)) => {
                let element = self.shown.element(&id)?;
                (Kind::of(&element.kind).port_count() == 2).then_some(id)
            }
            _ => None,
        }
    }

    /// The symbol from the tray was taken away from the drawing again.
    pub(super) fn tray_leave(&mut self) {
        self.clear_overlay();
        self.light(Vec::new());
    }

    pub(super) fn tray_drop(&mut self, kind: Kind, at: Point, effects: &mut Vec<Effect>) {
        let at = self.view.to_bench(at);
        let over = hit::shaft_at(&self.scene(), at, 12.0)
            .cloned()
            .filter(|_| kind != Kind::Shaft);
        self.close_edit(effects);
        self.tray_leave();
        if let Some(into) = self.connection_at(kind, at).filter(|_| over.is_none()) {
            self.insert_into(&into, Inserted::Stage(kind), effects);
            return;
        }
        let spot = over.map_or(Spot::Bench(at), |shaft| Spot::Shafts(vec![shaft]));
        if let Some((element, output)) = self.place(kind, &spot, None, effects) {
            let output = Target::Shaft(output);
            let target = element.clone().map_or(output.clone(), Target::Element);
            self.select(vec![target.clone()]);
            effects.push(Effect::Focus(target.clone()));
            if let Some(element) = element {
                self.open_numbers(&element, target.clone(), effects);
            }
            self.show_what_was_placed(&[output, target]);
        }
    }

    /// Moves the view where what was put beside another thing, or its open number, would lie beyond the edge.
    fn show_what_was_placed(&mut self, targets: &[Target]) {
        let number = self.editing.as_ref().and_then(|editing| editing.place);
        let places = targets.iter().filter_map(|target| self.place_of(target));
        let rooms = places
            .map(|at| Rect::around(at, PLACED_ROOM, PLACED_ROOM))
            .chain(number);
        let hidden = rooms.filter(|room| !self.view.shows(*room)).last();
        if let Some(hidden) = hidden {
            self.bring_into_view(hidden.centre());
        }
    }

    /// Moves the view so that a thing is seen.
    pub(super) fn show_target(&mut self, target: &Target) {
        let at = self.place_of(target);
        if let Some(at) = at {
            self.bring_into_view(at);
        }
    }
}
