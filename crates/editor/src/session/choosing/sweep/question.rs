//! What is asked of a sweep or a map: from what was chosen, typed or suggests itself, of the layout as it is shown.

use std::rc::Rc;

use layshaft_choose::map::{MapJob, Span};
use layshaft_choose::sweep::SweepJob;
use layshaft_choose::{ElementPart, Input, Output, Varied, VehiclePart};
use layshaft_layout::{ElementKind, Layout, encode};

use crate::choosing::sweep::variables::{range, variables};
use crate::choosing::sweep::{Asking, Variable, Wanted, Work, plane};
use crate::choosing::{Job, Tab};
use crate::session::{Effect, Session};

/// Values of a sweep: more than a plot has pixels across, so that what comes and goes within a narrow stretch is seen.
const POINTS: usize = 1001;
/// Efficiency of plain gears where the layout has none of its own: common practice for dry plastic gears, no source.
const PLAIN: f64 = 0.9;

impl Session {
    /// What can be varied, listed anew when the layout has changed.
    pub(super) fn list_variables(&mut self) {
        let state = &mut self.choosing.sweep;
        let listed = state.listed.as_ref();
        if listed.is_none_or(|layout| !Rc::ptr_eq(layout, &self.shown)) {
            state.variables = Rc::new(variables(&self.shown));
            state.listed = Some(self.shown.clone());
        }
    }

    fn variable_of(&self, input: &Input) -> Option<&Variable> {
        let path = input.path();
        let mut variables = self.choosing.sweep.variables.iter();
        variables.find(|variable| variable.input.path() == path)
    }

    /// What is varied: what was chosen as long as it is there, else what suggests itself.
    pub(super) fn sweep_variable(&self) -> Option<&Variable> {
        let state = &self.choosing.sweep;
        let chosen = state
            .asked
            .what
            .as_ref()
            .and_then(|input| self.variable_of(input));
        chosen.or_else(|| state.variables.first())
    }

    /// What is varied besides.
    pub(super) fn also_variable(&self) -> Option<&Variable> {
        let also = self.choosing.sweep.asked.also.as_ref();
        also.and_then(|input| self.variable_of(input))
    }

    /// What is looked at.
    pub(super) fn sweep_outputs(&self) -> Vec<Output> {
        let all = Output::all(&self.shown);
        let asked = &self.choosing.sweep.asked.outputs;
        let mut outputs: Vec<Output> = all
            .iter()
            .filter(|output| asked.contains(output))
            .cloned()
            .collect();
        if outputs.is_empty() {
            // A stronger pull is paid for with speed, so that both are seen.
            let speed = all.iter().skip(1).find(|output| is_speed(output));
            outputs.extend(all.first().into_iter().chain(speed).cloned());
        }
        outputs
    }

    /// The ends of a range: what was typed, else what suggests itself.
    pub(super) fn ends(&self, variable: &Variable, typed: [Option<f64>; 2]) -> [f64; 2] {
        let mut suggested = self.choosing.sweep.suggested.iter();
        let own = suggested.find(|(input, _)| *input == variable.input);
        let own = own.map_or_else(|| range(&self.shown, variable, self.units), |(_, ends)| *ends);
        let ends = [typed[0].unwrap_or(own[0]), typed[1].unwrap_or(own[1])];
        if ends[0] == ends[1] { own } else { ends }
    }

    /// Keeps the ranges of what is varied: were they to follow its value, they would move under a mark that is carried.
    fn keep_ranges(&mut self) {
        let inputs = [self.sweep_variable(), self.also_variable()];
        let kept = inputs.into_iter().flatten().map(|variable| {
            let [from, to] = self.ends(variable, [None; 2]);
            let holds = (from..=to).contains(&variable.present);
            let ends = if holds {
                [from, to]
            } else {
                range(&self.shown, variable, self.units)
            };
            (variable.input.clone(), ends)
        });
        self.choosing.sweep.suggested = kept.collect();
    }

    /// Efficiency of plain gears that a worm is compared with; none where something else is varied or none is wanted.
    pub(super) fn plain_gears(&self, variable: &Variable) -> Option<f64> {
        let Input::Ratio { element, .. } = &variable.input else {
            return None;
        };
        let kind = &self.shown.element(element)?.kind;
        if !matches!(kind, ElementKind::Worm(_)) {
            return None;
        }
        self.choosing.sweep.asked.plain.unwrap_or_else(|| {
            let own = self
                .shown
                .elements
                .iter()
                .find_map(|element| match &element.kind {
                    ElementKind::Mesh(mesh) => mesh.loss.efficiency(),
                    _ => None,
                });
            Some(own.unwrap_or(PLAIN))
        })
    }

    /// Whether plain gears can be compared with what is varied.
    pub(super) fn has_plain_gears(&self, variable: &Variable) -> bool {
        let Input::Ratio { element, .. } = &variable.input else {
            return false;
        };
        let element = self.shown.element(element);
        element.is_some_and(|element| matches!(element.kind, ElementKind::Worm(_)))
    }

