//! Findings about torque and power: what goes round, slips, is fed back or takes most of the loss.

use layshaft_kinematics::ElementIdx;
use layshaft_layout::ElementKind;
use layshaft_layout::lower::Part;
use layshaft_powerflow::{Release, operate};
use layshaft_quantity::{Power, Torque};

use crate::finding::FindingKind;
use crate::is_source;
use crate::position::{Context, Totals};
use crate::result::{ElementResult, Mode, PositionReport};

/// A loss above this share of the whole is named.
const MAIN_LOSS: f64 = 1.0 / 3.0;
/// Losses below this share of the drive's power are not worth naming.
const NOTABLE_LOSS: f64 = 0.2;
/// Powers below this share of the largest are rounding.
const ROUNDING: f64 = 1e-9;

pub(super) fn find(
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
    for (result, part) in report.elements.iter().zip(&context.lowered.parts) {
        if let (Some(Mode::Slipping), Part::Element(own)) = (result.mode, part) {
            kinds.extend(slips(context, result, *own));
        }
    }
    if !report.others.is_empty() {
        kinds.push(FindingKind::OtherStates {
            states: report.others.clone(),
        });
    }
    if !context.operation.unproven.is_empty() {
        let elements = context.element_ids(&context.operation.unproven);
        kinds.push(FindingKind::NotProven { elements });
    }
}

/// A joint that slips while the rest runs, with the torque that it would have to carry: that of the same train where it
/// never lets go.
fn slips(context: &Context<'_>, result: &ElementResult, own: ElementIdx) -> Option<FindingKind> {
    let Some(Release::Slip { limit }) = context.model.elements[own.at()].release else {
        return None;
    };
    Some(FindingKind::Slips {
        element: result.id.clone(),
        limit,
        needed: needed_to_hold(context, own).filter(|needed| *needed > limit),
        heat: result.loss.unwrap_or(Power::ZERO),
    })
}

/// Torque at the first port of a joint in the same train if it never let go.
pub(super) fn needed_to_hold(context: &Context<'_>, own: ElementIdx) -> Option<Torque> {
    let mut fast = context.model.clone();
    fast.elements[own.at()].release = None;
    let flow = operate(&fast).flow?;
    Some(Torque::newton_metres(flow.into_element(own)[0]).abs())
}
