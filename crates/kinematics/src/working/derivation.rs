//! The derivation behind a working: speeds handed on from element to element, unknowns where nothing else goes on.

use std::collections::{BTreeMap, VecDeque};

use num_traits::{One, Zero};

use super::{Expression, Step, StepContent};
use crate::Ratio;
use crate::elements::Element;
use crate::motion::Motion;
use crate::train::{ElementIdx, Port, ShaftIdx, Train};

/// What a step gives, and what it needs.
struct Made {
    step: Step,
    shaft: Option<ShaftIdx>,
    unknown: Option<usize>,
    uses: Vec<ShaftIdx>,
    uses_unknowns: Vec<usize>,
}

pub(super) struct Derivation<'a> {
    train: &'a Train,
    /// Moving terms of every element.
    terms: Vec<Vec<(ShaftIdx, i128)>>,
    elements_on: Vec<Vec<ElementIdx>>,
    speeds: BTreeMap<ShaftIdx, Expression>,
    /// Shafts whose speed was last shown with unknowns.
    shown_open: Vec<ShaftIdx>,
    used: Vec<bool>,
    made: Vec<Made>,
    waiting: VecDeque<ElementIdx>,
    unknowns: usize,
}

impl<'a> Derivation<'a> {
    pub(super) fn new(train: &'a Train) -> Self {
        let terms: Vec<Vec<(ShaftIdx, i128)>> = train
            .elements()
            .iter()
            .map(|element| element.constraint().reduced().terms().to_vec())
            .collect();
        let mut elements_on = vec![Vec::new(); train.shaft_count()];
        for (element, terms) in (0..).map(ElementIdx).zip(&terms) {
            for (shaft, _) in terms {
                elements_on[shaft.at()].push(element);
            }
        }
        // What holds a shaft by itself is known from the start.
        let holds = (0..)
            .map(ElementIdx)
            .zip(&terms)
            .filter(|(_, terms)| terms.len() == 1);
        let waiting = holds.map(|(element, _)| element).collect();
        Self {
            train,
            elements_on,
            speeds: BTreeMap::new(),
            shown_open: Vec::new(),
            used: vec![false; terms.len()],
            made: Vec::new(),
            waiting,
            unknowns: 0,
            terms,
        }
    }

    pub(super) fn state(
        &mut self,
        shaft: ShaftIdx,
        speed: Expression,
        element: Option<ElementIdx>,
        content: StepContent,
    ) {
        let uses = element
            .map(|element| self.terms[element.at()].iter().map(|&(shaft, _)| shaft))
            .into_iter()
            .flatten()
            .filter(|&other| other != shaft)
            .collect();
        let uses_unknowns = speed.unknowns.keys().copied().collect();
        self.made.push(Made {
            step: Step { element, content },
            shaft: Some(shaft),
            unknown: None,
            uses,
            uses_unknowns,
        });
        if !speed.is_known() {
            self.shown_open.push(shaft);
        }
        self.speeds.insert(shaft, speed);
        self.waiting.extend(self.elements_on[shaft.at()].iter().copied());
    }

    /// Goes on until the shaft's speed is a number; `None` if it never is.
    pub(super) fn run(&mut self, motion: &Motion, target: ShaftIdx) -> Option<()> {
        loop {
            while let Some(element) = self.waiting.pop_front() {
                self.look_at(element);
                if self.speeds.get(&target).is_some_and(Expression::is_known) {
                    self.show_closed(target);
                    return Some(());
                }
            }
            self.assume(motion)?;
        }
    }

    fn look_at(&mut self, element: ElementIdx) {
        if self.used[element.at()] {
            return;
        }
        let open: Vec<ShaftIdx> = self.terms[element.at()]
            .iter()
            .map(|&(shaft, _)| shaft)
            .filter(|shaft| !self.speeds.contains_key(shaft))
            .collect();
        match open[..] {
            [] => self.close(element),
            [to] => self.pass_on(element, to),
            _ => return,
        }
        self.used[element.at()] = true;
    }

    fn pass_on(&mut self, element: ElementIdx, to: ShaftIdx) {
        let terms = self.terms[element.at()].clone();
        for &(shaft, _) in terms.iter().filter(|(shaft, _)| *shaft != to) {
            self.show_closed(shaft);
        }
        let own = terms
            .iter()
            .find(|(shaft, _)| *shaft == to)
            .map_or(1, |(_, coefficient)| *coefficient);
        let mut output = Expression::number(Ratio::zero());
        for (shaft, coefficient) in terms.iter().filter(|(shaft, _)| *shaft != to) {
            output.add(&self.speeds[shaft].scaled(&Ratio::new((-*coefficient).into(), own.into())));
        }
        let content = self.content_of(element, &terms, to, &output);
        self.state(to, output, Some(element), content);
    }

