//! The plan: what turns, at its true size and place seen along the shafts, in millimetres.
//!
//! [`Plan::of`] reads wheels and distances off the layout ([`parts`]), finds a place for every axis ([`place`]), a layer for
//! every element ([`layers`]) and the angle at which every tooth stands ([`phase`]). [`check`] says what does not fit,
//! [`snap`] where a dragged axis comes to rest, [`cut`] writes outlines for cutting. How it is drawn is in `scene::plan`.

pub mod check;
pub mod cut;
pub mod fields;
pub mod layers;
pub mod parts;
pub mod phase;
pub mod place;
pub mod snap;
#[cfg(test)]
mod tests;

use layshaft_layout::{Id, Layout};

use crate::geometry::Point;
pub use parts::{Axis, Body, Link, Wheel};

/// Everything on the plan, placed.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Axes that shafts turn about; shafts that run in one another share one.
    pub axes: Vec<Axis>,
    /// Where each axis is.
    pub at: Vec<Point>,
    /// Wheels, in the order of their elements.
    pub wheels: Vec<Wheel>,
    /// What binds two axes, in the order of the elements.
    pub links: Vec<Link>,
    /// Layer of each element, counted from 1; 0: it has no wheel.
    pub layers: Vec<u32>,
}

/// A plan with what does not fit on it.
#[derive(Clone, Debug)]
pub struct Laid {
    /// The plan.
    pub plan: Plan,
    /// What does not fit, what is wrong first.
    pub faults: Vec<check::Fault>,
}

impl Laid {
    /// Lays out the plan of a layout and looks it over.
    #[must_use]
    pub fn of(layout: &Layout) -> Self {
        let plan = Plan::of(layout);
        let faults = check::faults(layout, &plan);
        Self { plan, faults }
    }
}

impl Plan {
    /// The plan of a layout.
    #[must_use]
    pub fn of(layout: &Layout) -> Self {
        let parts = parts::parts(layout);
        let at = place::place(layout, &parts);
        let mut plan = Self {
            axes: parts.axes,
            at,
            wheels: parts.wheels,
            links: parts.links,
            layers: Vec::new(),
        };
        layers::assign(layout, &mut plan);
        phase::mesh(&mut plan);
        plan
    }

    /// The axis of a shaft.
    #[must_use]
    pub fn axis_of(&self, shaft: &Id) -> Option<usize> {
        self.axes.iter().position(|axis| axis.shafts.contains(shaft))
    }

    /// Centre of a wheel.
    #[must_use]
    pub fn centre(&self, wheel: &Wheel) -> Point {
        let axis = self.at[wheel.axis];
        wheel.orbit.as_ref().map_or(axis, |orbit| {
            axis + Point::new(libm::cos(orbit.angle), libm::sin(orbit.angle)) * orbit.radius_mm
        })
    }

    /// How many layers there are.
    #[must_use]
    pub fn layer_count(&self) -> u32 {
        self.wheels.iter().map(|wheel| wheel.layer).max().unwrap_or(0)
    }
}
