//! What joins shafts as elements of the train: meshes, belts, worms, sets with a carrier, couplings and holds.

use layshaft_kinematics::{Element, elements as train};
use layshaft_powerflow::tooth_strength::pair_limit;
use layshaft_powerflow::{ElementLoss, Loss, Release};
use layshaft_quantity::{Length, Torque};

use super::elements::Builder;
use super::loss::{loss_source, pair_form};
use super::{Part, decimal};
use crate::document::{self as doc, ElementKind, Id};

/// Gears of an unknown size are taken to have this module for the sharing of redundant loops.
const USUAL_MODULE_MM: f64 = 1.0;
/// Gears of an unknown tooth count are taken to have so many for the sharing of redundant loops.
const USUAL_TEETH: f64 = 20.0;

impl Builder<'_> {
    /// Lowers what joins shafts; whether it is engaged has been asked by now.
    pub(super) fn joint(&mut self, kind: &ElementKind) -> Part {
        let Some((element, compliance)) = self.shape(kind) else {
            return Part::Off;
        };
        let (loss, efficiency_at_rest) = loss_source(kind, self.layout)
            .map_or((Loss::None, None), |source| {
                source.lower(self.friction, element.as_carrier_gear().is_some())
            });
        let (bearing_force, pulls) = self.bearing(kind);
        self.press_at_rest(kind);
        self.element(
            element,
            ElementLoss {
                loss,
                efficiency_at_rest,
                release: release(kind),
                tooth_limit: tooth_limit(kind),
                bearing_force,
                pulls: (pulls != [None; 3]).then(|| Box::new(pulls)),
                compliance,
            },
        )
    }

    /// What an element is to the train, and its compliance by its size.
    fn shape(&self, kind: &ElementKind) -> Option<(Element, f64)> {
        Some(match kind {
            ElementKind::Mesh(mesh) => self.mesh(mesh),
            ElementKind::Chain(chain) => self.chain(chain),
            ElementKind::Belt(belt) => self.belt([&belt.a, &belt.b], belt.diameters_mm, belt.crossed),
            ElementKind::FrictionWheel(wheels) => {
                let reversing = wheels.form == doc::WheelForm::External;
                self.belt([&wheels.a, &wheels.b], wheels.diameters_mm, reversing)
            }
            ElementKind::Worm(worm) => self.worm(worm),
            ElementKind::Differential(differential) => self.differential(differential),
            ElementKind::Planetary(planetary) => self.planetary(planetary),
            ElementKind::Stepped(stepped) => self.stepped(stepped),
            ElementKind::Clutch(it) => self.coupling(&it.a, &it.b),
            ElementKind::OneWay(it) => self.coupling(&it.a, &it.b),
            ElementKind::SlipClutch(it) => self.coupling(&it.a, &it.b),
            ElementKind::TorqueSwitch(it) => self.coupling(&it.a, &it.b),
            ElementKind::Brake(brake) => {
                let shaft = self.port(&brake.shaft);
                (Element::Hold(train::Hold { shaft }), 0.0)
            }
            ElementKind::Motor(_)
            | ElementKind::Crank(_)
            | ElementKind::Load(_)
            | ElementKind::Vehicle(_)
            | ElementKind::Winch(_) => return None,
        })
    }

    fn coupling(&self, a: &Id, b: &Id) -> (Element, f64) {
        let [a, b] = [self.port(a), self.port(b)];
        (Element::Coupling(train::Coupling { a, b }), 0.0)
    }

    fn mesh(&self, mesh: &doc::Mesh) -> (Element, f64) {
        let reversing = match mesh.form {
            doc::MeshForm::External => true,
            doc::MeshForm::Internal => false,
            doc::MeshForm::Bevel => mesh.sense == doc::Sense::Opposite,
        };
        let kind = train::Mesh {
            a: self.port(&mesh.a),
            b: self.port(&mesh.b),
            teeth: mesh.teeth,
            reversing,
        };
        let module = mesh.module_mm.unwrap_or(USUAL_MODULE_MM);
        (Element::Mesh(kind), 1.0 / (module * module))
    }

    fn chain(&self, chain: &doc::Chain) -> (Element, f64) {
        let kind = train::Mesh {
            a: self.port(&chain.a),
            b: self.port(&chain.b),
            teeth: chain.teeth,
            reversing: false,
        };
        (Element::Mesh(kind), 1.0)
    }

    /// A belt over pulleys, or wheels pressed together.
    fn belt(&self, [a, b]: [&Id; 2], diameters_mm: [f64; 2], crossed: bool) -> (Element, f64) {
        let (diameters, units_per_mm) = decimal::common(diameters_mm);
        let kind = train::Belt {
            a: self.port(a),
            b: self.port(b),
            diameters,
            crossed,
        };
        (Element::Belt(kind), units_per_mm * units_per_mm)
    }

    fn worm(&self, worm: &doc::Worm) -> (Element, f64) {
        let kind = train::Worm {
            worm: self.port(&worm.worm),
            wheel: self.port(&worm.wheel),
            starts: worm.starts,
            teeth: worm.teeth,
            left_hand: worm.hand == doc::Hand::Left,
        };
        (Element::Worm(kind), 1.0)
    }

    fn differential(&self, differential: &doc::Differential) -> (Element, f64) {
        let [a, b] = &differential.sides;
        let kind = train::Differential {
            sides: [self.port(a), self.port(b)],
            carrier: self.port(&differential.carrier),
        };
        let teeth = differential.teeth.map_or(USUAL_TEETH, |teeth| teeth.side.into());
        (Element::Differential(kind), 1.0 / (teeth * teeth))
    }

    fn planetary(&self, planetary: &doc::Planetary) -> (Element, f64) {
        let kind = train::Planetary {
            sun: self.port(&planetary.sun),
            ring: self.port(&planetary.ring),
            carrier: self.port(&planetary.carrier),
            sun_teeth: planetary.sun_teeth,
            ring_teeth: planetary.ring_teeth,
            planets: match planetary.planets {
                doc::Planets::Single => train::Planets::Single,
                doc::Planets::Double => train::Planets::Double,
            },
        };
        (Element::Planetary(kind), 1.0)
    }

    fn stepped(&self, stepped: &doc::Stepped) -> (Element, f64) {
        let basic_ratio = basic_ratio(&stepped.ratio);
        let kind = train::Stepped {
            first: self.port(&stepped.first),
            second: self.port(&stepped.second),
            carrier: self.port(&stepped.carrier),
            basic_ratio,
        };
        let scale = basic_ratio[1] as f64 / USUAL_TEETH;
        (Element::Stepped(kind), scale * scale)
    }
}

