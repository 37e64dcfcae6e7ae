//! Labels of the plan: set in pixels as on the other drawings, then brought to the plan's millimetres.

use super::Sheet;
use crate::geometry::{Point, Rect};
use crate::plan::parts::{Body, Bond};
use crate::scene::crowd::Crowd;
use crate::scene::items::{Label, RunContent};
use crate::scene::picture::Backdrop;
use crate::scene::spread;
use crate::scene::text::{self, Letters, Lines};
use crate::target::Target;
use crate::wording::plan::mm;

/// Elements above which labels are left out: they would cover everything.
pub const MOST_LABELLED: usize = 60;
/// How far from the middle of a mesh its label stays, over the module.
const OFF_THE_MESH: f64 = 2.6;

/// Gives labels places where they cover least.
pub struct Labels {
    crowd: Crowd,
}

impl Labels {
    /// Of a sheet, whose axes are to stay free.
    pub fn new(sheet: &Sheet<'_>) -> Self {
        let mut crowd = Crowd::default();
        for (axis, at) in sheet.plan.at.iter().enumerate() {
            for layer in sheet.layers_of_axis(axis) {
                let at = (*at + sheet.shift(layer)) * sheet.zoom;
                let side = (sheet.input.layout.plan.shaft_mm * sheet.zoom).max(10.0);
                crowd.take(Rect::around(at, side, side), spread::THING);
            }
        }
        Self { crowd }
    }

    /// Name, teeth and distance of an element.
    pub fn element(&mut self, sheet: &Sheet<'_>, number: usize, at: Point) -> Option<Label> {
        if sheet.input.layout.elements.len() > MOST_LABELLED {
            return None;
        }
        let element = &sheet.input.layout.elements[number];
        let target = Target::Element(element.id.clone());
        let mut lines = vec![vec![RunContent::Name(element.id.to_string())]];
        let link = sheet.plan.links.iter().find(|link| link.element == number);
        // Where teeth mesh is what is looked at: the label stays off it.
        let mut half = 4.0_f64;
        if let Some(link) = link
            && let Bond::Apart(distance) = link.bond
        {
            lines.push(vec![RunContent::Text(mm(distance))]);
            if let Body::Gear(gear) = sheet.plan.wheels[link.wheels[0]].body {
                half = half.max(OFF_THE_MESH * gear.module_mm * sheet.zoom);
            }
        }
        Some(self.set(sheet, lines, target, at, half))
    }

    /// Name of a shaft.
    pub fn shaft(&mut self, sheet: &Sheet<'_>, axis: usize, number: usize, at: Point) -> Option<Label> {
        if sheet.input.layout.elements.len() > MOST_LABELLED {
            return None;
        }
        let id = &sheet.plan.axes[axis].shafts[number];
        let target = Target::Shaft(id.clone());
        let half = sheet.input.layout.plan.shaft_mm / 2.0 * sheet.zoom;
        let lines = vec![vec![RunContent::Name(id.to_string())]];
        Some(self.set(sheet, lines, target, at, half.max(4.0)))
    }

    /// What labels have taken, in pixels.
    pub const fn crowd(&mut self) -> &mut Crowd {
        &mut self.crowd
    }

    fn set(&mut self, sheet: &Sheet<'_>, lines: Lines, target: Target, at: Point, half: f64) -> Label {
        let size = text::room(&lines, Letters::Plain);
        let (bounds, leader) = spread::settle(&mut self.crowd, at * sheet.zoom, (half, half), size, true);
        let label = text::set(lines, target, "label", bounds, leader, Letters::Plain);
        label.scaled(1.0 / sheet.zoom)
    }
}

/// The name of a lifted layer, on its left; over it where layers stand from left to right.
pub fn layer_name(sheet: &Sheet<'_>, layer: u32, bounds: Rect) -> Backdrop {
    let lines = vec![vec![RunContent::Quiet(format!("Layer {layer}"))]];
    let (width, height) = text::room(&lines, Letters::Plain);
    let axis = sheet.plan.at.first().copied().unwrap_or_default();
    let (at, rise) = if sheet.lift.x > 0.0 {
        (Point::new(axis.x, bounds.y) + sheet.shift(layer), 1.0)
    } else {
        (Point::new(bounds.x, axis.y) + sheet.shift(layer), 0.5)
    };
    let room = Rect {
        x: at.x * sheet.zoom,
        y: at.y * sheet.zoom - height * rise,
        width,
        height,
    };
    let label = text::set(
        lines,
        Target::Layout,
        &format!("layer-{layer}"),
        room,
        None,
        Letters::Plain,
    );
    Backdrop {
        key: format!("plan-layer-{layer}"),
        strokes: Vec::new(),
        label: Some(label.scaled(1.0 / sheet.zoom)),
    }
}
