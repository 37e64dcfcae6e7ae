//! Results per shaft: exact ratio, speed, the torque that it hands through.

use layshaft_kinematics::{Ratio, ShaftIdx};
use layshaft_layout::Id;
use layshaft_powerflow::State;
use layshaft_quantity::{AngularSpeed, Torque};

use crate::position::{Context, not_negative};
use crate::result::{Bearings, ElementResult, PortResult, ShaftResult};

pub(crate) fn shaft_results(context: &Context<'_>, elements: &[ElementResult]) -> Vec<ShaftResult> {
    let through = torques_through(context, elements);
    (0..)
        .map(ShaftIdx)
        .zip(&context.layout.shafts)
        .zip(through)
        .map(|((shaft, document), torque)| {
            let motion = &context.operation.motion;
            let jammed = matches!(context.operation.state, State::Jammed(_));
            let settled = !jammed && motion.is_settled(shaft);
            let at_rest = !jammed && motion.at_rest(shaft);
            let ratio = if at_rest {
                Some(Ratio::from_integer(0.into()))
            } else {
                motion.ratio(shaft)
            };
            let unreached = motion.is_unreached(shaft);
            let flow = context.operation.flow.as_ref();
            ShaftResult {
                id: document.id.clone(),
                of_sources: if ratio.is_none() && !jammed {
                    of_sources(context, shaft)
                } else {
                    Vec::new()
                },
                free: !jammed && ratio.is_none() && (!settled || unreached),
                unreached: unreached && !at_rest,
                speed: speed(context, shaft, !jammed && context.operation.knows_speed(shaft)),
                torque: flow.map(|_| Torque::newton_metres(torque)),
                loss: flow.map(|flow| not_negative(flow.shaft_loss(shaft))),
                bearings: bearings(context, shaft),
                ratio,
            }
        })
        .collect()
}

/// What each of several drives adds to a shaft's speed.
fn of_sources(context: &Context<'_>, shaft: ShaftIdx) -> Vec<(Id, Ratio)> {
    let parts = context.operation.motion.of_sources(shaft).unwrap_or_default();
    let named = |(source, factor)| Some((context.source_id(source)?.clone(), factor));
    parts.into_iter().filter_map(named).collect()
}

/// How the forces on a shaft's plain bearings were added.
fn bearings(context: &Context<'_>, shaft: ShaftIdx) -> Option<Bearings> {
    let journal = context.model.shafts[shaft.at()]
        .journal
        .filter(|journal| journal.arm() > 0.0 || journal.relief == 0.0)?;
    let pulls = context.model.train.indexed().any(|(element, kind)| {
        let Some(loss) = context.model.elements.get(element.at()) else {
            return false;
        };
        let constraint = kind.constraint();
        let pulls = loss.pulls.as_deref().copied().unwrap_or_default();
        let mut ends = constraint.terms().iter().zip(pulls);
        loss.bearing_force > 0.0
            && ends.any(|(term, pull)| term.port.shaft() == Some(shaft) && pull.is_some())
    });
    let directed = pulls || journal.steady_pull.is_some();
    Some(
        if directed && context.settled && context.operation.flow.is_some() {
            Bearings::Vector {
                relief: journal.relief,
            }
        } else {
            Bearings::Sum
        },
    )
}

fn speed(context: &Context<'_>, shaft: ShaftIdx, settled: bool) -> Option<AngularSpeed> {
    if !settled || context.model.sources.is_empty() {
        return None;
    }
    match (&context.operation.flow, &context.operation.state) {
        (Some(flow), _) => Some(AngularSpeed::rad_per_s(flow.speeds[shaft.at()])),
        (None, State::Stalled { .. } | State::LetsGo { .. } | State::SelfLocking(_) | State::Held) => {
            Some(AngularSpeed::ZERO)
        }
        (None, _) => None,
    }
}

/// Half the sum of the magnitudes of all port torques on each shaft, with the sign in which what drives it turns it.
fn torques_through(context: &Context<'_>, elements: &[ElementResult]) -> Vec<f64> {
    let shafts: std::collections::BTreeMap<&str, usize> = context
        .layout
        .shafts
        .iter()
        .enumerate()
        .map(|(at, shaft)| (shaft.id.as_str(), at))
        .collect();
    let mut sums = vec![0.0; context.layout.shafts.len()];
    let mut driving: Vec<Option<&PortResult>> = vec![None; context.layout.shafts.len()];
    for port in elements.iter().flat_map(|element| &element.ports) {
        let Some(&at) = shafts.get(port.shaft.as_str()) else {
            continue;
        };
        sums[at] += port.torque.abs().to_newton_metres() / 2.0;
        // What drives a shaft gives it power; at rest the first torque on it stands in.
        let drives_more = |other: &PortResult| port.power < other.power;
        if port.torque != Torque::ZERO && driving[at].is_none_or(drives_more) {
            driving[at] = Some(port);
        }
    }
    sums.into_iter()
        .zip(driving)
        .map(|(sum, port)| port.map_or(0.0, |port| -port.torque.sign() * sum))
        .collect()
}
