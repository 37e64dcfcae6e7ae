//! Findings about what was typed: losses left out, friction that is a range, data sheets, undercut teeth.

use layshaft_layout::Id;
use layshaft_layout::lower::Part;
use layshaft_powerflow::Drive;
use layshaft_powerflow::materials::{MaterialPair, Standing};

use crate::finding::FindingKind;
use crate::position::Context;
use crate::result::{LossModel, PositionReport};

pub(super) fn find(context: &Context<'_>, report: &PositionReport, kinds: &mut Vec<FindingKind>) {
    let lossless: Vec<Id> = report
        .elements
        .iter()
        .filter(|element| element.loss_model == Some(LossModel::NotGiven))
        .map(|element| element.id.clone())
        .collect();
    if !lossless.is_empty() {
        kinds.push(FindingKind::NoLossGiven { elements: lossless });
    }
    kinds.extend(friction_ranges(report));
    for result in &report.elements {
        if let Some(LossModel::ToothFriction { undercut: true, .. }) = result.loss_model {
            kinds.push(FindingKind::Undercut {
                element: result.id.clone(),
            });
        }
    }
    for (element, part) in context.layout.elements.iter().zip(&context.lowered.parts) {
        if let Part::Source(source) = part
            && let Drive::Motor(motor) = &context.model.sources[*source].drive
            && motor.makes_energy()
        {
            kinds.push(FindingKind::SheetMakesEnergy {
                element: element.id.clone(),
            });
        }
    }
}

/// Pairs of materials in use whose friction nobody published, each with what takes it.
fn friction_ranges(report: &PositionReport) -> Vec<FindingKind> {
    let mut pairs: Vec<(&'static MaterialPair, Vec<Id>)> = Vec::new();
    for result in &report.elements {
        let Some(LossModel::ToothFriction {
            materials: Some(materials),
            ..
        }) = result.loss_model
        else {
            continue;
        };
        let pair = materials.pair;
        if pair.standing == Standing::Published {
            continue;
        }
        match pairs.iter_mut().find(|(other, _)| other.name == pair.name) {
            Some((_, elements)) => elements.push(result.id.clone()),
            None => pairs.push((pair, vec![result.id.clone()])),
        }
    }
    let found = |(pair, elements)| FindingKind::FrictionRange { pair, elements };
    pairs.into_iter().map(found).collect()
}
