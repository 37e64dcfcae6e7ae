//! The plot of all variants: which sweeps it needs, one after another, and what has come of them.

use std::rc::Rc;

use layshaft_layout::Layout;

use crate::choosing::compare::{
    Asked, Axes, Common, ComparePlot, Plotted, Seen, Side, VariantNumber, chart, fields, offered,
};
use crate::choosing::{Answer, Job, Tab, Typed};
use crate::session::{Effect, Session};

/// A sweep that the plot needs, and of which layout.
struct Wanted {
    number: VariantNumber,
    asked: Asked,
    layout: Rc<Layout>,
}

impl Session {
    pub(super) fn plot_over(&mut self, code: &str) {
        let plot = &mut self.choosing.compare.plot;
        plot.over = Common::ALL.into_iter().find(|input| input.code() == code);
        // A range typed for another input means nothing.
        plot.ends = Default::default();
    }

    pub(super) fn plot_result(&mut self, code: &str) {
        self.choosing.compare.plot.seen = Seen::ALL.into_iter().find(|seen| seen.code() == code);
    }

    pub(super) fn plot_to(&mut self, which: usize, text: String) {
        if let Some(end) = self.choosing.compare.plot.ends.get_mut(which) {
            *end = Typed::new(text, self.units);
        }
    }

    /// Takes what there is of an answer, whole or not.
    pub(in crate::session::choosing) fn take_compare(
        &mut self,
        answer: &Rc<Answer>,
        _whole: bool,
        _effects: &mut Vec<Effect>,
    ) {
        let plot = &mut self.choosing.compare.plot;
        let (Some((number, asked)), Answer::Sweep(sweep)) = (&plot.under_way, &**answer) else {
            return;
        };
        let plotted = Rc::make_mut(&mut plot.plotted).iter_mut();
        if let Some(plotted) = plotted.into_iter().find(|plotted| plotted.number == *number) {
            plotted.answer = Some((asked.clone(), Rc::new(sweep.clone())));
        }
    }

    /// The layout shown has changed, or variants have: has the next sweep carried out that the plot lacks.
    pub(in crate::session::choosing) fn follow_compare(&mut self, effects: &mut Vec<Effect>) {
        let wanted = self.wanted_sweeps();
        self.keep_sweeps(&wanted);
        if !self.may_begin(&wanted, effects) {
            return;
        }
        let plot = &mut self.choosing.compare.plot;
        plot.under_way = None;
        let untried = plot.plotted.iter().position(|plotted| !plotted.is_tried());
        let Some((at, wanted)) = untried.and_then(|at| Some((at, wanted.get(at)?))) else {
            return;
        };
        Rc::make_mut(&mut plot.plotted)[at].tried = Some(wanted.asked.clone());
        plot.under_way = Some((wanted.number, wanted.asked.clone()));
        let job = Job::Sweep(wanted.asked.job(&wanted.layout));
        self.have_done(Tab::Compare, job, effects);
    }

