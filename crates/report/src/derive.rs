//! The working of a ratio: the solver's steps under the document's names.

use layshaft_kinematics::{
    self as kinematics, Element, ElementIdx, Port, Ratio, ShaftIdx, StepContent as Content,
};
use layshaft_layout::lower::{self, Lowered, Part};
use layshaft_layout::{ElementKind, FRAME, Id, Layout};
use layshaft_powerflow::{Operation, operate};

use crate::senses_of;
use crate::working::{Expression, StepContent, Working, WorkingStep};

/// The working of one shaft's ratio in one position; `None` where the drive does not settle its speed.
#[must_use]
pub fn working(layout: &Layout, position: &Id, shaft: &Id) -> Option<Working> {
    let positions = layout.effective_positions();
    let senses = senses_of(layout, &positions);
    let position = positions.iter().find(|other| other.id == *position)?;
    let lowered = lower::lower(layout, position, &senses);
    let operation = operate(&lowered.model);
    let at = layout.shafts.iter().position(|other| other.id == *shaft)?;
    let train = operation.train_with_holds(&lowered.model);
    let steps = kinematics::working(&train, &operation.motion, ShaftIdx(u32::try_from(at).ok()?))?;
    let names = Names {
        layout,
        lowered: &lowered,
        operation: &operation,
    };
    Some(Working {
        drive: names.shaft(operation.motion.drive()?),
        shaft: shaft.clone(),
        steps: steps.steps.iter().map(|step| names.step(step)).collect(),
        result: steps.result,
    })
}

struct Names<'a> {
    layout: &'a Layout,
    lowered: &'a Lowered,
    operation: &'a Operation,
}

impl Names<'_> {
    fn step(&self, step: &kinematics::Step) -> WorkingStep {
        WorkingStep {
            element: step
                .element
                .and_then(|element| self.element(element))
                .map(|(id, _)| id.clone()),
            content: self.content(step),
        }
    }

    /// The document's element behind an element of the train; the hold of a held worm's wheel is the worm's.
    fn element(&self, element: ElementIdx) -> Option<(&Id, &ElementKind)> {
        let own = self.lowered.model.train.elements().len();
        let element = if element.at() < own {
            element
        } else {
            *self.operation.held.get(element.at() - own)?
        };
        let at = self.lowered.parts.iter().position(|part| match part {
            Part::Element(other) => *other == element,
            Part::Vehicle { wheels, .. } => wheels.contains(&element),
            _ => false,
        })?;
        let found = &self.layout.elements[at];
        Some((&found.id, &found.kind))
    }

    /// A shaft's name; a vehicle's body goes by the vehicle's.
    fn shaft(&self, shaft: ShaftIdx) -> Id {
        if let Some(shaft) = self.layout.shafts.get(shaft.at()) {
            return shaft.id.clone();
        }
        let bodies = self.lowered.parts.iter().zip(&self.layout.elements);
        bodies
            .filter_map(|(part, element)| match part {
                Part::Vehicle { load, .. } => Some((self.lowered.model.loads[*load].shaft, &element.id)),
                _ => None,
            })
            .find(|(body, _)| *body == shaft)
            .map_or_else(|| Id::from(FRAME), |(_, id)| id.clone())
    }

    fn port(&self, port: Port) -> Id {
        port.shaft()
            .map_or_else(|| Id::from(FRAME), |shaft| self.shaft(shaft))
    }

    fn content(&self, step: &kinematics::Step) -> StepContent {
        match &step.content {
            Content::Drive { shaft } => StepContent::Drive {
                shaft: self.shaft(*shaft),
            },
            Content::Hold { shaft } => StepContent::Hold {
                shaft: self.shaft(*shaft),
            },
            Content::Pair {
                from,
                to,
                size_from,
                size_to,
                reversed,
                input,
                output,
            } => {
                let scale = step
                    .element
                    .map_or_else(|| Ratio::from_integer(1.into()), |own| self.unit(own));
                let size = |whole: &i128| Ratio::from_integer((*whole).into()) * &scale;
                StepContent::Pair {
                    from: self.shaft(*from),
                    to: self.shaft(*to),
                    size_from: size(size_from),
                    size_to: size(size_to),
                    reversed: *reversed,
                    input: expression(input),
                    output: expression(output),
                }
            }
            Content::Coupled { from, to, output } => StepContent::Coupled {
                from: self.shaft(*from),
                to: self.shaft(*to),
                output: expression(output),
            },
            Content::Willis {
                members,
                basic_ratio,
                speeds,
                to,
                output,
            } => {
                let [first, second, carrier] = members.map(|port| self.port(port));
                StepContent::Willis {
                    first,
                    second,
                    carrier,
                    basic_ratio: basic_ratio.clone(),
                    teeth: step.element.and_then(|element| self.teeth(element)),
                    speeds: speeds.each_ref().map(|speed| speed.as_ref().map(expression)),
                    to: self.shaft(*to),
                    output: expression(output),
                }
            }
            Content::Assume { shaft, unknown } => StepContent::Assume {
                shaft: self.shaft(*shaft),
                unknown: *unknown,
            },
            Content::Close {
                terms,
                unknown,
                value,
            } => StepContent::Close {
                terms: terms
                    .iter()
                    .map(|(shaft, coefficient, speed)| {
                        (self.shaft(*shaft), coefficient.clone(), expression(speed))
                    })
                    .collect(),
                unknown: *unknown,
                value: expression(value),
            },
            Content::Substitute {
                shaft,
                expression: before,
                value,
            } => StepContent::Substitute {
                shaft: self.shaft(*shaft),
                expression: expression(before),
                value: value.clone(),
            },
        }
    }

    /// What one whole number of a pair's sizes stands for: a tooth, or for belts the common small part of a millimetre.
    fn unit(&self, element: ElementIdx) -> Ratio {
        let (Some((_, ElementKind::Belt(belt))), Some(Element::Belt(whole))) = (
            self.element(element),
            self.lowered.model.train.elements().get(element.at()),
        ) else {
            return Ratio::from_integer(1.into());
        };
        lower::exact_decimal(belt.diameters_mm[0]) / Ratio::from_integer(whole.diameters[0].into())
    }

    fn teeth(&self, element: ElementIdx) -> Option<(u32, u32)> {
        match self.element(element)?.1 {
            ElementKind::Planetary(set) => Some((set.sun_teeth, set.ring_teeth)),
            _ => None,
        }
    }
}

fn expression(from: &kinematics::Expression) -> Expression {
    Expression {
        constant: from.constant.clone(),
        unknowns: from
            .unknowns
            .iter()
            .map(|(&unknown, factor)| (unknown, factor.clone()))
            .collect(),
    }
}
