//! What joins shafts as elements of the train: meshes, belts, worms, sets with a carrier, couplings and holds.

use core::f64::consts::TAU;

use layshaft_kinematics::{Element, elements as train};
use layshaft_powerflow::tooth_strength::bending_limit;
use layshaft_powerflow::{ElementLoss, Loss, Release};
use layshaft_quantity::{Angle, Force, Length, Torque};

use super::elements::Builder;
use super::loss::loss_source;
use super::{Part, decimal};
use crate::document::{self as doc, ElementKind, Id};

/// Gears of an unknown size are taken to have this module for the sharing of redundant loops.
const USUAL_MODULE_MM: f64 = 1.0;
/// Gears of an unknown tooth count are taken to have so many for the sharing of redundant loops.
const USUAL_TEETH: f64 = 20.0;

impl Builder<'_> {
    /// Lowers what joins shafts; whether it is engaged has been asked by now.
    pub(super) fn joint(&mut self, kind: &ElementKind) -> Part {
        let Some((element, size)) = self.shape(kind) else {
            return Part::Off;
        };
        let (loss, efficiency_at_rest) = loss_source(kind, self.layout)
            .map_or((Loss::None, None), |source| {
                source.lower(self.friction, element.as_carrier_gear().is_some())
            });
        self.steady_forces(kind);
        self.element(
            element,
            ElementLoss {
                loss,
                efficiency_at_rest,
                release: release(kind),
                tooth_limit: tooth_limit(kind),
                ..size
            },
        )
    }

    /// What an element is to the train, and what follows from its size alone.
    fn shape(&self, kind: &ElementKind) -> Option<(Element, ElementLoss)> {
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
                (Element::Hold(train::Hold { shaft }), ElementLoss::default())
            }
            ElementKind::Motor(_)
            | ElementKind::Crank(_)
            | ElementKind::Load(_)
            | ElementKind::Vehicle(_)
            | ElementKind::Winch(_) => return None,
        })
    }

    /// What presses on plain bearings whatever goes through: pretension of both strands, the force between friction wheels.
    fn steady_forces(&mut self, kind: &ElementKind) {
        let (ends, force) = match kind {
            ElementKind::Chain(chain) => ([&chain.a, &chain.b], 2.0 * chain.pretension_n),
            ElementKind::Belt(belt) => ([&belt.a, &belt.b], 2.0 * belt.pretension_n),
            ElementKind::FrictionWheel(wheels) => ([&wheels.a, &wheels.b], wheels.press_n),
            _ => return,
        };
        for end in ends {
            self.steady_force(end, Force::newtons(force));
        }
    }

    fn coupling(&self, a: &Id, b: &Id) -> (Element, ElementLoss) {
        let [a, b] = [self.port(a), self.port(b)];
        (
            Element::Coupling(train::Coupling { a, b }),
            ElementLoss::default(),
        )
    }

    fn mesh(&self, mesh: &doc::Mesh) -> (Element, ElementLoss) {
        let reversing = match mesh.form {
            doc::MeshForm::External => true,
            doc::MeshForm::Internal => false,
            doc::MeshForm::Bevel => mesh.sense == doc::Sense::Opposite,
        };
        let [a, b] = [self.port(&mesh.a), self.port(&mesh.b)];
        let pressure = Angle::degrees(mesh.pressure_angle_deg);
        let force = mesh.module_mm.map_or(0.0, |module| {
            2.0 / (Length::millimetres(module).to_metres() * libm::cos(pressure.to_radians()))
        });
        let module = mesh.module_mm.unwrap_or(USUAL_MODULE_MM);
        let size = sized(force, 1.0 / (module * module));
        let teeth = mesh.teeth;
        (
            Element::Mesh(train::Mesh {
                a,
                b,
                teeth,
                reversing,
            }),
            size,
        )
    }

    fn chain(&self, chain: &doc::Chain) -> (Element, ElementLoss) {
        let [a, b] = [self.port(&chain.a), self.port(&chain.b)];
        // A turn of the sprocket does the work of `z` pitches of pull: the pull is 2π over the pitch, times the multiplier.
        let force = chain
            .pitch_mm
            .map_or(0.0, |pitch| TAU / Length::millimetres(pitch).to_metres());
        (
            Element::Mesh(train::Mesh {
                a,
                b,
                teeth: chain.teeth,
                reversing: false,
            }),
            sized(force, 1.0),
        )
    }

    /// A belt over pulleys, or wheels pressed together.
    fn belt(&self, [a, b]: [&Id; 2], diameters_mm: [f64; 2], crossed: bool) -> (Element, ElementLoss) {
        let (diameters, units_per_mm) = decimal::common(diameters_mm);
        let [a, b] = [self.port(a), self.port(b)];
        let force = 2.0 * units_per_mm / Length::millimetres(1.0).to_metres();
        (
            Element::Belt(train::Belt {
                a,
                b,
                diameters,
                crossed,
            }),
            sized(force, units_per_mm * units_per_mm),
        )
    }

    fn worm(&self, worm: &doc::Worm) -> (Element, ElementLoss) {
        let kind = train::Worm {
            worm: self.port(&worm.worm),
            wheel: self.port(&worm.wheel),
            starts: worm.starts,
            teeth: worm.teeth,
            left_hand: worm.hand == doc::Hand::Left,
        };
        (Element::Worm(kind), sized(0.0, 1.0))
    }

    fn differential(&self, differential: &doc::Differential) -> (Element, ElementLoss) {
        let [a, b] = &differential.sides;
        let kind = train::Differential {
            sides: [self.port(a), self.port(b)],
            carrier: self.port(&differential.carrier),
        };
        (
            Element::Differential(kind),
            sized(0.0, 1.0 / (USUAL_TEETH * USUAL_TEETH)),
        )
    }

    fn planetary(&self, planetary: &doc::Planetary) -> (Element, ElementLoss) {
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
        (Element::Planetary(kind), sized(0.0, 1.0))
    }

    fn stepped(&self, stepped: &doc::Stepped) -> (Element, ElementLoss) {
        let basic_ratio = basic_ratio(&stepped.ratio);
        let kind = train::Stepped {
            first: self.port(&stepped.first),
            second: self.port(&stepped.second),
            carrier: self.port(&stepped.carrier),
            basic_ratio,
        };
        let scale = basic_ratio[1] as f64 / USUAL_TEETH;
        (Element::Stepped(kind), sized(0.0, scale * scale))
    }
}

