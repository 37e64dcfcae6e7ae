//! Where the loss of an element comes from: typed, or from friction of its teeth, pins, thread and collar.

use layshaft_powerflow::basic::{CarrierTeeth, pin_factor};
use layshaft_powerflow::materials::MaterialPair;
use layshaft_powerflow::tooth::{PairForm, ToothLoss, tooth_loss, tooth_loss_of};
use layshaft_powerflow::{Collar, Loss, STATIC_OVER_KINETIC, WormFriction};
use layshaft_quantity::{Angle, Length};

use crate::document::{self as doc, ElementKind, Layout, MeshLoss, Pins};

/// Which end of a range of friction is computed with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum FrictionChoice {
    /// The least.
    Low,
    /// The middle.
    #[default]
    Middle,
    /// The most.
    High,
}

/// A coefficient of friction: a range where it comes from materials, one number three times where it was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrictionRange {
    /// The least.
    pub low: f64,
    /// The middle.
    pub middle: f64,
    /// The most.
    pub high: f64,
}

impl FrictionRange {
    /// A typed number.
    #[must_use]
    pub const fn typed(friction: f64) -> Self {
        Self {
            low: friction,
            middle: friction,
            high: friction,
        }
    }

    /// The range of a pair of materials.
    #[must_use]
    pub const fn of(pair: &MaterialPair) -> Self {
        Self {
            low: pair.friction[0],
            middle: pair.middle(),
            high: pair.friction[1],
        }
    }

    /// One of the three.
    #[must_use]
    pub const fn at(self, choice: FrictionChoice) -> f64 {
        match choice {
            FrictionChoice::Low => self.low,
            FrictionChoice::Middle => self.middle,
            FrictionChoice::High => self.high,
        }
    }
}

/// One mesh on the way through an element.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlidingPair {
    /// Tooth counts, a ring second; a planet's need not be whole, where it follows from sun and ring.
    pub teeth: [f64; 2],
    /// How the two meet.
    pub form: PairForm,
    /// Its loss factor.
    pub loss: ToothLoss,
}

/// A loss that follows from friction: `Π (1 − f H)` over the meshes, times what the planets' pins let through.
#[derive(Clone, Debug, PartialEq)]
pub struct FrictionLoss {
    /// Coefficient of tooth friction.
    pub friction: FrictionRange,
    /// The materials that it comes from; none: typed.
    pub pair: Option<&'static MaterialPair>,
    /// Whether they are the layout's, the element giving no loss of its own.
    pub by_default: bool,
    /// The meshes; none where only pins rub.
    pub meshes: Vec<SlidingPair>,
    /// The planets' pins.
    pub pins: Pins,
}

impl FrictionLoss {
    /// Efficiency, of a set with its carrier held.
    #[must_use]
    pub fn efficiency(&self, choice: FrictionChoice) -> f64 {
        self.efficiency_times(choice, 1.0)
    }

    /// Efficiency of the same surfaces at rest, where friction is greater.
    #[must_use]
    pub fn efficiency_at_rest(&self, choice: FrictionChoice) -> f64 {
        self.efficiency_times(choice, STATIC_OVER_KINETIC)
    }

    /// What the planets' pins let through.
    #[must_use]
    pub fn pin_factor(&self) -> f64 {
        pins_let_through(self.pins, 1.0)
    }

    fn efficiency_times(&self, choice: FrictionChoice, factor: f64) -> f64 {
        let friction = factor * self.friction.at(choice);
        let meshes: f64 = self
            .meshes
            .iter()
            .map(|mesh| mesh.loss.efficiency(friction))
            .product();
        meshes * pins_let_through(self.pins, factor)
    }
}

fn pins_let_through(pins: Pins, factor: f64) -> f64 {
    pin_factor(
        factor * pins.friction,
        Length::metres(pins.ratio),
        Length::metres(1.0),
    )
}

/// Where a loss comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum LossSource {
    /// Nothing was said: lossless.
    NotGiven,
    /// A typed efficiency, of a set with its carrier held.
    Efficiency(f64),
    /// Friction of teeth and pins.
    Friction(FrictionLoss),
    /// Friction of a worm's thread and collar.
    Worm(WormFriction),
}

