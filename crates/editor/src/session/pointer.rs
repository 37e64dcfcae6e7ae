//! Pointers on the drawing: to the machine of the tool in hand, and its deeds carried out.

use std::rc::Rc;

use super::{Effect, Session};
use crate::actions::Panel;
use crate::drawings::Drawing;
use crate::geometry::{Point, Rect};
use crate::hit::{self, Hit};
use crate::scene::Overlay;
use crate::target::Target;
use crate::tools::{Button, Deed, Event, Phase, Pointer, PointerKind, Tool};
use crate::wording;

/// How far round a shaft's circle still connects to it, in bench units.
const CONNECT_REACH: f64 = 10.0;

impl Session {
    pub(super) fn pointer(&mut self, pointer: &Pointer, effects: &mut Vec<Effect>) {
        self.follow_hands(pointer);
        if let Some(deeds) = self.pinch.transition(pointer) {
            if pointer.phase == Phase::Down && self.pinch.is_active() {
                self.give_up_gesture(effects);
            }
            self.carry_out(deeds, effects);
            return;
        }
        let event = self.event(pointer);
        if pointer.phase == Phase::Down && pointer.button == Button::Primary && self.editing.is_some() {
            self.stay_after_edit();
            self.end_edit(effects);
        }
        let deeds = match self.tool {
            Tool::Place(_)
                if !event.pans
                    || self.selecting == crate::tools::Selecting::Idle && pointer.phase != Phase::Down =>
            {
                let (next, deeds) = std::mem::take(&mut self.placing).transition(&event);
                self.placing = next;
                deeds
            }
            _ => {
                let (next, deeds) = std::mem::take(&mut self.selecting).transition(&event);
                self.selecting = next;
                deeds
            }
        };
        self.carry_out(deeds, effects);
    }

    fn event(&self, pointer: &Pointer) -> Event {
        let bench = self.view.to_bench(pointer.at);
        let tolerance = pointer.kind.tolerance() / self.view.zoom;
        if self.drawing != Drawing::Flow {
            return self.event_on_picture(pointer, bench, tolerance);
        }
        let scene = self.scene();
        Event {
            pointer: *pointer,
            bench,
            hit: hit::hit(&scene, bench, tolerance),
            shaft: hit::shaft_at(&scene, bench, tolerance.max(CONNECT_REACH)).cloned(),
            pans: self.pans() || pointer.modifiers.space || pointer.button == Button::Middle,
            frames: self.tool == Tool::Area,
        }
    }

    /// Puts a gesture that is going on back to where it began.
    pub(super) fn give_up_gesture(&mut self, effects: &mut Vec<Effect>) {
        let (selecting, mut deeds) = std::mem::take(&mut self.selecting).cancel();
        let (placing, more) = std::mem::take(&mut self.placing).cancel();
        (self.selecting, self.placing) = (selecting, placing);
        deeds.extend(more);
        self.carry_out(deeds, effects);
    }

    /// Whether a gesture is going on that Esc would put back.
    pub(super) fn is_in_gesture(&self) -> bool {
        self.selecting != crate::tools::Selecting::Idle || self.placing != crate::tools::Placing::Hovering
    }

    pub(super) fn double_click(&mut self, at: Point, effects: &mut Vec<Effect>) {
        if self.tool != Tool::Select {
            return;
        }
        let bench = self.view.to_bench(at);
        match self.hit_at(bench, 4.0 / self.view.zoom) {
            Hit::Thing(Target::Group(id)) => self.fold_group(&id, effects),
            Hit::Thing(target) => {
                self.select(vec![target]);
                self.panel = Some(Panel::Details);
            }
            Hit::Edit(field) => self.begin_edit(field, true, effects),
            Hit::Ratio { .. } | Hit::End { .. } | Hit::Bench => {}
        }
    }

    fn carry_out(&mut self, deeds: Vec<Deed>, effects: &mut Vec<Effect>) {
        for deed in deeds {
            self.carry_out_one(deed, effects);
        }
    }

