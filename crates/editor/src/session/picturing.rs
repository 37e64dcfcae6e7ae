//! The skeleton and the plan, drawn anew only where something that they show has changed.

use std::rc::Rc;

use layshaft_layout::{Id, Layout};
use layshaft_report::Report;

use super::Session;
use super::computed::same_train;
use crate::drawings::Drawing;
use crate::plan::Laid;
use crate::scene::flow::{FlowInput, Holds};
use crate::scene::{Picture, PictureItem, PlanLook, Shown, plan, same, skeleton};
use crate::units::Units;

/// How many plans are kept: that of the document, and that of what is being dragged or typed.
const MOST_LAID: usize = 2;

/// Plans with what they were laid out from, the one asked for last in front.
pub(super) type LaidOut = Vec<(Rc<Layout>, Rc<Laid>)>;

/// What a picture was drawn from, but for what stands out on it.
#[derive(Clone, Debug)]
pub(super) struct PictureOf {
    drawing: Drawing,
    layout: Rc<Layout>,
    report: Rc<Report>,
    position: Id,
    shown: Shown,
    hides_answers: bool,
    units: Units,
    /// How the plan is looked at; its zoom counts in steps.
    look: PlanLook,
}

impl PartialEq for PictureOf {
    fn eq(&self, other: &Self) -> bool {
        let look = |of: &Self| PlanLook { zoom: 1.0, ..of.look };
        Rc::ptr_eq(&self.layout, &other.layout)
            && Rc::ptr_eq(&self.report, &other.report)
            && (self.drawing, &self.position, self.shown) == (other.drawing, &other.position, other.shown)
            && (self.hides_answers, self.units) == (other.hides_answers, other.units)
            && look(self) == look(other)
            && plan::level(self.look.zoom) == plan::level(other.look.zoom)
    }
}

impl Session {
    fn picture_input(&self) -> FlowInput<'_> {
        FlowInput {
            layout: &self.shown,
            positions: &self.report().positions,
            drive: self.report().drive.as_ref(),
            position: &self.position,
            selected: &self.selection,
            lit: &self.lit,
            shown: self.labels.at_zoom(self.view.zoom),
            hide_answers: self.hide_answers,
            units: self.units,
            before: None,
            holds: Holds::Nothing,
        }
    }

    /// Draws the skeleton or the plan.
    pub(super) fn draw_picture(&self, drawing: Drawing) -> Picture {
        let input = self.picture_input();
        match drawing {
            Drawing::Plan => plan::picture(input, self.plan_look(), &self.laid(&self.shown)),
            Drawing::Flow | Drawing::Skeleton => skeleton::picture(input),
        }
    }

    /// The same, of the picture drawn last as far as that still holds.
    pub(super) fn picture_beside_last(&self, drawing: Drawing) -> Rc<Picture> {
        let of = PictureOf {
            drawing,
            layout: self.shown.clone(),
            report: self.report().clone(),
            position: self.position.clone(),
            shown: self.labels.at_zoom(self.view.zoom),
            hides_answers: self.hide_answers,
            units: self.units,
            look: self.plan_look(),
        };
        let last = self.pictured.borrow_mut().take();
        let picture = Rc::new(match &last {
            // Frames round groups come and go with what stands out.
            Some((last, made_of)) if *made_of == of && self.shown.groups.is_empty() => {
                self.standing_out(last)
            }
            Some((last, _)) => sharing(self.draw_picture(drawing), last),
            None => self.draw_picture(drawing),
        });
        self.pictured.replace(Some((picture.clone(), of)));
        picture
    }

    /// A picture with what stands out now.
    fn standing_out(&self, picture: &Picture) -> Picture {
        let input = self.picture_input();
        let items = picture.items.iter().map(|item| {
            let emphasis = input.emphasis(&item.target);
            if item.emphasis == emphasis {
                return item.clone();
            }
            Rc::new(PictureItem {
                emphasis,
                ..(**item).clone()
            })
        });
        Picture {
            items: items.collect(),
            ..picture.clone()
        }
    }

    /// The plan of a layout. Where things stand on other drawings, and what they are called, does not matter to it.
    pub(super) fn laid(&self, layout: &Rc<Layout>) -> Rc<Laid> {
        let mut kept = self.laid_out.borrow_mut();
        let known = kept
            .iter()
            .position(|(of, _)| Rc::ptr_eq(of, layout) || (of.plan == layout.plan && same_train(of, layout)));
        let laid = match known {
            Some(number) => kept.remove(number).1,
            None => Rc::new(Laid::of(layout)),
        };
        kept.insert(0, (layout.clone(), laid.clone()));
        kept.truncate(MOST_LAID);
        laid
    }
}

/// A picture that shares with the one before it what is the same.
fn sharing(picture: Picture, last: &Picture) -> Picture {
    let items = picture.items.into_iter().enumerate().map(|(number, item)| {
        let before = last.items.get(number).filter(|before| same(before, &item));
        before.cloned().unwrap_or(item)
    });
    Picture {
        items: items.collect(),
        ..picture
    }
}
