//! Basic efficiency of sets with a carrier, carrier held, from friction of teeth and planet pins.
//!
//! Carrier held, such a set is a train of ordinary meshes in a row, so its efficiency is their product, times a factor for
//! the planets turning on their pins. How it enters the power flow is in `losses::carrier`.

use layshaft_kinematics::{ElementIdx, Port};
use layshaft_quantity::{Angle, Length};

use crate::flow::Flow;
use crate::losses::{Loss, half_difference};
use crate::model::Model;
use crate::tooth::{LEAST_EFFICIENCY, PairForm, ToothLoss, tooth_loss_of};

/// Tooth counts of a set with a carrier, which need not be whole: a planet's may follow from sun and ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CarrierTeeth {
    /// Sun, planet, ring.
    Single {
        /// Sun.
        sun: f64,
        /// Planet.
        planet: f64,
        /// Ring.
        ring: f64,
    },
    /// Sun, inner planet, outer planet, ring.
    Double {
        /// Sun.
        sun: f64,
        /// Planets: on the sun, on the ring.
        planets: [f64; 2],
        /// Ring.
        ring: f64,
    },
    /// Bevel differential: side gear and pinion.
    Bevel {
        /// Either side gear.
        side: f64,
        /// Pinion on the carrier.
        pinion: f64,
    },
    /// Two central gears, each on its part of a stepped planet.
    Stepped {
        /// First central gear and its planet.
        first: [f64; 2],
        /// Second central gear and its planet.
        second: [f64; 2],
        /// Which of the two are rings.
        rings: [bool; 2],
    },
}

impl CarrierTeeth {
    /// A set of single planets of the size that sun and ring leave room for, `(z_r − z_s) / 2`.
    #[must_use]
    pub fn single(sun: u32, ring: u32) -> Self {
        let [sun, ring] = [sun, ring].map(f64::from);
        Self::Single {
            sun,
            planet: (ring - sun) / 2.0,
            ring,
        }
    }

    /// Each mesh on the way from one central gear to the other: pinion or planet, wheel or ring, form.
    #[must_use]
    pub fn pairs(&self) -> Vec<([f64; 2], PairForm)> {
        use PairForm::{Bevel, External, Internal};
        let on_planet = |[central, planet]: [f64; 2], ring: bool| {
            if ring {
                ([planet, central], Internal)
            } else {
                ([central, planet], External)
            }
        };
        match *self {
            Self::Single { sun, planet, ring } => {
                vec![on_planet([sun, planet], false), on_planet([ring, planet], true)]
            }
            Self::Double {
                sun,
                planets: [inner, outer],
                ring,
            } => vec![
                on_planet([sun, inner], false),
                ([inner, outer], External),
                on_planet([ring, outer], true),
            ],
            Self::Bevel { side, pinion } => vec![([side, pinion], Bevel); 2],
            Self::Stepped { first, second, rings } => {
                vec![on_planet(first, rings[0]), on_planet(second, rings[1])]
            }
        }
    }

    /// Tooth-loss factor of each mesh.
    #[must_use]
    pub fn meshes(&self, pressure: Angle) -> Vec<ToothLoss> {
        let loss = |(teeth, form)| tooth_loss_of(teeth, pressure, form);
        self.pairs().into_iter().map(loss).collect()
    }
}

/// Basic efficiency of a set from its meshes, all of one coefficient of friction: `Π (1 − f H)`. Planet pins come on top:
/// multiply by [`pin_factor`].
#[must_use]
pub fn basic_from_meshes(meshes: &[ToothLoss], friction: f64) -> f64 {
    meshes.iter().map(|mesh| mesh.efficiency(friction)).product()
}

/// Share that planets let through as they turn on their pins: `1 − 2 f r_pin / r_planet`.
///
/// Both meshes push a planet the same way with the tangential force `F`, so `2 F` presses on the pin and `2 F f r_pin` is
/// lost of the `F r_planet` that goes through. Radial forces of the two meshes cancel. Kept above 0.
#[must_use]
pub fn pin_factor(friction: f64, pin: Length, planet: Length) -> f64 {
    (1.0 - 2.0 * friction * (pin / planet)).max(LEAST_EFFICIENCY)
}

/// Speeds that differ by no more than this share of the larger are the same.
const SAME_SPEED: f64 = 1e-12;

