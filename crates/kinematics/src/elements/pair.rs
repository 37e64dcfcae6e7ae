//! Gears in contact, sprockets with a chain, pulleys with a belt: two ports, one fixed ratio.

use crate::train::{Constraint, Port};

/// Two toothed wheels: gears in mesh, or sprockets with a chain or toothed belt between them.
///
/// `z_a w_a + z_b w_b = 0` where they turn opposite ways (external mesh), `z_a w_a − z_b w_b = 0` where they turn the
/// same way (internal mesh, chain; bevel pairs either way as the user says).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mesh {
    /// Port of the first wheel.
    pub a: Port,
    /// Port of the second wheel.
    pub b: Port,
    /// Tooth counts on `a` and `b`.
    pub teeth: [u32; 2],
    /// They turn opposite ways.
    pub reversing: bool,
}

impl Mesh {
    pub(super) fn constraint(&self) -> Constraint {
        two_sizes(self.a, self.b, self.teeth.map(i128::from), self.reversing)
    }
}

/// Belt over two pulleys without slip: the diameters take the place of tooth counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Belt {
    /// Port of the first pulley.
    pub a: Port,
    /// Port of the second pulley.
    pub b: Port,
    /// Diameters in any common unit that makes both whole.
    pub diameters: [i128; 2],
    /// Crossed: they turn opposite ways.
    pub crossed: bool,
}

impl Belt {
    pub(super) fn constraint(&self) -> Constraint {
        two_sizes(self.a, self.b, self.diameters, self.crossed)
    }
}

fn two_sizes(a: Port, b: Port, sizes: [i128; 2], reversing: bool) -> Constraint {
    let second = if reversing { sizes[1] } else { -sizes[1] };
    Constraint::new(&[(a, sizes[0]), (b, second)])
}
