//! How the joints of a train stand: fast, open or sliding; and the train as it is then.
//!
//! A train with one-way clutches, slip clutches, brakes and belts that slip is many trains, one per way in which these
//! stand. [`derive`] makes the one of a given [`Stand`]: joints that hold are left in it, joints that don't are taken
//! out and leave a known torque behind. Which stand is the right one is decided in `modes` (at rest and in steady
//! motion) or by what came before (in runs).

use layshaft_kinematics::elements::{Coupling, Hold, Loose};
use layshaft_kinematics::{Constraint, Element, ElementIdx, Port, ShaftIdx};

use crate::model::{ElementLoss, Model, Release};

/// How one joint stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Joint {
    /// It holds: engaged, on, not slipping. Also everything that never lets go.
    Fast,
    /// A one-way clutch that overruns.
    Open,
    /// It slips; the sign of `Σ c_p w_p` over its ports is positive.
    SlidingUp,
    /// It slips; the sign of `Σ c_p w_p` over its ports is negative.
    SlidingDown,
}

impl Joint {
    /// Sign of `Σ c_p w_p` where it slips, else 0.
    #[must_use]
    pub const fn slip_sign(self) -> f64 {
        match self {
            Self::Fast | Self::Open => 0.0,
            Self::SlidingUp => 1.0,
            Self::SlidingDown => -1.0,
        }
    }
}

/// How everything that can let go stands.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Stand {
    /// Per element of the train.
    pub joints: Vec<Joint>,
    /// Shafts (or bodies) that friction holds at rest.
    pub held: Vec<ShaftIdx>,
    /// Elements with a carrier that turn as one block by their own friction.
    pub blocked: Vec<ElementIdx>,
}

impl Stand {
    /// Everything holds, no shaft is held by friction alone.
    #[must_use]
    pub fn fast(model: &Model) -> Self {
        Self {
            joints: vec![Joint::Fast; model.train.elements().len()],
            held: Vec::new(),
            blocked: Vec::new(),
        }
    }
}

/// A model in one stand. Elements keep their numbers; the holds of [`Stand::held`] stand behind them, then a coupling of
/// first central gear and carrier per element of [`Stand::blocked`].
#[derive(Clone, Debug)]
pub struct Derived {
    /// The model.
    pub model: Model,
    /// Number of elements that are the train's own.
    pub own_elements: usize,
}

impl Derived {
    /// The hold of the shaft at this place in [`Stand::held`].
    #[must_use]
    pub fn hold(&self, at: usize) -> ElementIdx {
        ElementIdx(u32::try_from(self.own_elements + at).expect("fewer than 2^32 elements"))
    }
}

/// The model as it is in a stand: open and sliding joints constrain nothing; a sliding one puts its limit on its shafts,
/// against the slip (`−T c_p / |c_first|` for a positive `Σ c_p w_p`); what its teeth or belt would lose besides is
/// neglected beside the loss by slip.
#[must_use]
pub fn derive(model: &Model, stand: &Stand) -> Derived {
    let mut derived = model.clone();
    for (element, kind) in model.train.indexed() {
        let joint = stand.joints[element.at()];
        let Some(release) = model.elements[element.at()].release else {
            continue;
        };
        if joint == Joint::Fast {
            continue;
        }
        let constraint = kind.constraint();
        derived.train.replace(element, loose(kind));
        derived.elements[element.at()] = ElementLoss::default();
        if let Release::Slip { .. } = release {
            for (term, torque) in constraint
                .terms()
                .iter()
                .zip(slip_torques(release, &constraint, joint))
            {
                if let Some(shaft) = term.port.shaft() {
                    derived.shafts[shaft.at()].given += torque;
                }
            }
        }
    }
    for &shaft in &stand.held {
        derived.train.add(Element::Hold(Hold {
            shaft: Port::Shaft(shaft),
        }));
        derived.elements.push(ElementLoss::default());
    }
    for &element in &stand.blocked {
        let gear = model.train.element(element).as_carrier_gear();
        derived.train.add(gear.map_or(Element::inert(), |gear| {
            Element::Coupling(Coupling {
                a: gear.first,
                b: gear.carrier,
            })
        }));
        derived.elements.push(ElementLoss::default());
    }
    Derived {
        own_elements: model.train.elements().len(),
        model: derived,
    }
}

/// Torque on the shafts at each port of a joint that slips.
#[must_use]
pub fn slip_torques(release: Release, constraint: &Constraint, joint: Joint) -> [f64; 3] {
    let mut torques = [0.0; 3];
    let Release::Slip { limit } = release else {
        return torques;
    };
    let terms = constraint.terms();
    let first = terms.first().map_or(1.0, |term| term.weight().abs());
    for (torque, term) in torques.iter_mut().zip(terms) {
        *torque = -joint.slip_sign() * limit.to_newton_metres() * term.weight() / first;
    }
    torques
}

/// The ports of a joint, joined by nothing.
fn loose(kind: &Element) -> Element {
    let constraint = kind.constraint();
    let port = |at: usize| constraint.terms().get(at).map_or(Port::Frame, |term| term.port);
    Element::Loose(Loose {
        a: port(0),
        b: port(1),
    })
}

/// The train by which freedoms are counted: one-way clutches join but don't constrain.
#[must_use]
pub fn kinematic_train(model: &Model) -> layshaft_kinematics::Train {
    let mut train = model.train.clone();
    for (element, kind) in model.train.indexed() {
        if matches!(model.elements[element.at()].release, Some(Release::OneWay { .. })) {
            train.replace(element, loose(kind));
        }
    }
    train
}

/// The model with one-way clutches to the frame open: as it turns when they don't stop it.
pub(crate) fn with_open_backstops(model: &Model) -> Model {
    let mut stand = Stand::fast(model);
    for (element, kind) in model.train.indexed() {
        let to_frame = kind
            .constraint()
            .terms()
            .iter()
            .any(|term| term.port == Port::Frame);
        if to_frame && matches!(model.elements[element.at()].release, Some(Release::OneWay { .. })) {
            stand.joints[element.at()] = Joint::Open;
        }
    }
    derive(model, &stand).model
}
