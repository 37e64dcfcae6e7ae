//! Worm and wheel.

use crate::train::{Constraint, Port};

/// Worm of `n` starts on a wheel of `z` teeth: `n w_worm − z w_wheel = 0` (right hand), `+` for a left hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Worm {
    /// Port of the worm.
    pub worm: Port,
    /// Port of the wheel.
    pub wheel: Port,
    /// Threads on the worm.
    pub starts: u32,
    /// Teeth of the wheel.
    pub teeth: u32,
    /// Left-hand thread: the wheel turns negative for a positive worm.
    pub left_hand: bool,
}

impl Worm {
    pub(super) fn constraint(&self) -> Constraint {
        let wheel = i128::from(self.teeth);
        Constraint::new(&[
            (self.worm, i128::from(self.starts)),
            (self.wheel, if self.left_hand { wheel } else { -wheel }),
        ])
    }
}
