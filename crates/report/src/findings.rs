//! Findings of one position: typed, with evidence; the most important first.
//!
//! Here those of state and motion; those of powers, drive, data and gears have a file each.

mod data;
mod drive;
mod gears;
mod powers;

use layshaft_kinematics::Jam;
use layshaft_layout::{ElementKind, Id};
use layshaft_powerflow::State;
use layshaft_quantity::Torque;

use crate::finding::{Finding, FindingKind};
use crate::position::{Context, Totals};
use crate::result::PositionReport;

/// Everything found in one position; `spins`: the vehicle's wheels do, whatever the drive would give.
pub(crate) fn findings(
    context: &Context<'_>,
    report: &PositionReport,
    totals: &Totals,
    spins: bool,
) -> Vec<Finding> {
    let mut kinds = Vec::new();
    if !spins {
        from_state(context, &mut kinds);
    }
    if !matches!(context.operation.state, State::Jammed(_)) {
        from_speeds(context, report, &mut kinds);
        powers::find(context, report, totals, &mut kinds);
        drive::find(context, report, spins, &mut kinds);
        data::find(context, report, &mut kinds);
    }
    gears::find(context, report, &mut kinds);
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
        FindingKind::Tips { .. } => 4,
        FindingKind::LowerPullsLess { .. } => 5,
        FindingKind::Stalled { .. } | FindingKind::LetsGo { .. } => 6,
        FindingKind::ShiftsAndStalls { .. } => 7,
        FindingKind::Hunting { .. } => 8,
        FindingKind::Overheats { .. } => 9,
        FindingKind::TeethOverloaded { .. } => 10,
        FindingKind::Slips { .. } => 11,
        FindingKind::PlanetsCollide { .. } => 12,
        FindingKind::PlanetAssembly { .. } => 13,
        FindingKind::FedFromBothEnds { .. } => 14,
        FindingKind::CirculatingPower { .. } => 15,
        FindingKind::Overhauling { .. } => 16,
        FindingKind::MainLoss { .. } => 17,
        FindingKind::CentreDistance { .. } => 18,
        FindingKind::BackDrives { .. } => 19,
        FindingKind::PastBestEfficiency { .. } => 20,
        FindingKind::OtherStates { .. } => 21,
        FindingKind::RedundantLoop { .. } => 22,
        FindingKind::NotProven { .. } => 23,
        FindingKind::StandsByFriction { .. } => 24,
        FindingKind::HeldByFriction { .. } => 25,
        FindingKind::NoLossGiven { .. } => 26,
        FindingKind::FrictionRange { .. } => 27,
        FindingKind::TorqueBeforeTraction { .. } => 28,
        FindingKind::Undercut { .. } => 29,
        FindingKind::SheetMakesEnergy { .. } => 30,
        FindingKind::FreeShafts { .. } => 31,
        FindingKind::Unreached { .. } => 32,
        FindingKind::TractionBeforeTorque { slope, .. } => {
            if slope.is_some() {
                6
            } else {
                28
            }
        }
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
            needed: match joints[..] {
                [joint] => powers::needed_to_hold(context, joint),
                _ => None,
            },
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
        // A freedom whose speed the torques settle is not idle.
        .filter(|shaft| shaft.free && !shaft.unreached && shaft.speed.is_none())
        .map(|shaft| shaft.id.clone())
        .collect();
    let said = matches!(
        context.operation.state,
        State::Undetermined { .. } | State::LetsGo { .. }
    );
    if !free.is_empty() && !said {
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
        let Some(element) = context.layout.element(id) else {
            continue;
        };
        kinds.push(match &element.kind {
            ElementKind::Worm(worm) => FindingKind::HeldByFriction {
                element: id.clone(),
                shaft: worm.wheel.clone(),
            },
            // Engaged clutches take a freedom away too, which is their work and no finding.
            ElementKind::OneWay(_) => continue,
            _ => FindingKind::StandsByFriction { element: id.clone() },
        });
    }
    for (at, stress) in context.operation.redundant.iter().enumerate() {
        let elements: Vec<_> = stress.multipliers.iter().map(|(element, _)| *element).collect();
        kinds.push(FindingKind::RedundantLoop {
            elements: context.element_ids(&elements),
            shares: report.shares.get(at).cloned().unwrap_or_default(),
        });
    }
}
