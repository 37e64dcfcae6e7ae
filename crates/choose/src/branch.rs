//! The ratio of a connection as such: an element of the train with another ratio and the loss that it has.
//!
//! A ratio between those of any two gears can't be typed into a layout, so it is put into the lowered train. A decimal is
//! taken to nine digits and a small one to a fraction as close, so that the exact solution stays exact for what it solves.

use layshaft_kinematics::Element;
use layshaft_kinematics::elements::{Belt, Mesh, Worm};
use layshaft_layout::ElementKind;
use layshaft_layout::lower::{Lowered, Part};
use layshaft_powerflow::{ElementLoss, Loss};

/// A ratio to be put into a train.
#[derive(Clone, Copy, Debug)]
pub struct Ratio {
    /// The element's place in the document.
    pub at: usize,
    /// Second shaft's speed over the first's in the sense drawn; negative turns it round.
    pub value: f64,
    /// Efficiency of plain gears instead.
    pub plain_gears: Option<f64>,
}

/// The ratio of an element as drawn; none for kinds that have none.
pub fn present(kind: &ElementKind) -> Option<f64> {
    let ratio = |first: f64, second: f64| first / second;
    match kind {
        ElementKind::Mesh(mesh) => Some(ratio(mesh.teeth[0].into(), mesh.teeth[1].into())),
        ElementKind::Chain(chain) => Some(ratio(chain.teeth[0].into(), chain.teeth[1].into())),
        ElementKind::Belt(belt) => Some(ratio(belt.diameters_mm[0], belt.diameters_mm[1])),
        ElementKind::FrictionWheel(wheels) => Some(ratio(wheels.diameters_mm[0], wheels.diameters_mm[1])),
        ElementKind::Worm(worm) => Some(ratio(worm.starts.into(), worm.teeth.into())),
        _ => None,
    }
}

/// Below this a decimal fraction with nine places has fewer than eight digits.
const SMALL: f64 = 0.1;

/// Two whole numbers whose quotient is a size to eight digits, `None` where it is nothing or beyond a billion to one.
fn whole(size: f64) -> Option<[u32; 2]> {
    if !(1e-9..1e9).contains(&size) {
        return None;
    }
    if size < SMALL {
        return Some(convergent(size));
    }
    let mut denominator = 1_u32;
    while size * f64::from(denominator) < 1e8 {
        denominator *= 10;
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 10⁸ and 10⁹ by the bounds above"
    )]
    let numerator = libm::round(size * f64::from(denominator)) as u32;
    Some([numerator, denominator])
}

/// The continued fraction of a small size, broken off before its denominator grows too large: off by less than one in the
/// product of this numerator and the next denominator (A. Y. Khinchin, "Continued Fractions", 1964, theorem 9).
fn convergent(size: f64) -> [u32; 2] {
    const CLOSE: f64 = 1e-13;
    // The last two convergents; the first two of a size below 1 are 0/1 and 1/0.
    let (mut before, mut last) = ([1.0, 0.0], [0.0, 1.0]);
    let mut rest = size;
    while rest > 0.0 && (last[0] / last[1] / size - 1.0).abs() > CLOSE {
        let quotient = libm::floor(1.0 / rest);
        let next = [0, 1].map(|part| quotient * last[part] + before[part]);
        if next[1] > f64::from(u32::MAX) {
            break;
        }
        rest = 1.0 / rest - quotient;
        (before, last) = (last, next);
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole numbers from 1 on that fit"
    )]
    last.map(|part| part as u32)
}

impl Ratio {
    /// Whether it is a ratio at all.
    pub fn is_one(&self) -> bool {
        whole(self.value.abs()).is_some()
    }

    /// Gives the element its ratio. What its multiplier means changes with the sizes of its gears; force on bearings and
    /// compliance, which are per multiplier, change with it, so that they stay the same per torque at its first shaft.
    pub fn put_into(&self, lowered: &mut Lowered) {
        let (Some(Part::Element(at)), Some(sizes)) = (lowered.parts.get(self.at), whole(self.value.abs()))
        else {
            return;
        };
        let at = *at;
        let old = lowered.model.train.elements()[at.at()].clone();
        let Some(new) = self.element(&old, sizes) else {
            return;
        };
        let first = |element: &Element| element.constraint().terms()[0].weight().abs();
        let scale = first(&new) / first(&old);
        lowered.model.train.replace(at, new);
        let loss = &mut lowered.model.elements[at.at()];
        loss.bearing_force *= scale;
        loss.compliance *= scale * scale;
        self.adjust_loss(loss);
    }

    fn element(&self, old: &Element, sizes: [u32; 2]) -> Option<Element> {
        let turned = self.value < 0.0;
        Some(match old {
            Element::Mesh(mesh) => Element::Mesh(Mesh {
                teeth: sizes,
                reversing: mesh.reversing != turned,
                ..*mesh
            }),
            Element::Belt(belt) => Element::Belt(Belt {
                diameters: sizes.map(i128::from),
                crossed: belt.crossed != turned,
                ..*belt
            }),
            Element::Worm(worm) if self.plain_gears.is_some() => Element::Mesh(Mesh {
                a: worm.worm,
                b: worm.wheel,
                teeth: sizes,
                reversing: worm.left_hand != turned,
            }),
            Element::Worm(worm) => Element::Worm(Worm {
                starts: sizes[0],
                teeth: sizes[1],
                left_hand: worm.left_hand != turned,
                ..*worm
            }),
            _ => return None,
        })
    }

    fn adjust_loss(&self, loss: &mut ElementLoss) {
        if let Some(efficiency) = self.plain_gears {
            *loss = ElementLoss {
                loss: Loss::Pair { efficiency },
                compliance: loss.compliance,
                ..ElementLoss::default()
            };
        } else if let Loss::Worm(worm) = &mut loss.loss
            && let Some(collar) = &mut worm.collar
        {
            collar.reduction = 1.0 / self.value.abs();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(size: f64) {
        let [numerator, denominator] = whole(size).expect("a ratio");
        assert!(
            (f64::from(numerator) / f64::from(denominator) / size - 1.0).abs() < 5e-9,
            "{size}"
        );
    }

    fn check_exact(size: f64, expected: [u32; 2]) {
        assert_eq!(whole(size), Some(expected), "{size}");
    }

    #[test]
    fn small_ratios_keep_their_digits() {
        check_exact(1.0 / 333.0, [1, 333]);
        check_exact(1.0 / 31_234.0, [1, 31_234]);
        check_exact(0.003, [3, 1000]);
        check_exact(0.05, [1, 20]);
        check_exact(1e-9, [1, 1_000_000_000]);
        [
            0.099_999_999,
            0.031_415_926_5,
            2.718_281_8e-4,
            1.234_567_8e-7,
            7.654_321e-9,
        ]
        .into_iter()
        .for_each(check);
    }

    #[test]
    fn ratios_become_whole_numbers_to_eight_digits() {
        [0.5, 1.0 / 3.0, 1e-3, 12.0, 1234.567, 1.0]
            .into_iter()
            .for_each(check);
        assert_eq!(whole(9e-10), None);
        assert_eq!(whole(0.0), None);
        assert_eq!(whole(f64::NAN), None);
    }
}