    /// Asks anew where something else is wanted than what was asked last. Work that has given nothing yet is let go on, so
    /// that a picture comes however fast the layout changes; what comes then is followed by the next question.
    pub(super) fn ask_sweep(&mut self, effects: &mut Vec<Effect>) {
        let state = &self.choosing.sweep;
        let same = state.wanted.as_ref().is_some_and(|wanted| {
            Rc::ptr_eq(&wanted.layout, &self.shown)
                && wanted.asked == state.asked
                && wanted.position == self.position
        });
        if !same {
            self.keep_ranges();
            let question = self.question().map(Rc::new);
            let state = &mut self.choosing.sweep;
            let before = state.wanted.as_ref().and_then(|wanted| wanted.asking.as_ref());
            if before
                .zip(question.as_ref())
                .is_none_or(|(before, now)| !before.is_of(now))
            {
                // Another layout or another variable: what was tried was tried with what is gone.
                (state.carried, state.began) = (None, None);
            }
            self.choosing.sweep.wanted = Some(Wanted {
                layout: self.shown.clone(),
                asked: self.choosing.sweep.asked.clone(),
                position: self.position.clone(),
                asking: question,
            });
        }
        let wanted = self.choosing.sweep.wanted.as_ref();
        let Some(wanted) = wanted.and_then(|wanted| wanted.asking.clone()) else {
            return;
        };
        let state = &self.choosing.sweep;
        let asked = state
            .asking
            .as_ref()
            .is_some_and(|asking| asking.work == wanted.work);
        let runs = self.choosing.waiting.contains_key(&Tab::Sweep);
        if asked || runs && !state.delivered {
            return;
        }
        let job = match &wanted.work {
            Work::Sweep(job) => Job::Sweep(job.clone()),
            Work::Map(work) => Job::Map(work.0.clone()),
        };
        let state = &mut self.choosing.sweep;
        (state.asking, state.delivered) = (Some(wanted), false);
        self.have_done(Tab::Sweep, job, effects);
    }

    /// The question; none where there is nothing to vary.
    fn question(&self) -> Option<Asking> {
        let variable = self.sweep_variable()?.clone();
        let asked = &self.choosing.sweep.asked;
        let [from, to] = self.ends(&variable, asked.ends);
        let outputs = self.sweep_outputs();
        let mut inputs = vec![variable.input.clone()];
        let work = if let Some(also) = self.also_variable().filter(|also| also.input != variable.input) {
            let [low, high] = self.ends(also, asked.also_ends);
            let span = |variable: &Variable, from, to| Span {
                input: variable.input.clone(),
                from,
                to,
                points: plane::POINTS,
            };
            inputs.push(also.input.clone());
            let job = MapJob {
                layout: bare(&self.shown, &[(&variable.input, from), (&also.input, low)]),
                across: span(&variable, from, to),
                up: span(also, low, high),
                output: outputs.first()?.clone(),
                position: asked.position.clone().unwrap_or_else(|| self.position.clone()),
            };
            Work::Map(Box::new((job, also.clone())))
        } else {
            if let (Input::Ratio { element, .. }, Some(efficiency)) =
                (&variable.input, self.plain_gears(&variable))
            {
                inputs.push(Input::Ratio {
                    element: element.clone(),
                    plain_gears: Some(efficiency),
                });
            }
            Work::Sweep(SweepJob {
                layout: bare(&self.shown, &[(&variable.input, from)]),
                inputs,
                from,
                to,
                points: POINTS,
                outputs,
            })
        };
        Some(Asking {
            layout: self.shown.clone(),
            variable,
            work,
        })
    }
}

/// Whether this says how fast the load goes: a vehicle on the level, a rope under its load.
pub(super) const fn is_speed(output: &Output) -> bool {
    matches!(
        output,
        Output::Vehicle(VehiclePart::TopSpeed) | Output::Element(_, ElementPart::LineSpeed)
    )
}

/// The file of a layout without what makes no difference: titles, places, and the present values of what is varied, so that
/// changing these asks for nothing new.
fn bare(layout: &Layout, set: &[(&Input, f64)]) -> String {
    let mut bare = layout.clone();
    bare.title = String::new();
    bare.notes = String::new();
    bare.shafts.iter_mut().for_each(|shaft| shaft.at = [0.0, 0.0]);
    bare.elements.iter_mut().for_each(|element| element.at = None);
    for (input, value) in set {
        if !matches!(input, Input::Field(_)) {
            continue;
        }
        let mut varied = Varied::new(bare.clone());
        // Where the layout refuses the end of the range, its own value stays: it is then asked for more often, no worse.
        if varied.set(input, *value).is_ok() {
            bare = varied.layout().clone();
        }
    }
    encode(&bare)
}
