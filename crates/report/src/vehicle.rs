//! A vehicle's steepest slopes: by grip, by tipping, by the drive's torque; and whether its wheels spin.

use layshaft_layout::lower::{Part, driven_axles, vehicle_geometry};
use layshaft_layout::{self as doc, ElementKind, Id};
use layshaft_powerflow::{
    Geometry, LoadKind, State, operate, rotation_senses, slope_for_force, tipping_slope, traction_slope,
};
use layshaft_quantity::{Angle, Length, Speed};

use crate::position::Context;
use crate::result::VehicleResult;

/// The first vehicle of a layout with its number among the loads.
pub(crate) fn first<'a>(context: &Context<'a>) -> Option<(&'a Id, &'a doc::Vehicle, usize)> {
    let mut parts = context.layout.elements.iter().zip(&context.lowered.parts);
    parts.find_map(|(element, part)| match (&element.kind, part) {
        (ElementKind::Vehicle(vehicle), Part::Vehicle { load, .. }) => Some((&element.id, vehicle, *load)),
        _ => None,
    })
}

/// Steepest slope by the grip of its tyres.
pub(crate) fn traction(vehicle: &doc::Vehicle) -> Option<Angle> {
    traction_slope(
        driven_axles(vehicle),
        vehicle.tyre_friction?,
        vehicle.rolling,
        vehicle_geometry(vehicle),
    )
}

/// Slope at which it tips over backwards.
pub(crate) fn tipping(vehicle: &doc::Vehicle) -> Option<Angle> {
    let from_rear = Length::millimetres(vehicle.cg_from_rear_mm?);
    let height = Length::millimetres(vehicle.cg_height_mm?);
    Some(tipping_slope(Geometry {
        wheelbase: Length::ZERO,
        from_rear,
        height,
    }))
}

/// The results of the first vehicle, `push` being the largest force at its rims; its speed on level ground only where it
/// is wanted, since that is another solution.
pub(crate) fn result(context: &Context<'_>, push: Option<f64>, with_speed: bool) -> Option<VehicleResult> {
    let (_, vehicle, load) = first(context)?;
    let LoadKind::Vehicle {
        weight,
        rolling,
        forward,
        ..
    } = context.model.loads[load].kind
    else {
        return None;
    };
    Some(VehicleResult {
        traction: traction(vehicle),
        tipping: tipping(vehicle),
        torque: push.map(|push| slope_for_force(push, weight.to_newtons(), rolling)),
        top_speed: with_speed.then(|| top_speed(context, load, forward)).flatten(),
    })
}

/// Speed on level ground, all else as it is.
fn top_speed(context: &Context<'_>, load: usize, forward: f64) -> Option<Speed> {
    // What nothing carries here does not run on the level either, and finding that out again takes long.
    let carried = !matches!(context.operation.state, State::LetsGo { .. } | State::Jammed(_));
    if context.model.sources.is_empty() || !carried {
        return None;
    }
    let mut level = context.model.clone();
    if let LoadKind::Vehicle { slope, .. } = &mut level.loads[load].kind {
        *slope = Angle::ZERO;
    }
    let flow = operate(&level).flow?;
    Some(Speed::metres_per_s(
        flow.speeds[level.loads[load].shaft.at()] * forward,
    ))
}

/// Whether it is driven up a slope steeper than its tyres can climb, and grip is what gives first.
pub(crate) fn wheels_spin(context: &Context<'_>, result: &VehicleResult) -> bool {
    let Some((_, vehicle, load)) = first(context) else {
        return false;
    };
    let too_steep = |limit: Angle| Angle::degrees(vehicle.slope_deg) > limit;
    if context.model.sources.is_empty() || !result.traction.is_some_and(too_steep) {
        return false;
    }
    let grip_first = match (result.torque, result.traction) {
        (Some(torque), Some(traction)) => traction < torque,
        _ => true,
    };
    let asks = matches!(context.operation.state, State::Runs | State::Stalled { .. });
    asks && grip_first && drives_forward(context, load)
}

fn drives_forward(context: &Context<'_>, load: usize) -> bool {
    let LoadKind::Vehicle { forward, .. } = context.model.loads[load].kind else {
        return false;
    };
    let body = context.model.loads[load].shaft.at();
    let sense = match &context.operation.flow {
        Some(flow) => flow.speeds[body],
        None => f64::from(rotation_senses(context.model)[body]),
    };
    sense * forward > 0.0
}
