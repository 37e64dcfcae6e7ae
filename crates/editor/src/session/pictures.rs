//! Which drawing is on the sheet, and what the pointer finds on the skeleton and the plan.
//!
//! What is dragged there changes how the thing is drawn, not how it is connected; each drawing keeps that in the document
//! in its own way.

use std::rc::Rc;

use super::{Effect, Session, View};
use crate::drawings::Drawing;
use crate::geometry::{Point, Rect};
use crate::hit::{self, Hit};
use crate::scene::{Letters, Picture, plan};
use crate::target::{FieldRef, Target};
use crate::tools::{Event, Pointer, Tool};

/// How near to a number still means it, whatever the pointer.
const NEAR_NUMBER: f64 = 6.0;

/// What lies at a place of a skeleton or plan: numbers first, since they are small, then ratios and things.
fn on_picture(picture: &Picture, at: Point, tolerance: f64) -> Hit {
    if let Some(field) = picture.edit_at(at, (tolerance * 0.5).min(NEAR_NUMBER)) {
        return Hit::Edit(field.clone());
    }
    if let Some(ratio) = picture.ratio_at(at) {
        return ratio;
    }
    match picture.labelled_at(at) {
        Some(target) => Hit::Thing(target.clone()),
        None => hit::on_picture(picture, at, tolerance),
    }
}

impl Session {
    /// Which drawing stands on the sheet.
    #[must_use]
    pub const fn drawing(&self) -> Drawing {
        self.drawing
    }

    /// The skeleton or the plan; none while the flow drawing ([`Session::scene`]) stands on the sheet. Cached.
    #[must_use]
    pub fn picture(&self) -> Option<Rc<Picture>> {
        (self.drawing != Drawing::Flow).then(|| self.picture_of(self.drawing))
    }

    fn picture_of(&self, drawing: Drawing) -> Rc<Picture> {
        let drawn = self.picture.borrow().clone();
        let drawn = drawn.unwrap_or_else(|| {
            let fresh = self.picture_beside_last(drawing);
            self.picture.replace(Some(fresh.clone()));
            fresh
        });
        if self.overlay == drawn.overlay {
            return drawn;
        }
        Rc::new(Picture {
            overlay: self.overlay.clone(),
            ..(*drawn).clone()
        })
    }

    /// Puts another drawing on the sheet; what is selected stays so, and each drawing is looked at where it was last.
    pub(super) fn show_drawing(&mut self, drawing: Drawing, effects: &mut Vec<Effect>) {
        if drawing == self.drawing {
            return;
        }
        self.close_edit(effects);
        self.give_up_gesture(effects);
        self.clear_overlay();
        if matches!(self.tool, Tool::Place(_)) {
            self.tool = Tool::Select;
        }
        self.looked.insert(self.drawing, (self.view, self.follows));
        self.drawing = drawing;
        self.redraw();
        let size = self.view.size;
        match self.looked.get(&drawing).copied() {
            Some((view, follows)) if !follows => {
                self.view = view;
                self.follows = false;
                self.resize(size);
            }
            _ => {
                self.view.zooms = drawing.zooms();
                self.view.largest_fit = drawing.largest_fit();
                self.fit();
            }
        }
        effects.push(Effect::Announce(format!("{} drawing", drawing.name())));
    }

    /// Where the flow drawing is looked at, or was last.
    pub(super) fn flow_view(&self) -> View {
        let last = self.looked.get(&Drawing::Flow).map(|(view, _)| *view);
        last.filter(|_| self.drawing != Drawing::Flow)
            .unwrap_or(self.view)
    }

    /// What the drawing on the sheet occupies.
    pub(super) fn bounds(&self) -> Rect {
        self.picture()
            .map_or_else(|| self.scene().bounds, |picture| picture.bounds)
    }

    /// Whether the drawing is another one when looked at from there: its letters change their size.
    pub(super) fn needs_drawing_at(&self, view: View) -> bool {
        if self.drawing == Drawing::Plan {
            return plan::level(view.zoom) != plan::level(self.view.zoom);
        }
        Letters::for_zoom(view.zoom) != Letters::for_zoom(self.view.zoom)
    }

    /// Where a thing stands on the drawing on the sheet.
    pub(super) fn place_of(&self, target: &Target) -> Option<Point> {
        match self.picture() {
            Some(picture) => picture.place_of(target),
            None => self.scene().place_of(target),
        }
    }

    /// What lies at a place of the drawing on the sheet.
    pub(super) fn hit_at(&self, at: Point, tolerance: f64) -> Hit {
        match self.picture() {
            Some(picture) => on_picture(&picture, at, tolerance),
            None => hit::hit(&self.scene(), at, tolerance),
        }
    }

    /// The place of an editable number on the drawing on the sheet.
    pub(super) fn edit_place(&self, field: &FieldRef) -> Option<Rect> {
        match self.picture() {
            Some(picture) => picture.edit_place(field),
            None => hit::edit_place(&self.scene(), field),
        }
    }

    /// Things within a rectangle of the drawing on the sheet.
    pub(super) fn inside(&self, rect: &Rect) -> Vec<Target> {
        match self.picture() {
            Some(picture) => picture
                .items
                .iter()
                // What is in a group lies there by itself.
                .filter(|item| rect.contains(item.at) && !matches!(item.target, Target::Group(_)))
                .map(|item| item.target.clone())
                .collect(),
            None => hit::inside(&self.scene(), rect),
        }
    }

    pub(super) fn event_on_picture(&self, pointer: &Pointer, at: Point, tolerance: f64) -> Event {
        Event {
            pointer: *pointer,
            bench: at,
            hit: self.hit_at(at, tolerance),
            shaft: None,
            pans: self.pans() || pointer.modifiers.space || pointer.button == crate::tools::Button::Middle,
            frames: self.tool == Tool::Area,
        }
    }

    /// Shows what is dragged on the skeleton or the plan where the pointer has taken it: a change that `drop_moved` makes.
    pub(super) fn preview_move_on_picture(&mut self, grabbed: &Target, by: Point, snaps: bool) {
        match self.drawing {
            Drawing::Skeleton => self.preview_move_on_skeleton(grabbed, by),
            Drawing::Plan => self.preview_move_on_plan(grabbed, by, snaps),
            Drawing::Flow => {}
        }
    }
}
