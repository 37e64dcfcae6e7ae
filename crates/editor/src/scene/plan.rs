//! The plan drawn: pitch circles to scale, seen along the shafts, in millimetres; teeth where they are large enough to see.
//!
//! What stands where comes from [`crate::plan`]; here it becomes strokes (`wheels`), marks of what does not fit (`marks`)
//! and labels (`labels`). Everything depends on the zoom in steps ([`level`]), so that turning the wheel redraws seldom.

mod labels;
mod legend;
mod marks;
mod wheels;

use std::collections::BTreeMap;
use std::rc::Rc;

use layshaft_layout::Id;
use layshaft_report::PositionReport;

use super::describe::Telling;
use super::flow::FlowInput;
use super::grouped;
use super::items::Overlay;
use super::pace::Pace;
use super::picture::{Backdrop, LineType, Picture, PictureItem, Reach, Stroke};
use super::text::Letters;
use super::{describe, turning};
use crate::geometry::{Point, Rect, Size};
use crate::plan::parts::Body;
use crate::plan::{Laid, Plan, check, phase};
use crate::target::Target;
use crate::wording;
use marks::Marks;

/// What to do where there is nothing to draw.
const EMPTY: &str = "Nothing to draw yet: take a part from the tray, or press M for a gear mesh.";

/// How the plan is looked at; no part of the document.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// Screen pixels per millimetre.
    pub zoom: f64,
    /// How many times slower than on the other drawings it turns; none: it stands.
    pub slower: Option<f64>,
    /// The one layer that is shown; none: all.
    pub layer: Option<u32>,
    /// Layers stand beside one another instead of over one another.
    pub lifted: bool,
    /// The room for them on the screen: they stand from left to right or from top to bottom, as they are larger.
    pub room: Size,
}

impl Default for Look {
    fn default() -> Self {
        Self {
            zoom: 1.0,
            slower: Some(1.0),
            layer: None,
            lifted: false,
            room: Size::default(),
        }
    }
}

/// The step of detail at a zoom: half a doubling each.
#[must_use]
#[expect(clippy::cast_possible_truncation, reason = "zooms have limits")]
pub fn level(zoom: f64) -> i32 {
    (2.0 * libm::log2(zoom.max(1e-3))).round() as i32
}

/// Pixels per millimetre that a step of detail is drawn for.
fn zoom_of(level: i32) -> f64 {
    libm::pow(2.0, f64::from(level) / 2.0)
}

/// Builds the plan as it is laid out, without overlay.
#[must_use]
pub fn picture(input: FlowInput<'_>, look: Look, laid: &Laid) -> Picture {
    if input.layout.shafts.is_empty() {
        return Picture {
            empty: Some(EMPTY),
            ..Picture::default()
        };
    }
    Sheet::new(input, look, laid).picture()
}

/// All that drawing needs.
struct Sheet<'a> {
    input: FlowInput<'a>,
    look: Look,
    plan: &'a Plan,
    position: Option<&'a PositionReport>,
    turns: BTreeMap<Id, f64>,
    /// Pixels per millimetre.
    zoom: f64,
    /// How far one layer stands from the one before it, in mm, while they are lifted apart.
    lift: Point,
    faults: &'a [check::Fault],
}

impl<'a> Sheet<'a> {
    fn new(input: FlowInput<'a>, look: Look, laid: &'a Laid) -> Self {
        let position = input
            .positions
            .iter()
            .find(|position| position.id == *input.position)
            .map(Rc::as_ref);
        let moves = Pace::for_elements(input.layout.elements.len()).moves();
        let turns = match (position, look.slower) {
            (Some(position), Some(slower)) if moves => phase::turns_per_second(position, slower),
            _ => BTreeMap::new(),
        };
        let mut sheet = Self {
            input,
            look,
            plan: &laid.plan,
            position,
            turns,
            zoom: zoom_of(level(look.zoom)),
            lift: Point::default(),
            faults: &laid.faults,
        };
        if look.lifted {
            let flat = sheet.bounds_of_wheels();
            let gap = 10.0 * input.layout.plan_module_mm();
            let across = Point::new(flat.width + gap, 0.0);
            let down = Point::new(0.0, flat.height + gap);
            let scale = |step: Point| sheet.scale_of_lifted(flat, step);
            sheet.lift = if scale(across) > scale(down) { across } else { down };
        }
        sheet
    }

