//! How smoothly things move on a drawing. Every step of a movement has the browser paint the whole drawing anew, so a
//! large one moves in fewer steps, and a very large one stands still and shows senses by its arrows alone.

/// Frames per second.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Pace(u32);

impl Pace {
    /// What a drawing of so many elements can afford. Steps of all movements fall on the same instants, since their
    /// length is a whole part of a second whatever their period.
    #[must_use]
    pub const fn for_elements(count: usize) -> Self {
        Self(match count {
            0..=30 => 24,
            31..=80 => 10,
            81..=150 => 5,
            _ => 0,
        })
    }

    /// Whether anything moves.
    #[must_use]
    pub const fn moves(self) -> bool {
        self.0 > 0
    }

    /// Into how many steps a movement with this period in seconds is cut; at least two, or it would not be seen.
    #[must_use]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to a few thousand"
    )]
    pub fn steps(self, period_s: f64) -> u32 {
        (f64::from(self.0) * period_s).round().clamp(2.0, 5000.0) as u32
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_demo_moves_smoothly_and_a_crowd_stands_still() {
        assert_eq!(Pace::for_elements(12).steps(1.6), 38);
        assert!(Pace::for_elements(150).moves());
        assert!(!Pace::for_elements(151).moves());
    }

    #[test]
    fn the_quickest_turn_still_has_steps() {
        assert_eq!(Pace::for_elements(100).steps(0.01), 2);
    }
}