    /// The sweeps that the plot needs, in the order of the variants.
    fn wanted_sweeps(&self) -> Vec<Wanted> {
        let sides = self.sides();
        let Some(axes) = self.compare_axes(&sides) else {
            return Vec::new();
        };
        let Some(ends) = self.compare_ends(axes, &sides) else {
            return Vec::new();
        };
        let wanted = |side: &Side<'_>| {
            let asked = Asked {
                report: side.report.clone(),
                input: axes.over.find(side.layout)?.path,
                ends,
                output: axes.seen.find(side.layout)?.output,
            };
            Some(Wanted {
                number: side.variant.number,
                asked,
                layout: side.layout.clone(),
            })
        };
        sides.iter().filter_map(wanted).collect()
    }

    /// Keeps what was computed for the variants that are there. Where only numbers of a layout have changed, its old curve
    /// stays until the new one is there, so that nothing flickers while something is dragged.
    fn keep_sweeps(&mut self, wanted: &[Wanted]) {
        let plotted = &self.choosing.compare.plot.plotted;
        let same = |(plotted, wanted): (&Plotted, &Wanted)| {
            plotted.number == wanted.number && plotted.wanted == wanted.asked
        };
        if plotted.len() == wanted.len() && plotted.iter().zip(wanted).all(same) {
            return;
        }
        let kept = |wanted: &Wanted| {
            let old = plotted.iter().find(|plotted| plotted.number == wanted.number);
            let answer = old.and_then(|old| old.answer.clone());
            Plotted {
                number: wanted.number,
                wanted: wanted.asked.clone(),
                tried: old.and_then(|old| old.tried.clone()),
                answer: answer.filter(|(asked, _)| asked.is_like(&wanted.asked)),
            }
        };
        let all = wanted.iter().map(kept).collect();
        self.choosing.compare.plot.plotted = Rc::new(all);
    }

    /// Whether another sweep can be begun. A short one goes on to its end even if its layout has changed meanwhile: else
    /// nothing would ever come of any while something is dragged.
    fn may_begin(&mut self, wanted: &[Wanted], effects: &mut Vec<Effect>) -> bool {
        if let Some(waiting) = self.choosing.waiting.get(&Tab::Compare) {
            let is_wanted = |(number, asked): &(VariantNumber, Asked)| {
                wanted
                    .iter()
                    .any(|wanted| wanted.number == *number && wanted.asked == *asked)
            };
            let goes_on = self
                .choosing
                .compare
                .plot
                .under_way
                .as_ref()
                .is_some_and(is_wanted);
            if goes_on || waiting.progress.is_none() {
                return false;
            }
            self.stop_work(Tab::Compare, effects);
        }
        // After a stop by hand nothing is begun until something else is wanted.
        let stopped = self.choosing.stopped == Some(Tab::Compare);
        let plot = &mut self.choosing.compare.plot;
        if stopped && !plot.stopped {
            for plotted in Rc::make_mut(&mut plot.plotted) {
                plotted.tried = Some(plotted.wanted.clone());
            }
        }
        plot.stopped = stopped;
        true
    }

    /// What is plotted; none where there is nothing to compare or to see.
    fn compare_axes(&self, sides: &[Side<'_>]) -> Option<Axes> {
        if sides.len() < 2 || self.hide_answers || sides.iter().any(|side| side.problem.is_some()) {
            return None;
        }
        let (inputs, results) = offered(sides);
        let plot = &self.choosing.compare.plot;
        let over = plot.over.filter(|input| inputs.contains(input));
        let seen = plot.seen.filter(|seen| results.contains(seen));
        Some(Axes {
            over: over.or(inputs.first().copied())?,
            seen: seen.or(results.first().copied())?,
        })
    }

    /// Ends of the range: as typed, else around the first variant's value; none where they are no range.
    fn compare_ends(&self, axes: Axes, sides: &[Side<'_>]) -> Option<[f64; 2]> {
        let input = axes.over.find(sides.first()?.layout)?;
        let [least, most] = axes.over.usual_range(input.present);
        let typed = &self.choosing.compare.plot.ends;
        let end = |typed: &Typed, usual: f64| {
            if typed.is_empty() {
                Some(usual)
            } else {
                typed.value(input.quantity(), input.unit, usual).ok()
            }
        };
        let ends = [end(&typed[0], least)?, end(&typed[1], most)?];
        (ends[0] < ends[1]).then_some(ends)
    }

    /// The plot with its fields.
    pub(super) fn compare_plot(&self, sides: &[Side<'_>]) -> Option<ComparePlot> {
        let axes = self.compare_axes(sides)?;
        let ends = self.compare_ends(axes, sides);
        let plot = &self.choosing.compare.plot;
        let chart = ends.and_then(|_| chart(sides, &plot.plotted, axes, self.choosing.room(), self.units));
        Some(ComparePlot {
            chart: chart.map(Rc::new),
            ..fields(sides, axes, &plot.ends, ends.is_some(), self.units)?
        })
    }
}