    fn content_of(
        &self,
        element: ElementIdx,
        terms: &[(ShaftIdx, i128)],
        to: ShaftIdx,
        output: &Expression,
    ) -> StepContent {
        let kind = self.train.element(element);
        let output = output.clone();
        if let [_] = terms {
            return StepContent::Hold { shaft: to };
        }
        if let Some(gear) = kind.as_carrier_gear() {
            let speed = |port: Port| match port.shaft() {
                None => Some(Expression::number(Ratio::zero())),
                Some(shaft) if shaft == to => None,
                Some(shaft) => self.speeds.get(&shaft).cloned(),
            };
            let [first, second, _] = gear.coefficients;
            return StepContent::Willis {
                members: gear.ports(),
                basic_ratio: Ratio::new((-second).into(), first.into()),
                speeds: gear.ports().map(speed),
                to,
                output,
            };
        }
        let from = terms
            .iter()
            .find(|(shaft, _)| *shaft != to)
            .map_or((to, 1), |term| *term);
        let own = terms
            .iter()
            .find(|(shaft, _)| *shaft == to)
            .map_or(1, |(_, coefficient)| *coefficient);
        if matches!(kind, Element::Coupling(_)) {
            return StepContent::Coupled {
                from: from.0,
                to,
                output,
            };
        }
        StepContent::Pair {
            from: from.0,
            to,
            size_from: from.1.abs(),
            size_to: own.abs(),
            reversed: (from.1 > 0) == (own > 0),
            input: self.speeds[&from.0].clone(),
            output,
        }
    }

    /// All ports are expressed: the element's equation gives an unknown, if it holds one.
    fn close(&mut self, element: ElementIdx) {
        let terms: Vec<(ShaftIdx, Ratio, Expression)> = self.terms[element.at()]
            .iter()
            .map(|&(shaft, coefficient)| {
                (
                    shaft,
                    Ratio::from_integer(coefficient.into()),
                    self.speeds[&shaft].clone(),
                )
            })
            .collect();
        let mut sum = Expression::number(Ratio::zero());
        for (_, coefficient, speed) in &terms {
            sum.add(&speed.scaled(coefficient));
        }
        let Some((unknown, factor)) = sum.unknowns.pop_last() else {
            return;
        };
        let value = sum.scaled(&-factor.recip());
        let uses = terms.iter().map(|(shaft, ..)| *shaft).collect();
        let uses_unknowns = value.unknowns.keys().copied().collect();
        let content = StepContent::Close {
            terms,
            unknown,
            value: value.clone(),
        };
        let step = Step {
            element: Some(element),
            content,
        };
        self.made.push(Made {
            step,
            shaft: None,
            unknown: Some(unknown),
            uses,
            uses_unknowns,
        });
        for speed in self.speeds.values_mut() {
            speed.put(unknown, &value);
        }
    }

    /// Shows a speed as a number where its own line still had unknowns in it.
    fn show_closed(&mut self, shaft: ShaftIdx) {
        let Some(at) = self.shown_open.iter().position(|&open| open == shaft) else {
            return;
        };
        let speed = &self.speeds[&shaft];
        if !speed.is_known() {
            return;
        }
        let value = speed.constant.clone();
        self.shown_open.swap_remove(at);
        let first = self
            .made
            .iter()
            .find(|made| made.shaft == Some(shaft))
            .expect("its speed was stated");
        let expression = output_of(&first.step.content).cloned().unwrap_or_else(|| {
            let unknown = if let StepContent::Assume { unknown, .. } = first.step.content {
                unknown
            } else {
                0
            };
            Expression {
                constant: Ratio::zero(),
                unknowns: BTreeMap::from([(unknown, Ratio::one())]),
            }
        });
        let uses_unknowns = expression.unknowns.keys().copied().collect();
        let content = StepContent::Substitute {
            shaft,
            expression,
            value,
        };
        let step = Step {
            element: None,
            content,
        };
        self.made.push(Made {
            step,
            shaft: Some(shaft),
            unknown: None,
            uses: vec![shaft],
            uses_unknowns,
        });
    }

    /// Calls the speed of a shaft next to what is known an unknown.
    fn assume(&mut self, motion: &Motion) -> Option<()> {
        let near = |element: &ElementIdx| {
            let terms = &self.terms[element.at()];
            terms.iter().any(|(shaft, _)| self.speeds.contains_key(shaft))
        };
        let elements = (0..).map(ElementIdx).take(self.terms.len());
        let element = elements.filter(|element| !self.used[element.at()]).find(near)?;
        let shaft = self.terms[element.at()]
            .iter()
            .map(|&(shaft, _)| shaft)
            .filter(|shaft| !self.speeds.contains_key(shaft))
            // One that is settled lies on the way; a free one would never be closed.
            .max_by_key(|&shaft| motion.is_settled(shaft))?;
        self.unknowns += 1;
        let unknown = self.unknowns;
        let speed = Expression {
            constant: Ratio::zero(),
            unknowns: BTreeMap::from([(unknown, Ratio::one())]),
        };
        self.state(shaft, speed, None, StepContent::Assume { shaft, unknown });
        Some(())
    }

    /// The steps that lead to a shaft, the others left out.
    pub(super) fn needed_for(self, target: ShaftIdx) -> Vec<Step> {
        let mut shafts = vec![target];
        let mut unknowns: Vec<usize> = Vec::new();
        let mut kept = Vec::new();
        for made in self.made.into_iter().rev() {
            let wanted = made.shaft.is_some_and(|shaft| shafts.contains(&shaft))
                || made.unknown.is_some_and(|unknown| unknowns.contains(&unknown));
            if wanted {
                shafts.extend(made.uses);
                unknowns.extend(made.uses_unknowns);
                kept.push(made.step);
            }
        }
        kept.reverse();
        kept
    }
}

pub(super) fn output_of(content: &StepContent) -> Option<&Expression> {
    match content {
        StepContent::Pair { output, .. }
        | StepContent::Coupled { output, .. }
        | StepContent::Willis { output, .. } => Some(output),
        _ => None,
    }
}
