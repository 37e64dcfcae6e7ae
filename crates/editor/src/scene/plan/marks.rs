//! Marks at what does not fit: never by colour alone, since each has its own shape and a sentence beside the drawing.

use layshaft_layout::Id;

use super::Sheet;
use super::wheels::{circle, line};
use crate::geometry::Point;
use crate::plan::check::Fault;
use crate::plan::layers;
use crate::scene::picture::{LineType, Stroke};

/// Size of a mark on the screen, in pixels.
const MARK_PX: f64 = 9.0;

/// Marks by element and by axis.
pub struct Marks {
    elements: Vec<Vec<Stroke>>,
    axes: Vec<Vec<Stroke>>,
}

impl Marks {
    /// The marks of all faults of a sheet.
    pub fn of(sheet: &Sheet<'_>) -> Self {
        let mut marks = Self {
            elements: vec![Vec::new(); sheet.input.layout.elements.len()],
            axes: vec![Vec::new(); sheet.plan.axes.len()],
        };
        for fault in sheet.faults {
            marks.add(sheet, fault);
        }
        marks
    }

    /// Of an element.
    pub fn of_element(&self, element: usize) -> impl Iterator<Item = Stroke> + '_ {
        self.elements[element].iter().cloned()
    }

    /// Of an axis.
    pub fn of_axis(&self, axis: usize) -> impl Iterator<Item = Stroke> + '_ {
        self.axes[axis].iter().cloned()
    }

    fn add(&mut self, sheet: &Sheet<'_>, fault: &Fault) {
        let number = |id: &Id| {
            sheet
                .input
                .layout
                .elements
                .iter()
                .position(|element| element.id == *id)
        };
        match fault {
            Fault::Distance { element, .. } => {
                let Some(element) = number(element) else { return };
                for link in sheet.plan.links.iter().filter(|link| link.element == element) {
                    let layer = sheet.plan.wheels[link.wheels[0]].layer;
                    let [one, other] = link.axes.map(|axis| sheet.plan.at[axis] + sheet.shift(layer));
                    self.elements[element].push(wrong(line(one, other)));
                    self.elements[element].push(cross(sheet, one.middle(other)));
                }
            }
            Fault::Collision { elements, layer } => {
                let (Some(one), Some(other)) = (number(&elements[0]), number(&elements[1])) else {
                    return;
                };
                if let Some(at) = between(sheet, one, other, *layer) {
                    self.elements[one].push(ring(sheet, at));
                    self.elements[one].push(cross(sheet, at));
                }
            }
            Fault::ShaftThrough { shaft, .. } => {
                if let Some(axis) = sheet.plan.axis_of(shaft) {
                    self.axes[axis].push(ring(sheet, sheet.plan.at[axis]));
                }
            }
            Fault::NoBore { shaft, .. } => {
                if let Some(axis) = sheet.plan.axis_of(shaft) {
                    self.axes[axis].push(cross(sheet, sheet.plan.at[axis]));
                }
            }
            Fault::PlanetsCollide { element, .. } => {
                let Some(element) = number(element) else { return };
                let planets = sheet
                    .plan
                    .wheels
                    .iter()
                    .filter(|wheel| wheel.element == element && wheel.orbit.is_some());
                let marks =
                    planets.map(|wheel| cross(sheet, sheet.plan.centre(wheel) + sheet.shift(wheel.layer)));
                self.elements[element].extend(marks);
            }
            _ => {}
        }
    }
}

/// Halfway between the two wheels that strike.
fn between(sheet: &Sheet<'_>, one: usize, other: usize, layer: u32) -> Option<Point> {
    let in_layer = |element: usize| {
        let wheels = sheet.plan.wheels.iter();
        wheels.filter(move |wheel| wheel.element == element && wheel.layer == layer)
    };
    in_layer(one).find_map(|first| {
        let second = in_layer(other).find(|second| layers::collide(sheet.plan, first, second))?;
        let (from, to) = (sheet.plan.centre(first), sheet.plan.centre(second));
        let (near, far) = (first.body.outer_radius(), second.body.outer_radius());
        let apart = from.distance(to);
        // The middle of what both cover, along the line of centres.
        let along = f64::midpoint((apart - far).max(-near), near.min(apart + far));
        Some(from + (to - from).unit() * along + sheet.shift(layer))
    })
}

const fn wrong(path: String) -> Stroke {
    Stroke::still(LineType::Wrong, path)
}

fn ring(sheet: &Sheet<'_>, at: Point) -> Stroke {
    wrong(circle(at, 1.5 * MARK_PX / sheet.zoom))
}

fn cross(sheet: &Sheet<'_>, at: Point) -> Stroke {
    let arm = MARK_PX / sheet.zoom;
    let (rising, falling) = (Point::new(arm, -arm), Point::new(arm, arm));
    wrong([line(at - rising, at + rising), line(at - falling, at + falling)].concat())
}