    /// How large all layers come out in the room on the screen, each a step from the one before it.
    fn scale_of_lifted(&self, flat: Rect, step: Point) -> f64 {
        let steps = f64::from(self.plan.layer_count().saturating_sub(1));
        let room = self.look.room;
        (room.width / (flat.width + steps * step.x)).min(room.height / (flat.height + steps * step.y))
    }

    fn shows(&self, layer: u32) -> bool {
        self.look.layer.is_none_or(|shown| shown == layer)
    }

    /// The layer nearest to the eye of those shown.
    fn front(&self) -> u32 {
        let layers = self.plan.wheels.iter().map(|wheel| wheel.layer);
        layers.filter(|layer| self.shows(*layer)).min().unwrap_or(1)
    }

    fn shift(&self, layer: u32) -> Point {
        self.lift * f64::from(layer.saturating_sub(1))
    }

    fn bounds_of_wheels(&self) -> Rect {
        let half = self.input.layout.plan.shaft_mm / 2.0 + 1.0;
        let discs = self.plan.wheels.iter().map(|wheel| {
            let at = self.plan.centre(wheel) + self.shift(wheel.layer);
            (at, wheel.body.outer_radius())
        });
        let axes = self.plan.at.iter().map(|at| (*at, half));
        discs
            .chain(axes)
            .map(|(at, radius)| Rect::around(at, 2.0 * radius, 2.0 * radius))
            .reduce(|one, other| one.union(&other))
            .unwrap_or_default()
    }