    fn carry_out_one(&mut self, deed: Deed, effects: &mut Vec<Effect>) {
        match deed {
            Deed::Capture(id) => effects.push(Effect::CapturePointer(id)),
            Deed::Select { target, add } => self.select_pressed(target, add, effects),
            Deed::SelectInside { rect, add } => self.select_inside(&rect, add, effects),
            Deed::BenchMenu(at) => self.bench_menu(at),
            Deed::Marquee(rect) => self.show_marquee(rect),
            Deed::Edit(field) => {
                self.select(vec![field.target.clone()]);
                self.begin_edit(field, true, effects);
            }
            Deed::Work { target, shaft } => {
                self.select(vec![target]);
                self.show_working(shaft);
            }
            Deed::PreviewMove {
                grabbed,
                by,
                snaps,
                over,
            } => self.preview_move(&grabbed, by, snaps, over),
            Deed::Drop { grabbed, over } => self.drop_moved(&grabbed, over, effects),
            Deed::PreviewEnd {
                element, to, over, ..
            } => self.preview_end(&element, to, over),
            Deed::DropEnd {
                element,
                role,
                at,
                over,
            } => self.drop_end(&element, &role, at, over, effects),
            Deed::Abandon => {
                self.clear_overlay();
                self.moving = None;
                self.show_document();
            }
            Deed::PanBy(by) => self.pan(by),
            Deed::ZoomBy(at, by) => self.zoom(at, by),
            Deed::Hover(hover) => self.hover(hover),
            Deed::Place {
                at,
                first,
                second,
                again,
            } => self.place_by_pointer(at, first, second, again, effects),
        }
    }

    /// A press without a drag: what was pressed is selected, alone or beside the rest.
    fn select_pressed(&mut self, target: Option<Target>, add: bool, effects: &mut Vec<Effect>) {
        match target {
            None if add => {}
            None => {
                self.select(Vec::new());
                effects.push(Effect::FocusBench);
            }
            Some(target) if add => {
                let mut selection = (*self.selection).clone();
                let was_selected = selection.contains(&target);
                selection.retain(|other| *other != target);
                if !was_selected {
                    selection.push(target);
                }
                self.select(selection);
            }
            Some(target) => {
                // Grabbing one of several selected things keeps them together.
                if self.selection.contains(&target) && self.selecting_is_dragging() {
                    let mut selection = (*self.selection).clone();
                    selection.retain(|other| *other != target);
                    selection.push(target.clone());
                    self.select(selection);
                } else {
                    self.select(vec![target.clone()]);
                }
                effects.push(Effect::Focus(target));
            }
        }
    }

    fn selecting_is_dragging(&self) -> bool {
        matches!(self.selecting, crate::tools::Selecting::Dragging { .. })
    }

    /// Where the pointer is, and what a press puts away.
    fn follow_hands(&mut self, pointer: &Pointer) {
        let gone = matches!(pointer.phase, Phase::Leave | Phase::Cancel);
        let stays = !gone && pointer.kind != PointerKind::Touch && self.drawing == Drawing::Flow;
        self.hands.pointer = stays.then_some(pointer.at);
        if pointer.phase == Phase::Down {
            self.hands.menu = None;
            // A drag with the space bar down pans; then the bar means nothing else.
            self.hands.space = self.hands.space.map(|_| true);
        }
    }

    /// Shows a selecting rectangle and lights up what lies in it.
    fn show_marquee(&mut self, rect: Option<Rect>) {
        self.set_overlay(|overlay| overlay.marquee = rect);
        let inside = rect.map(|rect| self.inside(&rect)).unwrap_or_default();
        self.light(inside);
    }

    fn select_inside(&mut self, rect: &Rect, add: bool, effects: &mut Vec<Effect>) {
        let mut selection = if add {
            (*self.selection).clone()
        } else {
            Vec::new()
        };
        for target in self.inside(rect) {
            if !selection.contains(&target) {
                selection.push(target);
            }
        }
        if self.tool == Tool::Area {
            self.tool = Tool::Select;
        }
        effects.push(Effect::Announce(format!(
            "{} selected",
            wording::things(selection.len())
        )));
        effects.extend(selection.last().cloned().map(Effect::Focus));
        self.select(selection);
    }

    /// Selects these and nothing else.
    pub(super) fn select(&mut self, targets: Vec<Target>) {
        if *self.selection != targets {
            self.selection = Rc::new(targets);
            self.redraw();
        }
    }

    pub(super) fn set_overlay(&mut self, change: impl FnOnce(&mut Overlay)) {
        change(&mut self.overlay);
    }

    pub(super) fn clear_overlay(&mut self) {
        self.overlay = Overlay::default();
    }
}
