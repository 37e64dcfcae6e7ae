//! The largest loads that a drive can just keep moving and can start, and whether what pulls is held with the motor off.

use layshaft_layout::lower::Part;
use layshaft_layout::{self as doc, ElementKind};
use layshaft_powerflow::relief::stall_relieved;
use layshaft_powerflow::{Drive, LoadKind, Loss, Model, StallLimit, operate, slope_for_force};
use layshaft_quantity::{Force, Length, Torque};

use crate::position::Context;
use crate::result::{Holding, Limit, Stall};
use crate::vehicle::{tipping, traction};

/// The largest load that the drive can keep moving, in the units of the solver, with the place of the first load among the
/// document's elements.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Largest {
    at: usize,
    load: usize,
    pub(crate) found: layshaft_powerflow::Stall,
}

/// The largest size of the first load that it can keep moving.
pub(crate) fn largest(context: &Context<'_>) -> Option<Largest> {
    let (at, load) = first_load(context)?;
    let found = if context.adds_vectors() {
        stall_relieved(&context.lowered.model, load)?.stall
    } else {
        context.operation.stall(context.model, load)?
    };
    Some(Largest { at, load, found })
}

/// The largest size of a load, which may be another one than the first.
pub(crate) fn size_for(context: &Context<'_>, largest: Option<Largest>, load: usize) -> Option<f64> {
    match first_load(context) {
        Some((_, first)) if first == load => largest.map(|largest| largest.found.size),
        _ => context
            .operation
            .stall(context.model, load)
            .map(|stall| stall.size),
    }
}

/// The largest that it can start, friction being that of surfaces at rest.
pub(crate) fn largest_start(context: &Context<'_>, moving: Option<Largest>) -> Option<Largest> {
    let model = &context.lowered.model;
    if !rubs_more_at_rest(model) {
        return moving;
    }
    let (at, load) = first_load(context)?;
    let model = model.at_rest_friction();
    let found = if context.adds_vectors() {
        stall_relieved(&model, load)?.stall
    } else if model.elements.iter().any(|element| element.release.is_some()) {
        // How joints stand is found anew under a slight load, whatever state this is asked of.
        context.operation.stall(&model, load)?
    } else {
        operate(&model).stall(&model, load)?
    };
    Some(Largest { at, load, found })
}

/// Whether any friction is known that is greater at rest.
fn rubs_more_at_rest(model: &Model) -> bool {
    let worm = |element: &layshaft_powerflow::ElementLoss| {
        element.efficiency_at_rest.is_some()
            || matches!(&element.loss, Loss::Worm(friction) if !friction.is_none())
    };
    let bearing = |shaft: &layshaft_powerflow::ShaftLoss| shaft.journal.is_some();
    model.elements.iter().any(worm) || model.shafts.iter().any(bearing)
}

/// Whether what pulls is held with the motor off.
pub(crate) fn holding(context: &Context<'_>) -> Option<Holding> {
    if matches!(context.operation.state, layshaft_powerflow::State::Jammed(_)) {
        return None;
    }
    let found = layshaft_powerflow::holding(context.model)?;
    Some(Holding {
        holds: found.holds,
        needed: found.needed.map(Torque::newton_metres),
        available: Torque::newton_metres(found.available),
    })
}

/// The first load: its element's place in the document, and its number among the loads.
pub(crate) fn first_load(context: &Context<'_>) -> Option<(usize, usize)> {
    let mut parts = context.lowered.parts.iter().enumerate();
    parts.find_map(|(at, part)| match part {
        Part::Load(load) | Part::Vehicle { load, .. } => Some((at, *load)),
        _ => None,
    })
}

/// A largest load as the report has it.
pub(crate) fn stall_result(context: &Context<'_>, largest: Largest) -> Option<Stall> {
    let Largest { at, load, found } = largest;
    let element = &context.layout.elements[at];
    let model = context.model;
    let limiting = match found.limit {
        StallLimit::Slip(element) | StallLimit::Tooth(element) => context.element_id(element).cloned(),
        // What turns instead is named by what held it.
        StallLimit::Branch(shaft) => {
            let on_it = model.loads.iter().position(|load| load.shaft == shaft);
            on_it.and_then(|load| context.load_id(load).cloned())
        }
        StallLimit::Source | StallLimit::SelfLocking => None,
    };
    let limit = match (found.limit, &model.sources.first()?.drive) {
        (StallLimit::SelfLocking, _) => Limit::SelfLocking,
        (StallLimit::Slip(_) | StallLimit::Branch(_), _) => Limit::Slip,
        (StallLimit::Tooth(_), _) => Limit::Tooth,
        (StallLimit::Source, Drive::Motor(_)) => Limit::Motor,
        (StallLimit::Source, Drive::Crank { .. }) => Limit::Crank,
    };
    let plain = Stall {
        load: element.id.clone(),
        pull: None,
        torque: Torque::newton_metres(found.size),
        slope: None,
        limit,
        limiting,
    };
    Some(match (&model.loads[load].kind, &element.kind) {
        (LoadKind::Winch { radius, .. }, _) => {
            let pull = Force::newtons(found.size);
            Stall {
                pull: Some(pull),
                torque: pull * *radius,
                ..plain
            }
        }
        (LoadKind::Vehicle { weight, rolling, .. }, ElementKind::Vehicle(vehicle)) => {
            vehicle_stall(plain, vehicle, Force::newtons(found.size), *weight, *rolling)
        }
        _ => plain,
    })
}

/// The least of torque, grip and tipping decides; the pull is what that slope asks for.
fn vehicle_stall(plain: Stall, vehicle: &doc::Vehicle, force: Force, weight: Force, rolling: f64) -> Stall {
    let by_torque = slope_for_force(force.to_newtons(), weight.to_newtons(), rolling);
    let mut slope = by_torque;
    let mut limit = plain.limit;
    let mut limiting = plain.limiting.clone();
    let mut pull = force;
    for (other, its) in [
        (traction(vehicle), Limit::Traction),
        (tipping(vehicle), Limit::Tipping),
    ] {
        if let Some(other) = other.filter(|other| *other < slope) {
            slope = other;
            limit = its;
            limiting = None;
            let angle = slope.to_radians();
            pull = weight * (libm::sin(angle) + rolling * libm::cos(angle));
        }
    }
    let radius = Length::millimetres(vehicle.wheel_mm / 2.0);
    Stall {
        pull: Some(pull),
        torque: pull * radius,
        slope: Some(slope),
        limit,
        limiting,
        ..plain
    }
}
