//! Findings about what drives and what is driven: motors, vehicles, and loads when the motor is off.

use layshaft_layout::ElementKind;
use layshaft_powerflow::State;
use layshaft_quantity::{Angle, Power};

use crate::finding::FindingKind;
use crate::position::Context;
use crate::result::{ElementResult, PositionReport};
use crate::vehicle;

/// A motor is said to be past its best where it gives more than this multiple of the torque at which it runs best.
const PAST_BEST: f64 = 1.5;

pub(super) fn find(
    context: &Context<'_>,
    report: &PositionReport,
    spins: bool,
    kinds: &mut Vec<FindingKind>,
) {
    for (element, result) in context.layout.elements.iter().zip(&report.elements) {
        if let ElementKind::Motor(motor) = &element.kind {
            kinds.extend(overheats(result, motor.heat_limit_w));
            kinds.extend(past_best(result));
        }
    }
    back_drives(context, report, kinds);
    if !context.model.sources.is_empty() {
        of_vehicle(context, report, spins, kinds);
    }
}

fn overheats(result: &ElementResult, limit_w: Option<f64>) -> Option<FindingKind> {
    let limit = Power::watts(limit_w?);
    let heat = result.heat.filter(|heat| *heat > limit)?;
    Some(FindingKind::Overheats {
        element: result.id.clone(),
        heat,
        limit,
    })
}

fn past_best(result: &ElementResult) -> Option<FindingKind> {
    let best = result.best?;
    let port = result.ports.first()?;
    // A driving motor's port is negative.
    let (torque, gives) = (-port.torque, port.power < Power::ZERO);
    let past = gives && torque.abs() > best.torque.abs() * PAST_BEST;
    past.then(|| FindingKind::PastBestEfficiency {
        element: result.id.clone(),
        torque: torque.abs(),
        best: best.torque.abs(),
        best_efficiency: best.efficiency,
    })
}

fn back_drives(context: &Context<'_>, report: &PositionReport, kinds: &mut Vec<FindingKind>) {
    let Some(holding) = report.holding.filter(|holding| !holding.holds) else {
        return;
    };
    // What nothing carries even with the motor on has a finding of its own.
    if matches!(
        context.operation.state,
        State::Undetermined { .. } | State::LetsGo { .. } | State::Ambiguous { .. }
    ) {
        return;
    }
    kinds.extend(context.source_id(0).map(|motor| FindingKind::BackDrives {
        element: motor.clone(),
        needed: holding.needed,
        available: holding.available,
    }));
}

fn of_vehicle(context: &Context<'_>, report: &PositionReport, spins: bool, kinds: &mut Vec<FindingKind>) {
    let (Some((id, vehicle, _)), Some(result)) = (vehicle::first(context), &report.vehicle) else {
        return;
    };
    let slope = Angle::degrees(vehicle.slope_deg);
    if let Some(tipping) = result.tipping.filter(|tipping| slope > *tipping) {
        kinds.push(FindingKind::Tips {
            element: id.clone(),
            slope,
            tipping,
        });
    }
    kinds.extend(match (result.traction, result.torque) {
        (Some(traction), Some(torque)) if torque <= traction => Some(FindingKind::TorqueBeforeTraction {
            element: id.clone(),
            torque,
            traction,
        }),
        (Some(traction), torque) if torque.is_some() || spins => Some(FindingKind::TractionBeforeTorque {
            element: id.clone(),
            traction,
            torque,
            slope: spins.then_some(slope),
        }),
        _ => None,
    });
}
