//! Joints of ratio one, holds, and wheels on the ground.

use crate::train::{Constraint, Port};

/// Two shafts joined: `w_a − w_b = 0` (an engaged dog clutch).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Coupling {
    /// First port.
    pub a: Port,
    /// Second port.
    pub b: Port,
}

impl Coupling {
    pub(super) fn constraint(&self) -> Constraint {
        Constraint::new(&[(self.a, 1), (self.b, -1)])
    }
}

/// Two ports that may turn against one another: no constraint, but they belong to one connected part (a one-way clutch
/// that overruns, a slip clutch that slips).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Loose {
    /// First port.
    pub a: Port,
    /// Second port.
    pub b: Port,
}

impl Loose {
    pub(super) fn constraint(&self) -> Constraint {
        Constraint::new(&[(self.a, 0), (self.b, 0)])
    }
}

/// A shaft held to the frame: `w = 0` (a brake that is on).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hold {
    /// What is held.
    pub shaft: Port,
}

impl Hold {
    pub(super) fn constraint(&self) -> Constraint {
        Constraint::new(&[(self.shaft, 1)])
    }
}

/// A wheel that rolls without slip: `r w − v = 0`, the body's speed `v` standing in as a shaft of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rolling {
    /// Port of the wheel.
    pub wheel: Port,
    /// The body that moves along the ground.
    pub body: Port,
    /// Radius in metres as numerator and denominator.
    pub radius: [i128; 2],
}

impl Rolling {
    pub(super) fn constraint(&self) -> Constraint {
        Constraint::new(&[(self.wheel, self.radius[0]), (self.body, -self.radius[1])])
    }
}
