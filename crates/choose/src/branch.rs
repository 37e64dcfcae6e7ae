//! The ratio of a connection as such: an element of the train with another ratio and the loss that it has.
//!
//! A ratio between those of any two gears can't be typed into a layout, so it is put into the lowered train. A decimal is
//! taken to nine digits, so that the exact solution stays exact for what it solves.

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

/// Two whole numbers of at most nine digits whose quotient is a size, `None` where it is nothing or beyond a billion to one.
fn whole(size: f64) -> Option<[u32; 2]> {
    if !(1e-9..1e9).contains(&size) {
        return None;
    }
    let mut denominator = 1_u32;
    while size * f64::from(denominator) < 1e8 && denominator < 1_000_000_000 {
        denominator *= 10;
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 1 and 10⁹ by the bounds above"
    )]
    let numerator = libm::round(size * f64::from(denominator)) as u32;
    (numerator > 0).then_some([numerator, denominator])
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
            (f64::from(numerator) / f64::from(denominator) / size - 1.0).abs() < 2e-8,
            "{size}"
        );
    }

    #[test]
    fn ratios_become_whole_numbers_to_eight_digits() {
        [0.5, 1.0 / 3.0, 1e-3, 12.0, 1234.567, 1.0]
            .into_iter()
            .for_each(check);
        assert_eq!(whole(0.0), None);
        assert_eq!(whole(f64::NAN), None);
    }
}
