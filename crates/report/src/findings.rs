//! Findings of one position: typed, with evidence; the most important first.

use layshaft_kinematics::Jam;
use layshaft_layout::lower::Part;
use layshaft_layout::{ElementKind, Id, MeshForm};
use layshaft_powerflow::{Drive, State};
use layshaft_quantity::{Power, Torque};

use crate::is_source;
use crate::position::{Context, Totals};
use crate::result::{Finding, FindingKind, LossModel, PositionReport};

/// A loss above this share of the whole is named.
const MAIN_LOSS: f64 = 1.0 / 3.0;
/// Losses below this share of the drive's power are not worth naming.
const NOTABLE_LOSS: f64 = 0.2;
/// Powers below this share of the largest are rounding.
const ROUNDING: f64 = 1e-9;

pub(crate) fn findings(context: &Context<'_>, report: &PositionReport, totals: &Totals) -> Vec<Finding> {
    let mut kinds = Vec::new();
    from_state(context, &mut kinds);
    if !matches!(context.operation.state, State::Jammed(_)) {
        from_speeds(context, report, &mut kinds);
        from_powers(context, report, totals, &mut kinds);
        from_data(context, report, &mut kinds);
    }
    kinds.sort_by_key(importance);
    let position = report.id.clone();
    kinds
        .into_iter()
        .map(|kind| Finding {
            position: Some(position.clone()),
            kind,
        })
        .collect()
}

/// Lower stands first.
pub(crate) fn importance(kind: &FindingKind) -> u8 {
    match kind {
        FindingKind::JammedLoop { .. } | FindingKind::JammedBrakes { .. } => 0,
        FindingKind::Undetermined { .. } => 1,
        FindingKind::Ambiguous { .. } => 2,
        FindingKind::SelfLocking { .. } => 3,
        FindingKind::LowerPullsLess { .. } => 4,
        FindingKind::Stalled { .. } | FindingKind::LetsGo { .. } => 5,
        FindingKind::FedFromBothEnds { .. } => 6,
        FindingKind::CirculatingPower { .. } => 7,
        FindingKind::Overhauling { .. } => 8,
        FindingKind::MainLoss { .. } => 9,
        FindingKind::RedundantLoop { .. } => 10,
        FindingKind::NotProven { .. } => 11,
        FindingKind::HeldByFriction { .. } => 12,
        FindingKind::NoLossGiven { .. } => 13,
        FindingKind::Undercut { .. } => 14,
        FindingKind::SheetMakesEnergy { .. } => 15,
        FindingKind::FreeShafts { .. } => 16,
        FindingKind::Unreached { .. } => 17,
    }
}

fn from_state(context: &Context<'_>, kinds: &mut Vec<FindingKind>) {
    match &context.operation.state {
        State::Jammed(jam) => kinds.push(jammed(context, jam)),
        State::Undetermined { shafts, loads } => kinds.push(FindingKind::Undetermined {
            shafts: context.shaft_ids(shafts),
            elements: loads
                .iter()
                .filter_map(|&load| context.load_id(load).cloned())
                .collect(),
        }),
        State::Ambiguous { elements, range } => kinds.push(FindingKind::Ambiguous {
            elements: context.element_ids(elements),
            lowest: Torque::newton_metres(range[0]),
            highest: Torque::newton_metres(range[1]),
        }),
        State::SelfLocking(lock) => kinds.push(FindingKind::SelfLocking {
            elements: context.element_ids(&lock.elements),
            by_own_friction: lock.by_own_friction,
        }),
        State::Stalled {
            source,
            needed,
            available,
        } => {
            kinds.extend(context.source_id(*source).map(|element| FindingKind::Stalled {
                element: element.clone(),
                needed: Torque::newton_metres(*needed),
                available: Torque::newton_metres(*available),
            }));
        }
        State::LetsGo { joints, .. } => kinds.push(FindingKind::LetsGo {
            elements: context.element_ids(joints),
        }),
        State::Held | State::Runs => {}
    }
}

fn jammed(context: &Context<'_>, jam: &Jam) -> FindingKind {
    match jam {
        Jam::Loop { elements, product } => FindingKind::JammedLoop {
            elements: context.element_ids(elements),
            product: Some(product.clone()),
        },
        Jam::Network { elements } => FindingKind::JammedLoop {
            elements: context.element_ids(elements),
            product: None,
        },
        Jam::Holds { elements } => FindingKind::JammedBrakes {
            elements: context.element_ids(elements),
        },
    }
}