    fn telling(&self) -> Telling<'a> {
        Telling {
            position: self.position,
            shown: self.input.shown,
            hide: self.input.hide_answers,
            units: self.input.units,
        }
    }

    fn picture(&self) -> Picture {
        let marks = Marks::of(self);
        let mut labels = labels::Labels::new(self);
        let mut items: Vec<Rc<PictureItem>> = Vec::new();
        // Layers far from the eye first, so that those in front lie over them.
        let mut order: Vec<usize> = (0..self.input.layout.elements.len()).collect();
        order.sort_by_key(|element| std::cmp::Reverse(self.plan.layers[*element]));
        let elements: Vec<(usize, Rc<PictureItem>)> = order
            .into_iter()
            .filter_map(|element| Some((element, Rc::new(self.element(element, &marks, &mut labels)?))))
            .collect();
        items.extend(elements.into_iter().map(|(_, item)| item));
        for axis in 0..self.plan.axes.len() {
            items.extend(self.shafts(axis, &marks, &mut labels));
        }
        let frames = self.frames(&items, &mut labels);
        let legend = legend::legend(self, !frames.is_empty());
        let reach = frames
            .iter()
            .flat_map(|item| item.reach.iter().map(Reach::bounds));
        let reach: Vec<Rect> = reach.collect();
        items.splice(0..0, frames);
        let bounds = items
            .iter()
            .filter_map(|item| item.label.as_ref().map(|label| label.bounds))
            .chain(reach)
            .fold(
                self.bounds_of_wheels()
                    .grown(1.5 * self.input.layout.plan_module_mm()),
                |all, one| all.union(&one),
            );
        Picture {
            bounds,
            ground: self.ground(bounds),
            items,
            overlay: Overlay::default(),
            legend: Rc::new(legend),
            empty: None,
            layers: self.plan.layer_count(),
            remarks: self.faults.iter().map(wording::plan::remark).collect(),
        }
    }

    /// Frames round groups, where they don't clutter: not round layers that stand apart, nor on a crowded plan.
    fn frames(&self, items: &[Rc<PictureItem>], labels: &mut labels::Labels) -> Vec<Rc<PictureItem>> {
        if self.look.lifted || self.input.layout.elements.len() > labels::MOST_LABELLED {
            return Vec::new();
        }
        let scale = grouped::Scale {
            zoom: self.zoom,
            letters: Letters::Plain,
            writing: 0.0,
        };
        grouped::frames(&self.input, items, labels.crowd(), scale)
    }

    fn element(&self, number: usize, marks: &Marks, labels: &mut labels::Labels) -> Option<PictureItem> {
        let element = &self.input.layout.elements[number];
        let target = Target::Element(element.id.clone());
        let mut strokes = Vec::new();
        let mut reach = Vec::new();
        for wheel in self
            .plan
            .wheels
            .iter()
            .filter(|wheel| wheel.element == number && self.shows(wheel.layer))
        {
            wheels::draw(self, wheel, &mut strokes);
            reach.extend(wheels::reach(self, wheel));
        }
        for link in self.plan.links.iter().filter(|link| link.element == number) {
            wheels::draw_link(self, link, &mut strokes);
        }
        if strokes.is_empty() {
            return None;
        }
        strokes.extend(marks.of_element(number));
        let at = self.place_of_element(number)?;
        let result = self
            .position
            .and_then(|position| position.elements.iter().find(|result| result.id == element.id));
        let layer = self.plan.layers[number];
        Some(PictureItem {
            key: target.key(),
            spoken: format!(
                "{}, layer {layer}",
                describe::element_spoken(element, result, self.telling())
            ),
            at,
            strokes,
            reach,
            label: labels.element(self, number, at),
            emphasis: self.input.emphasis(&target),
            target,
        })
    }

    /// Where an element is reached by arrow keys: where its wheels meet, else at its first wheel.
    fn place_of_element(&self, number: usize) -> Option<Point> {
        let link = self.plan.links.iter().find(|link| link.element == number);
        let wheel = self.plan.wheels.iter().find(|wheel| wheel.element == number)?;
        let shift = self.shift(wheel.layer);
        Some(link.map_or_else(
            || self.plan.at[wheel.axis] + Point::new(0.0, -0.6 * wheel.body.pitch_radius()) + shift,
            |link| {
                let [one, other] = link.axes.map(|axis| self.plan.at[axis]);
                let radius = self.plan.wheels[link.wheels[0]].body.pitch_radius();
                one + (other - one).unit() * radius + shift
            },
        ))
    }

    /// One item for every shaft of an axis; those that share it lie round one another.
    fn shafts(&self, axis: usize, marks: &Marks, labels: &mut labels::Labels) -> Vec<Rc<PictureItem>> {
        let at = self.plan.at[axis];
        let radius = (self.input.layout.plan.shaft_mm / 2.0).max(0.2);
        let layers = self.layers_of_axis(axis);
        let shafts = self.plan.axes[axis].shafts.iter().enumerate();
        shafts
            .map(|(number, id)| {
                let target = Target::Shaft(id.clone());
                let own = radius * (1.0 + 0.45 * number as f64);
                let mut strokes = Vec::new();
                for layer in &layers {
                    let middle = at + self.shift(*layer);
                    strokes.extend(self.hub(middle, own, id, number == 0));
                }
                if number == 0 {
                    strokes.extend(self.lifted_axis(at, &layers));
                    strokes.extend(marks.of_axis(axis));
                }
                let result = self
                    .position
                    .and_then(|position| position.shafts.iter().find(|result| result.id == *id));
                let standing = self
                    .position
                    .zip(result)
                    .map_or(super::Standing::Unreached, |(position, result)| {
                        turning::standing(result, position.state)
                    });
                let is_drive = self.input.drive == Some(id);
                let first = layers.first().copied().unwrap_or(1);
                Rc::new(PictureItem {
                    key: target.key(),
                    spoken: format!(
                        "{}, at {} and {} millimetres",
                        describe::shaft_spoken(id, result, standing, is_drive, self.telling()),
                        (at.x * 10.0).round() / 10.0,
                        (at.y * 10.0).round() / 10.0
                    ),
                    at: at + self.shift(first),
                    strokes,
                    reach: layers
                        .iter()
                        .map(|layer| Reach::Disc(at + self.shift(*layer), own))
                        .collect(),
                    label: labels.shaft(self, axis, number, at + self.shift(first)),
                    emphasis: self.input.emphasis(&target),
                    target,
                })
            })
            .collect()
    }

    /// Layers in which an axis shows: where its wheels are; one where it has none.
    fn layers_of_axis(&self, axis: usize) -> Vec<u32> {
        let own = self
            .plan
            .wheels
            .iter()
            .filter(|wheel| wheel.axis == axis && self.shows(wheel.layer));
        let mut layers: Vec<u32> = own.map(|wheel| wheel.layer).collect();
        layers.sort_unstable();
        layers.dedup();
        if !self.look.lifted {
            layers.truncate(1);
        }
        if layers.is_empty() {
            layers.push(self.look.layer.filter(|_| self.look.lifted).unwrap_or(1));
        }
        layers
    }

    fn hub(&self, at: Point, radius: f64, id: &Id, crossed: bool) -> Vec<Stroke> {
        let mut strokes = vec![Stroke::still(LineType::Outline, wheels::circle(at, radius))];
        if crossed {
            let arm = radius * 1.8;
            let cross = format!(
                "M{} {}H{}M{} {}V{}",
                wheels::short(at.x - arm),
                wheels::short(at.y),
                wheels::short(at.x + arm),
                wheels::short(at.x),
                wheels::short(at.y - arm),
                wheels::short(at.y + arm)
            );
            strokes.push(Stroke::still(LineType::Chain, cross));
        }
        if self.input.drive == Some(id) {
            strokes.push(Stroke::still(LineType::Thin, wheels::circle(at, radius * 1.35)));
        }
        strokes
    }

    fn lifted_axis(&self, at: Point, layers: &[u32]) -> Option<Stroke> {
        let (first, last) = (layers.first()?, layers.last()?);
        (self.look.lifted && first != last).then(|| {
            let (from, to) = (at + self.shift(*first), at + self.shift(*last));
            Stroke::still(LineType::Chain, wheels::line(from, to))
        })
    }

    /// Bores of the pattern that lie in the picture, and the names of lifted layers.
    fn ground(&self, bounds: Rect) -> Vec<Rc<Backdrop>> {
        let mut ground = Vec::new();
        let settings = &self.input.layout.plan;
        let reach = Point::new(bounds.width, bounds.height).length() / 2.0;
        let bores = crate::plan::place::bores_near(settings, bounds.centre(), reach);
        let inside = bores.into_iter().filter(|bore| bounds.contains(*bore));
        let radius = (settings.shaft_mm / 2.0).max(0.2);
        let paths: String = inside.map(|bore| wheels::circle(bore, radius)).collect();
        if !paths.is_empty() {
            ground.push(Rc::new(Backdrop {
                key: "plan-bores".to_owned(),
                strokes: vec![Stroke::still(LineType::Dashed, paths)],
                label: None,
            }));
        }
        if self.look.lifted {
            for layer in (1..=self.plan.layer_count()).filter(|layer| self.shows(*layer)) {
                ground.push(Rc::new(labels::layer_name(self, layer, bounds)));
            }
        }
        ground
    }

    /// Whether a body's teeth are large enough to be drawn.
    fn shows_teeth(&self, body: &Body) -> bool {
        /// Height of a tooth on the screen in pixels below which it is only a ragged line.
        const LEAST_TOOTH: f64 = 5.0;
        matches!(body, Body::Gear(gear) if 2.25 * gear.module_mm * self.zoom >= LEAST_TOOTH && gear.teeth <= 400)
    }
}