/// How an element lets go.
fn release(kind: &ElementKind) -> Option<Release> {
    let slip = |limit_nm: f64| Release::Slip {
        limit: Torque::newton_metres(limit_nm),
    };
    match kind {
        ElementKind::Belt(belt) => belt.slip_nm.map(slip),
        ElementKind::FrictionWheel(wheels) => wheels.slip_nm.map(slip),
        ElementKind::Brake(brake) => brake.limit_nm.map(slip),
        ElementKind::SlipClutch(clutch) => Some(slip(clutch.limit_nm)),
        ElementKind::OneWay(clutch) => Some(Release::OneWay {
            sense: match clutch.sense {
                doc::OneWaySense::Positive => 1.0,
                doc::OneWaySense::Negative => -1.0,
            },
        }),
        _ => None,
    }
}

/// Torque at its first shaft that the teeth of a mesh bear; none where it is not known.
fn tooth_limit(kind: &ElementKind) -> Option<Torque> {
    match kind {
        ElementKind::Mesh(mesh) => mesh_limit(mesh).map(ToothLimit::torque),
        _ => None,
    }
}

/// How much torque the teeth of a mesh bear, at its first gear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ToothLimit {
    /// They were measured to skip at this torque.
    Measured(Torque),
    /// They bend too far at this torque, by the low end of the allowable stress of the weaker gear's material.
    Bending(Torque),
}

impl ToothLimit {
    /// The torque.
    #[must_use]
    pub const fn torque(self) -> Torque {
        match self {
            Self::Measured(torque) | Self::Bending(torque) => torque,
        }
    }
}

/// How much torque the teeth of a mesh bear: measured, else by bending ([`pair_limit`]), both gears taken to be of the
/// weaker one's material. None where neither a measured torque nor material, width and module are known.
#[must_use]
pub fn mesh_limit(mesh: &doc::Mesh) -> Option<ToothLimit> {
    if let Some(skip_nm) = mesh.skip_nm {
        return Some(ToothLimit::Measured(Torque::newton_metres(skip_nm)));
    }
    let [width, module] = [mesh.width_mm?, mesh.module_mm?].map(Length::millimetres);
    let stress = mesh.material?.allowable_mpa[0];
    let teeth = mesh.teeth.map(f64::from);
    let limit = pair_limit([stress; 2], width, module, teeth, pair_form(mesh.form));
    Some(ToothLimit::Bending(limit))
}

/// Basic ratio of a stepped set as numerator and denominator.
#[must_use]
pub fn basic_ratio(ratio: &doc::SteppedRatio) -> [i128; 2] {
    match ratio {
        doc::SteppedRatio::Basic(parts) => parts.map(i128::from),
        doc::SteppedRatio::Teeth {
            first,
            second,
            first_is_ring,
            second_is_ring,
        } => train::Stepped::ratio_from_teeth(*first, *second, [*first_is_ring, *second_is_ring]),
    }
}