impl LossSource {
    /// The efficiency, of a set with its carrier held; none where nothing was said, and of a worm, which has two.
    #[must_use]
    pub fn efficiency(&self, choice: FrictionChoice) -> Option<f64> {
        match self {
            Self::NotGiven | Self::Worm(_) => None,
            Self::Efficiency(efficiency) => Some(*efficiency),
            Self::Friction(friction) => Some(friction.efficiency(choice)),
        }
    }

    /// As the solver takes it, with the efficiency at rest where that is another; `set`: an element with a carrier.
    pub(super) fn lower(&self, choice: FrictionChoice, set: bool) -> (Loss, Option<f64>) {
        let loss = match (self, self.efficiency(choice)) {
            (Self::Worm(friction), _) => Loss::Worm(*friction),
            (_, Some(efficiency)) if set => Loss::Basic { efficiency },
            (_, Some(efficiency)) => Loss::Pair { efficiency },
            (_, None) => Loss::None,
        };
        let at_rest = match self {
            Self::Friction(friction) => Some(friction.efficiency_at_rest(choice)),
            _ => None,
        };
        (loss, at_rest)
    }
}

/// Where the loss of an element comes from; none for kinds that have none, such as clutches, sources and loads.
#[must_use]
pub fn loss_source(element: &ElementKind, layout: &Layout) -> Option<LossSource> {
    let default = layout.material_pair;
    let typed =
        |efficiency: Option<f64>| Some(efficiency.map_or(LossSource::NotGiven, LossSource::Efficiency));
    match element {
        ElementKind::Mesh(mesh) => Some(of_meshes(mesh.loss, default, Pins::NOT_GIVEN, || {
            Some(vec![mesh_pair(mesh)])
        })),
        ElementKind::Chain(chain) => typed(chain.efficiency),
        ElementKind::Belt(belt) => typed(belt.efficiency),
        ElementKind::FrictionWheel(wheels) => typed(wheels.efficiency),
        ElementKind::Worm(worm) => Some(LossSource::Worm(worm_friction(worm))),
        ElementKind::Differential(set) => Some(of_meshes(set.loss, default, set.pins, || {
            set.teeth.map(|teeth| set_pairs(&bevel_teeth(teeth)))
        })),
        ElementKind::Planetary(set) => Some(of_meshes(set.loss, default, set.pins, || {
            Some(set_pairs(&planetary_teeth(set)))
        })),
        ElementKind::Stepped(set) => Some(of_meshes(set.loss, default, set.pins, || {
            stepped_teeth(&set.ratio).map(|teeth| set_pairs(&teeth))
        })),
        ElementKind::Clutch(_)
        | ElementKind::Brake(_)
        | ElementKind::OneWay(_)
        | ElementKind::SlipClutch(_)
        | ElementKind::TorqueSwitch(_)
        | ElementKind::Motor(_)
        | ElementKind::Crank(_)
        | ElementKind::Load(_)
        | ElementKind::Vehicle(_)
        | ElementKind::Winch(_) => None,
    }
}

/// The loss of meshes in a row; `pairs` gives none where tooth counts are not known.
fn of_meshes(
    loss: MeshLoss,
    default: Option<&'static MaterialPair>,
    pins: Pins,
    pairs: impl Fn() -> Option<Vec<SlidingPair>>,
) -> LossSource {
    let rubbing = |friction, pair, by_default, meshes| {
        LossSource::Friction(FrictionLoss {
            friction,
            pair,
            by_default,
            meshes,
            pins,
        })
    };
    let known = || pairs().unwrap_or_default();
    match (loss, default) {
        (MeshLoss::Efficiency(efficiency), _) => LossSource::Efficiency(efficiency),
        (MeshLoss::Friction(friction), _) => rubbing(FrictionRange::typed(friction), None, false, known()),
        (MeshLoss::MaterialPair(pair), _) => rubbing(FrictionRange::of(pair), Some(pair), false, known()),
        (MeshLoss::NotGiven, Some(pair)) => match pairs() {
            Some(meshes) => rubbing(FrictionRange::of(pair), Some(pair), true, meshes),
            None => only_pins(pins),
        },
        (MeshLoss::NotGiven, None) => only_pins(pins),
    }
}