/// An element's size as its bearings feel it and as redundant loops share by it.
fn sized(bearing_force: f64, compliance: f64) -> ElementLoss {
    ElementLoss {
        bearing_force,
        compliance,
        ..ElementLoss::default()
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

/// Torque at its first shaft that the teeth of a mesh bear: measured, else by bending of the weaker gear.
///
/// By bending each gear gets the low end of the material's allowable stress (`F = σ b m Y`; W. Lewis 1892, see
/// [`bending_limit`]), the second one's limit taken over to the first by the tooth counts. A ring's teeth are stronger than
/// its pinion's and are left out; bevel gears are taken as spur gears of their outer module, which is somewhat too strong.
fn tooth_limit(kind: &ElementKind) -> Option<Torque> {
    let ElementKind::Mesh(mesh) = kind else {
        return None;
    };
    if let Some(skip_nm) = mesh.skip_nm {
        return Some(Torque::newton_metres(skip_nm));
    }
    let [width, module] = [mesh.width_mm?, mesh.module_mm?].map(Length::millimetres);
    let stress = mesh.material?.allowable_mpa[0];
    let [a, b] = mesh.teeth.map(f64::from);
    let first = bending_limit(stress, width, module, a);
    if mesh.form == doc::MeshForm::Internal {
        return Some(first);
    }
    let second = bending_limit(stress, width, module, b).to_newton_metres() * a / b;
    Some(Torque::newton_metres(first.to_newton_metres().min(second)))
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