/// How far the torques at the central members of a set that turns as one block may be from those computed, as a share of
/// them: nothing slides, so tooth friction is anything within `±k`, `k = (1 − n0)/(1 + n0)`, and the middle is shown. `None`
/// for elements without a carrier, sets whose teeth slide, and where nothing flows.
#[must_use]
pub fn split_uncertainty(model: &Model, flow: &Flow, element: ElementIdx) -> Option<f64> {
    let gear = model.train.element(element).as_carrier_gear()?;
    let Loss::Basic { efficiency } = model.elements.get(element.at())?.loss else {
        return None;
    };
    let speed = |port: Port| port.shaft().map_or(0.0, |shaft| flow.speeds[shaft.at()]);
    let carrier = speed(gear.carrier);
    let turns_along = |port: Port| (speed(port) - carrier).abs() <= SAME_SPEED * carrier.abs();
    let loaded = flow.into_element(element).iter().any(|torque| *torque != 0.0);
    let block = carrier != 0.0 && turns_along(gear.first) && turns_along(gear.second);
    (block && loaded && efficiency < 1.0).then(|| half_difference(efficiency))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{Drive, ElementLoss, ShaftLoss, Source};
    use crate::tooth::tooth_loss_by_polynomial;
    use crate::{Load, LoadKind, operate};
    use layshaft_kinematics::elements::{Coupling, Hold, Planetary, Planets};
    use layshaft_kinematics::{Element, Ratio, ShaftIdx, Train};
    use layshaft_quantity::Torque;

    const PRESSURE: Angle = Angle::degrees(20.0);

    fn by_polynomial(teeth: CarrierTeeth) -> Vec<ToothLoss> {
        let loss = |(teeth, form)| tooth_loss_by_polynomial(teeth, PRESSURE, form);
        teeth.pairs().into_iter().map(loss).collect()
    }

    /// Sun 20, planets 30, ring 80, friction 0.1 on both meshes, by the polynomial; ring held, sun driving:
    /// `(1 + R n0) / (1 + R)`. Both numbers were computed independently.
    #[test]
    fn a_planetary_set_from_the_friction_of_its_meshes() {
        let basic = basic_from_meshes(&by_polynomial(CarrierTeeth::single(20, 80)), 0.1);
        assert!((basic - 0.975_784).abs() < 5e-7, "{basic}");
        assert!(((1.0 + 4.0 * basic) / 5.0 - 0.980_627).abs() < 5e-7);
    }

    #[test]
    fn the_integral_asks_for_a_little_less_loss() {
        let teeth = CarrierTeeth::single(20, 80);
        let [polynomial, integral] =
            [by_polynomial(teeth), teeth.meshes(PRESSURE)].map(|meshes| basic_from_meshes(&meshes, 0.1));
        assert!(integral > polynomial && integral - polynomial < 1e-3);
    }

    #[test]
    fn numbers_of_meshes() {
        let double = CarrierTeeth::Double {
            sun: 24.0,
            planets: [18.0, 18.0],
            ring: 72.0,
        };
        let bevel = CarrierTeeth::Bevel {
            side: 20.0,
            pinion: 12.0,
        };
        let stepped = CarrierTeeth::Stepped {
            first: [18.0, 36.0],
            second: [78.0, 24.0],
            rings: [false, true],
        };
        let counts = [double, bevel, stepped].map(|teeth| teeth.meshes(PRESSURE).len());
        assert_eq!(counts, [3, 2, 2]);
        assert_eq!(stepped.pairs()[1], ([24.0, 78.0], PairForm::Internal));
    }

    #[test]
    fn pins_a_tenth_of_the_planet_at_friction_0_2() {
        let factor = pin_factor(0.2, Length::millimetres(1.0), Length::millimetres(10.0));
        assert!((factor - 0.96).abs() < 1e-15);
    }

    /// Sun 20 and ring 80 of basic efficiency 0.96, a crank on the sun, 1 N·m on the carrier, and a clutch or a brake.
    fn set(other: Element) -> Model {
        let [sun, ring, carrier] = [0, 1, 2].map(|shaft| Port::Shaft(ShaftIdx(shaft)));
        let mut train = Train::new(3);
        train.add(Element::Planetary(Planetary {
            sun,
            ring,
            carrier,
            sun_teeth: 20,
            ring_teeth: 80,
            planets: Planets::Single,
        }));
        train.add(other);
        let basic = ElementLoss {
            loss: Loss::Basic { efficiency: 0.96 },
            ..ElementLoss::default()
        };
        Model {
            train,
            drive: None,
            elements: vec![basic, ElementLoss::default()],
            shafts: vec![ShaftLoss::default(); 3],
            sources: vec![Source {
                shaft: ShaftIdx(0),
                drive: Drive::Crank {
                    speed: 3.0,
                    exact: Ratio::from_integer(3.into()),
                    limit: None,
                },
            }],
            loads: vec![Load {
                shaft: ShaftIdx(2),
                kind: LoadKind::Resisting {
                    torque: Torque::newton_metres(1.0),
                    viscous: 0.0,
                    fan: 0.0,
                },
            }],
        }
    }

    /// Locked up, the set loses nothing and its split is known within 0.04/1.96; with the ring held it is known.
    #[test]
    fn a_set_that_turns_as_one_block_is_split_within_its_friction() {
        let lock_up = set(Element::Coupling(Coupling {
            a: Port::Shaft(ShaftIdx(0)),
            b: Port::Shaft(ShaftIdx(1)),
        }));
        let flow = operate(&lock_up).flow.expect("it runs");
        assert!(flow.loss(&lock_up.train, ElementIdx(0)).abs() < 1e-12);
        let share = split_uncertainty(&lock_up, &flow, ElementIdx(0)).expect("it turns as one block");
        assert!((share - 0.04 / 1.96).abs() < 1e-15);
        assert_eq!(split_uncertainty(&lock_up, &flow, ElementIdx(1)), None);
        let held = set(Element::Hold(Hold {
            shaft: Port::Shaft(ShaftIdx(1)),
        }));
        let flow = operate(&held).flow.expect("it runs");
        assert_eq!(split_uncertainty(&held, &flow, ElementIdx(0)), None);
    }
}
