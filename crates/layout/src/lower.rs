//! From the document to the solver's model, one shift position at a time.
//!
//! Here decimals become exact fractions, typed units become SI, and every document element learns which parts of the
//! train it became.

mod decimal;
mod elements;
mod forces;
mod joints;
mod loss;
#[cfg(test)]
mod tests;

use layshaft_kinematics::{ElementIdx, ShaftIdx, Train};
use layshaft_powerflow::{Journal, Model, ShaftLoss, rotation_senses};
use layshaft_quantity::{Force, Length, Torque};

use crate::document::{ElementKind, Id, Layout, LiftSense, Position};
use elements::Builder;
pub use elements::motor_of;

/// A layout in one shift position as the solver sees it.
#[derive(Clone, Debug)]
pub struct Lowered {
    /// The model.
    pub model: Model,
    /// Per document element: what it became.
    pub parts: Vec<Part>,
}

/// What a document element became.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// Nothing in this position: a clutch or brake that is off.
    Off,
    /// An element of the train.
    Element(ElementIdx),
    /// A motor or crank, by its number among the sources.
    Source(usize),
    /// A load, by its number among the loads.
    Load(usize),
    /// A vehicle: its load on the body, and a rolling contact per driven wheel.
    Vehicle {
        /// Number among the loads.
        load: usize,
        /// Contacts in the order of the wheels' shafts.
        wheels: Vec<ElementIdx>,
    },
}

/// The sense of rotation that lifts or drives forward, by document element; 0 where it makes none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LiftSenses(Vec<i8>);

impl LiftSenses {
    /// Finds them: what is typed, else the sense that the drive gives the shaft in the first position (positive where it
    /// gives none).
    #[must_use]
    pub fn of(layout: &Layout, first: &Position) -> Self {
        Self::adjusted(layout, first, &|_| ())
    }

    /// As [`Self::of`], for a train that is changed after it was lowered.
    #[must_use]
    pub fn adjusted(layout: &Layout, first: &Position, adjust: &dyn Fn(&mut Lowered)) -> Self {
        let by_drive = layout
            .elements
            .iter()
            .any(|element| matches!(typed(element), Some((LiftSense::Drive, _))));
        let provisional = Self(vec![1; layout.elements.len()]);
        let senses = if by_drive {
            let mut lowered = lower(layout, first, &provisional);
            adjust(&mut lowered);
            rotation_senses(&lowered.model)
        } else {
            Vec::new()
        };
        let index = ShaftNumbers::new(layout);
        let of_shaft = |shaft: Option<&Id>| {
            let sense = shaft
                .and_then(|shaft| index.get(shaft))
                .map_or(0, |shaft| senses[shaft.at()]);
            if sense == 0 { 1 } else { sense }
        };
        Self(
            layout
                .elements
                .iter()
                .map(|element| match typed(element) {
                    None => 0,
                    Some((LiftSense::Positive, _)) => 1,
                    Some((LiftSense::Negative, _)) => -1,
                    Some((LiftSense::Drive, shaft)) => of_shaft(shaft),
                })
                .collect(),
        )
    }
}

/// The typed sense of a winch or vehicle, and the shaft that it speaks of.
fn typed(element: &crate::document::Element) -> Option<(LiftSense, Option<&Id>)> {
    match &element.kind {
        ElementKind::Winch(winch) => Some((winch.lifts, Some(&winch.shaft))),
        ElementKind::Vehicle(vehicle) => Some((vehicle.forward, vehicle.shafts.first())),
        _ => None,
    }
}

/// Shaft ids to their numbers: document order.
struct ShaftNumbers<'a>(std::collections::BTreeMap<&'a str, ShaftIdx>);

impl<'a> ShaftNumbers<'a> {
    fn new(layout: &'a Layout) -> Self {
        Self(
            (0..)
                .zip(&layout.shafts)
                .map(|(at, shaft)| (shaft.id.as_str(), ShaftIdx(at)))
                .collect(),
        )
    }

    fn get(&self, id: &Id) -> Option<ShaftIdx> {
        self.0.get(id.as_str()).copied()
    }
}

/// The drive shaft: the one named, else the first source's, else the first shaft.
#[must_use]
pub fn drive_shaft(layout: &Layout) -> Option<&Id> {
    let source = layout.elements.iter().find_map(|element| match &element.kind {
        ElementKind::Motor(motor) => Some(&motor.shaft),
        ElementKind::Crank(crank) => Some(&crank.shaft),
        _ => None,
    });
    layout
        .drive
        .as_ref()
        .or(source)
        .or_else(|| layout.shafts.first().map(|shaft| &shaft.id))
}

/// Lowers a valid layout for one position, with the middle of every range of friction.
#[must_use]
pub fn lower(layout: &Layout, position: &Position, senses: &LiftSenses) -> Lowered {
    lower_with(layout, position, senses, FrictionChoice::Middle)
}

/// As [`lower_with`], with the friction of surfaces at rest: coefficients of teeth, pins, threads, collars and journals
/// times [`layshaft_powerflow::STATIC_OVER_KINETIC`]. Typed efficiencies stay.
#[must_use]
pub fn lower_static(
    layout: &Layout,
    position: &Position,
    senses: &LiftSenses,
    friction: FrictionChoice,
) -> Lowered {
    let lowered = lower_with(layout, position, senses, friction);
    Lowered {
        model: lowered.model.at_rest_friction(),
        parts: lowered.parts,
    }
}

/// Lowers a valid layout for one position, with this end of every range of friction.
#[must_use]
pub fn lower_with(
    layout: &Layout,
    position: &Position,
    senses: &LiftSenses,
    friction: FrictionChoice,
) -> Lowered {
    let index = ShaftNumbers::new(layout);
    let count = u32::try_from(layout.shafts.len()).expect("the validator caps the number of shafts");
    let model = Model {
        train: Train::new(count),
        drive: drive_shaft(layout).and_then(|drive| index.get(drive)),
        elements: Vec::with_capacity(layout.elements.len()),
        shafts: layout.shafts.iter().map(shaft_loss).collect(),
        sources: Vec::new(),
        loads: Vec::new(),
    };
    let mut builder = Builder {
        model,
        index,
        layout,
        friction,
    };
    let parts = layout
        .elements
        .iter()
        .zip(&senses.0)
        .map(|(element, sense)| {
            builder.add(element, position.engaged.contains(&element.id), f64::from(*sense))
        })
        .collect();
    Lowered {
        model: builder.model,
        parts,
    }
}

fn shaft_loss(shaft: &crate::document::Shaft) -> ShaftLoss {
    let journal = (shaft.journal_friction > 0.0 && shaft.journal_radius_mm > 0.0).then(|| Journal {
        friction: shaft.journal_friction,
        radius: Length::millimetres(shaft.journal_radius_mm),
        overhang: shaft.overhang,
        steady_force: Force::ZERO,
        steady_pull: None,
        relief: 1.0,
    });
    ShaftLoss {
        drag: Torque::newton_metres(shaft.drag_nm),
        viscous: shaft.viscous_nms,
        journal,
        given: 0.0,
        inertia: shaft.inertia_kgm2,
    }
}

pub use decimal::exact as exact_decimal;
pub use elements::{driven_axles, vehicle_geometry, winch_pull, winch_radius};
pub use joints::{ToothLimit, basic_ratio, mesh_limit};
pub use loss::{
    FrictionChoice, FrictionLoss, FrictionRange, LossSource, SlidingPair, loss_source, mesh_efficiency,
    mesh_tooth_loss, worm_friction,
};
