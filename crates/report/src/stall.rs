//! The largest load that a drive can just keep moving, and a vehicle's steepest slopes.

use layshaft_layout::lower::Part;
use layshaft_layout::{self as doc, ElementKind};
use layshaft_powerflow::{
    Axles, Drive, Geometry, LoadKind, StallLimit, operate, slope_for_force, tipping_slope, traction_slope,
};
use layshaft_quantity::{Angle, Force, Length, Speed, Torque};

use crate::position::Context;
use crate::result::{Holding, Limit, Stall, VehicleResult};

/// Stall of the first load, and the results of the first vehicle.
pub(crate) fn stall_and_vehicle(context: &Context<'_>) -> (Option<Stall>, Option<VehicleResult>) {
    let first_load = first_load(context);
    let vehicle = context
        .layout
        .elements
        .iter()
        .zip(&context.lowered.parts)
        .find_map(|(element, part)| match (&element.kind, part) {
            (ElementKind::Vehicle(vehicle), Part::Vehicle { load, .. }) => Some((vehicle, *load)),
            _ => None,
        });
    let vehicle = vehicle.map(|(vehicle, load)| vehicle_result(context, vehicle, load));
    (first_load.and_then(|at| stall_of(context, at)), vehicle)
}

/// The largest load that the drive can start: as the stall, with the friction of surfaces at rest.
pub(crate) fn start(context: &Context<'_>) -> Option<Stall> {
    let at = first_load(context)?;
    let (Part::Load(load) | Part::Vehicle { load, .. }) = &context.lowered.parts[at] else {
        return None;
    };
    let model = context.lowered.model.at_rest_friction();
    let found = operate(&model).stall(&model, *load)?;
    stall_result(context, at, *load, found)
}

/// Whether what pulls is held with the motor off.
pub(crate) fn holding(context: &Context<'_>) -> Option<Holding> {
    let found = layshaft_powerflow::holding(&context.lowered.model)?;
    Some(Holding {
        holds: found.holds,
        needed: found.needed.map(Torque::newton_metres),
        available: Torque::newton_metres(found.available),
    })
}

fn first_load(context: &Context<'_>) -> Option<usize> {
    context
        .lowered
        .parts
        .iter()
        .position(|part| matches!(part, Part::Load(_) | Part::Vehicle { .. }))
}

fn stall_of(context: &Context<'_>, at: usize) -> Option<Stall> {
    let (Part::Load(load) | Part::Vehicle { load, .. }) = &context.lowered.parts[at] else {
        return None;
    };
    let found = context.operation.stall(&context.lowered.model, *load)?;
    stall_result(context, at, *load, found)
}

fn stall_result(
    context: &Context<'_>,
    at: usize,
    load: usize,
    found: layshaft_powerflow::Stall,
) -> Option<Stall> {
    let element = &context.layout.elements[at];
    let model = &context.lowered.model;
    let limiting = match found.limit {
        StallLimit::Slip(element) | StallLimit::Tooth(element) => context.element_id(element).cloned(),
        StallLimit::Source | StallLimit::SelfLocking => None,
    };
    let limit = match (found.limit, &model.sources.first()?.drive) {
        (StallLimit::SelfLocking, _) => Limit::SelfLocking,
        (StallLimit::Slip(_), _) => Limit::Slip,
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

fn geometry(vehicle: &doc::Vehicle) -> Option<Geometry> {
    Some(Geometry {
        wheelbase: Length::millimetres(vehicle.wheelbase_mm?),
        from_rear: Length::millimetres(vehicle.cg_from_rear_mm?),
        height: Length::millimetres(vehicle.cg_height_mm?),
    })
}

fn traction(vehicle: &doc::Vehicle) -> Option<Angle> {
    let axles = match vehicle.driven {
        doc::DrivenAxles::All => Axles::All,
        doc::DrivenAxles::Rear => Axles::Rear,
        doc::DrivenAxles::Front => Axles::Front,
    };
    traction_slope(axles, vehicle.tyre_friction?, vehicle.rolling, geometry(vehicle))
}

fn tipping(vehicle: &doc::Vehicle) -> Option<Angle> {
    let from_rear = Length::millimetres(vehicle.cg_from_rear_mm?);
    let height = Length::millimetres(vehicle.cg_height_mm?);
    Some(tipping_slope(Geometry {
        wheelbase: Length::ZERO,
        from_rear,
        height,
    }))
}

fn vehicle_result(context: &Context<'_>, vehicle: &doc::Vehicle, load: usize) -> VehicleResult {
    let model = &context.lowered.model;
    let LoadKind::Vehicle {
        weight,
        rolling,
        forward,
        ..
    } = model.loads[load].kind
    else {
        return VehicleResult {
            traction: None,
            tipping: None,
            torque: None,
            top_speed: None,
        };
    };
    let torque = context
        .operation
        .stall(model, load)
        .map(|stall| slope_for_force(stall.size, weight.to_newtons(), rolling));
    VehicleResult {
        traction: traction(vehicle),
        tipping: tipping(vehicle),
        torque,
        top_speed: top_speed(context, load, forward),
    }
}

/// Speed on level ground, all else as it is.
fn top_speed(context: &Context<'_>, load: usize, forward: f64) -> Option<Speed> {
    let model = &context.lowered.model;
    if model.sources.is_empty() {
        return None;
    }
    let mut level = model.clone();
    if let LoadKind::Vehicle { slope, .. } = &mut level.loads[load].kind {
        *slope = Angle::ZERO;
    }
    let flow = operate(&level).flow?;
    Some(Speed::metres_per_s(
        flow.speeds[level.loads[load].shaft.at()] * forward,
    ))
}