fn only_pins(pins: Pins) -> LossSource {
    if pins.friction == 0.0 || pins.ratio == 0.0 {
        return LossSource::NotGiven;
    }
    LossSource::Friction(FrictionLoss {
        friction: FrictionRange::typed(0.0),
        pair: None,
        by_default: false,
        meshes: Vec::new(),
        pins,
    })
}

/// The pressure angle of sets, which have no field for it.
const USUAL_PRESSURE: Angle = Angle::degrees(20.0);

fn set_pairs(teeth: &CarrierTeeth) -> Vec<SlidingPair> {
    let pair = |(teeth, form)| SlidingPair {
        teeth,
        form,
        loss: tooth_loss_of(teeth, USUAL_PRESSURE, form),
    };
    teeth.pairs().into_iter().map(pair).collect()
}

fn bevel_teeth(teeth: doc::BevelTeeth) -> CarrierTeeth {
    CarrierTeeth::Bevel {
        side: teeth.side.into(),
        pinion: teeth.planet.into(),
    }
}

/// Planets as sun and ring leave room for them. Of double planets that leaves much open: both are taken to have a quarter
/// of the difference, rounded down, but no fewer than 4 teeth.
fn planetary_teeth(set: &doc::Planetary) -> CarrierTeeth {
    let [sun, ring] = [set.sun_teeth, set.ring_teeth].map(f64::from);
    match set.planets {
        doc::Planets::Single => CarrierTeeth::Single {
            sun,
            planet: ((ring - sun) / 2.0).max(1.0),
            ring,
        },
        doc::Planets::Double => {
            // A ring of fewer than five teeth exists on paper only; its planets still fit inside.
            let planet = libm::floor((ring - sun) / 4.0).max(4.0).min(ring - 1.0);
            CarrierTeeth::Double {
                sun,
                planets: [planet; 2],
                ring,
            }
        }
    }
}

fn stepped_teeth(ratio: &doc::SteppedRatio) -> Option<CarrierTeeth> {
    match ratio {
        doc::SteppedRatio::Basic(_) => None,
        doc::SteppedRatio::Teeth {
            first,
            second: [second_planet, second],
            first_is_ring,
            second_is_ring,
        } => Some(CarrierTeeth::Stepped {
            first: first.map(f64::from),
            second: [f64::from(*second), f64::from(*second_planet)],
            rings: [*first_is_ring, *second_is_ring],
        }),
    }
}

fn mesh_pair(mesh: &doc::Mesh) -> SlidingPair {
    SlidingPair {
        teeth: mesh.teeth.map(f64::from),
        form: pair_form(mesh.form),
        loss: mesh_tooth_loss(mesh),
    }
}

pub(super) const fn pair_form(form: doc::MeshForm) -> PairForm {
    match form {
        doc::MeshForm::External => PairForm::External,
        doc::MeshForm::Internal => PairForm::Internal,
        doc::MeshForm::Bevel => PairForm::Bevel,
    }
}

/// The tooth-loss factor of a mesh.
#[must_use]
pub fn mesh_tooth_loss(mesh: &doc::Mesh) -> ToothLoss {
    tooth_loss(
        mesh.teeth,
        Angle::degrees(mesh.pressure_angle_deg),
        pair_form(mesh.form),
    )
}

/// Efficiency of a mesh by its own fields, typed or from the middle of its friction; none where nothing was given.
#[must_use]
pub fn mesh_efficiency(mesh: &doc::Mesh) -> Option<f64> {
    of_meshes(mesh.loss, None, Pins::NOT_GIVEN, || Some(vec![mesh_pair(mesh)]))
        .efficiency(FrictionChoice::Middle)
}

/// Friction of a worm's thread and of its thrust collar, where the sizes of collar and wheel are known.
#[must_use]
pub fn worm_friction(worm: &doc::Worm) -> WormFriction {
    let collar = worm.collar_mm.zip(worm.wheel_mm).map(|(collar, wheel)| Collar {
        friction: worm.collar_friction.unwrap_or(worm.friction),
        arm_ratio: collar / wheel,
        reduction: f64::from(worm.teeth) / f64::from(worm.starts),
    });
    WormFriction {
        lead: Angle::degrees(worm.lead_angle_deg),
        friction: worm.friction,
        pressure: Angle::degrees(worm.pressure_angle_deg),
        collar,
        at_rest: false,
    }
}
