//! What a turn of the wheel means: zooming about the pointer; with two fingers on a touch pad, sliding or pinching.

use crate::geometry::Point;
use crate::session::Input;

/// How many pixels one line of a wheel that counts in lines stands for.
const LINE: f64 = 24.0;
/// One notch of a common wheel (100 pixels) zooms by about a fifth.
const PER_PIXEL: f64 = 0.0018;
/// A pinch on a touch pad arrives as a wheel with small steps and Control held.
const PER_PINCHED_PIXEL: f64 = 0.01;
/// No single event zooms by more than this, however far a free wheel spins.
const LARGEST_STEP: f64 = 0.5;

/// A wheel event as browsers tell it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wheel {
    /// The place under the pointer, on the screen.
    pub at: Point,
    /// How far it turned, to the right and downwards.
    pub by: Point,
    /// Whether it counts in lines instead of pixels.
    pub in_lines: bool,
    /// Control is held, or two fingers pinch.
    pub control: bool,
    /// Shift is held.
    pub shift: bool,
}

impl Wheel {
    /// The input that it stands for: sideways or with Shift it slides the view, else it zooms.
    #[must_use]
    pub fn input(self) -> Input {
        let by = self.by * if self.in_lines { LINE } else { 1.0 };
        if self.slides() {
            Input::PanBy(by * -1.0)
        } else {
            Input::Zoom {
                at: self.at,
                by: self.factor(by.y),
            }
        }
    }

    /// A wheel that turns sideways at all is a touch pad under two fingers.
    fn slides(self) -> bool {
        !self.control && (self.shift || self.by.x.abs() > 0.0)
    }

    fn factor(self, down: f64) -> f64 {
        let rate = if self.control {
            PER_PINCHED_PIXEL
        } else {
            PER_PIXEL
        };
        libm::exp((-down * rate).clamp(-LARGEST_STEP, LARGEST_STEP))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wheel(x: f64, y: f64) -> Wheel {
        Wheel {
            at: Point::new(5.0, 7.0),
            by: Point::new(x, y),
            in_lines: false,
            control: false,
            shift: false,
        }
    }

    #[test]
    fn a_turn_towards_the_person_makes_smaller_about_the_pointer() {
        let Input::Zoom { at, by } = wheel(0.0, 100.0).input() else {
            panic!("a plain turn zooms")
        };
        assert_eq!(at, Point::new(5.0, 7.0));
        assert!(
            (0.8..0.9).contains(&by),
            "one notch zooms by about a fifth, got {by}"
        );
    }

    #[test]
    fn there_and_back_is_where_it_was() {
        let factor = |turn: f64| match wheel(0.0, turn).input() {
            Input::Zoom { by, .. } => by,
            other => panic!("a plain turn zooms, got {other:?}"),
        };
        assert!((factor(120.0) * factor(-120.0) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn two_fingers_slide_the_view_with_them() {
        assert_eq!(wheel(3.0, 4.0).input(), Input::PanBy(Point::new(-3.0, -4.0)));
    }
}