fn from_speeds(context: &Context<'_>, report: &PositionReport, kinds: &mut Vec<FindingKind>) {
    let free: Vec<Id> = report
        .shafts
        .iter()
        .filter(|shaft| shaft.free && !shaft.unreached)
        .map(|shaft| shaft.id.clone())
        .collect();
    if !free.is_empty() && !matches!(context.operation.state, State::Undetermined { .. }) {
        kinds.push(FindingKind::FreeShafts { shafts: free });
    }
    let unreached: Vec<Id> = report
        .shafts
        .iter()
        .filter(|shaft| shaft.unreached)
        .map(|shaft| shaft.id.clone())
        .collect();
    if !unreached.is_empty() {
        kinds.push(FindingKind::Unreached { shafts: unreached });
    }
    for id in &report.held {
        let wheel = context
            .layout
            .element(id)
            .and_then(|element| match &element.kind {
                ElementKind::Worm(worm) => Some(worm.wheel.clone()),
                _ => None,
            });
        kinds.extend(wheel.map(|shaft| FindingKind::HeldByFriction {
            element: id.clone(),
            shaft,
        }));
    }
    for stress in &context.operation.redundant {
        let elements: Vec<_> = stress.multipliers.iter().map(|(element, _)| *element).collect();
        kinds.push(FindingKind::RedundantLoop {
            elements: context.element_ids(&elements),
        });
    }
}

fn from_powers(
    context: &Context<'_>,
    report: &PositionReport,
    totals: &Totals,
    kinds: &mut Vec<FindingKind>,
) {
    if context.operation.flow.is_none() {
        return;
    }
    for part in &report.loops {
        kinds.push(FindingKind::CirculatingPower {
            elements: part.elements.clone(),
            power: part.power,
            times_output: part.times_output,
        });
    }
    let floor = ROUNDING * totals.largest;
    for (element, result) in context.layout.elements.iter().zip(&report.elements) {
        let fed = result.ports.iter().all(|port| port.power.to_watts() > floor) && result.ports.len() == 2;
        if matches!(element.kind, ElementKind::Worm(_)) && fed {
            let loss = result.loss.unwrap_or(Power::ZERO);
            kinds.push(FindingKind::FedFromBothEnds {
                element: element.id.clone(),
                loss,
            });
        }
        let into: f64 = result.ports.iter().map(|port| port.power.to_watts()).sum();
        if is_source(&element.kind) && into > floor {
            kinds.push(FindingKind::Overhauling {
                element: element.id.clone(),
                power: Power::watts(into),
            });
        }
        let share = result.loss_share.unwrap_or(0.0);
        let of_input = result.loss.map_or(0.0, |loss| loss.to_watts() / totals.input);
        if share > MAIN_LOSS && of_input > NOTABLE_LOSS && of_input.is_finite() {
            kinds.push(FindingKind::MainLoss {
                element: element.id.clone(),
                share,
                of_input,
            });
        }
    }
    if !context.operation.unproven.is_empty() {
        let elements = context.element_ids(&context.operation.unproven);
        kinds.push(FindingKind::NotProven { elements });
    }
}

fn from_data(context: &Context<'_>, report: &PositionReport, kinds: &mut Vec<FindingKind>) {
    let lossless: Vec<Id> = report
        .elements
        .iter()
        .filter(|element| element.loss_model == Some(LossModel::NotGiven))
        .map(|element| element.id.clone())
        .collect();
    if !lossless.is_empty() {
        kinds.push(FindingKind::NoLossGiven { elements: lossless });
    }
    for (element, result) in context.layout.elements.iter().zip(&report.elements) {
        let undercut = matches!(
            result.loss_model,
            Some(LossModel::ToothFriction { undercut: true, .. })
        );
        let ring = matches!(&element.kind, ElementKind::Mesh(mesh) if mesh.form == MeshForm::Internal);
        if undercut && !ring {
            kinds.push(FindingKind::Undercut {
                element: element.id.clone(),
            });
        }
    }
    for (element, part) in context.layout.elements.iter().zip(&context.lowered.parts) {
        if let Part::Source(source) = part
            && let Drive::Motor(motor) = &context.lowered.model.sources[*source].drive
            && motor.makes_energy()
        {
            kinds.push(FindingKind::SheetMakesEnergy {
                element: element.id.clone(),
            });
        }
    }
}
