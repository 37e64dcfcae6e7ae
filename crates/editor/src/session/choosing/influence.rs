//! Influence and certainty: asked, computed by the page, shown.
//!
//! First it is asked what moves the result, which is over at once; then, where there are ranges, draws are made.

use std::rc::Rc;

use layshaft_choose::Output;
use layshaft_choose::sensitivity::{SensitivityAnswer, SensitivityJob};
use layshaft_layout::{Id, Layout, encode_compact};
use layshaft_report::PositionReport;

use crate::choosing::influence::bars::FEW;
use crate::choosing::influence::doubts::{TypedDoubt, job, losses, usual_share};
use crate::choosing::influence::names::Names;
use crate::choosing::influence::{Answered, InfluenceField};
use crate::choosing::{Answer, Choice, ChoiceOption, InfluenceInput, InfluenceSheet, Job, Tab, Typed};
use crate::fields::sentence_case;
use crate::session::computed::same_train;
use crate::session::{Effect, Session};
use crate::wording::choosing_influence as words;
use crate::wording::choosing_sweep;

mod certainty;

impl Session {
    pub(super) fn influence_input(&mut self, input: InfluenceInput, effects: &mut Vec<Effect>) {
        let state = &mut self.choosing.influence;
        match input {
            InfluenceInput::Ask(path) => state.output = Output::parse(&path).ok(),
            InfluenceInput::In(position) => state.position = Some(Id::from(&position)),
            InfluenceInput::ShowAll(all) => {
                state.show_all = all;
                return;
            }
            InfluenceInput::Doubt(path) => self.doubt(&[path], effects),
            InfluenceInput::DoubtLosses => {
                let losses = losses(&state.names, &state.doubts);
                let paths: Vec<String> = losses.iter().map(|named| named.path.clone()).collect();
                self.doubt(&paths, effects);
            }
            InfluenceInput::Trust(path) => {
                Rc::make_mut(&mut state.doubts).retain(|doubt| doubt.path != path);
            }
            InfluenceInput::Type(InfluenceField::Range(path), text) => {
                let mut doubts = Rc::make_mut(&mut state.doubts).iter_mut();
                if let Some(doubt) = doubts.find(|doubt| doubt.path == path) {
                    doubt.typed = Typed::new(text, self.units);
                }
            }
            InfluenceInput::Type(InfluenceField::Samples, text) => state.samples = Some(text),
            InfluenceInput::Type(InfluenceField::Seed, text) => state.seed = Some(text),
        }
        self.choosing.influence.stale = true;
    }

    fn doubt(&mut self, paths: &[String], effects: &mut Vec<Effect>) {
        let state = &mut self.choosing.influence;
        for path in paths {
            let known = state.doubts.iter().any(|doubt| doubt.path == *path);
            if !known && let Some(named) = state.names.at(path) {
                let typed = Typed::new(usual_share(named), self.units);
                Rc::make_mut(&mut state.doubts).push(TypedDoubt {
                    path: path.clone(),
                    typed,
                });
            }
        }
        if let [path] = paths
            && let Some(named) = state.names.at(path)
        {
            let share = usual_share(named);
            effects.push(Effect::Announce(format!("{}: ± {share} %", named.name)));
        }
    }

    /// The layout shown, its position or what is selected has changed, or this part is shown anew.
    pub(super) fn follow_influence(&mut self, effects: &mut Vec<Effect>) {
        self.retell_influence();
        let state = &mut self.choosing.influence;
        let same = state.seen.as_ref().is_some_and(|(layout, position, hidden)| {
            *position == self.position
                && *hidden == self.hide_answers
                && (Rc::ptr_eq(layout, &self.shown) || same_train(layout, &self.shown))
        });
        if same && !state.stale {
            return;
        }
        if !same {
            state.names = Rc::new(Names::of(&self.shown));
        }
        state.seen = Some((self.shown.clone(), self.position.clone(), self.hide_answers));
        state.stale = false;
        let Some((output, position)) = self.asked_after() else {
            self.choosing.influence.found = None;
            self.choosing.influence.drawn = None;
            self.stop_work(Tab::Influence, effects);
            return;
        };
        let job = SensitivityJob {
            layout: encode_compact(&self.shown),
            output,
            position,
        };
        self.have_done(Tab::Influence, Job::Sensitivity(job), effects);
    }

    /// Result and position that are asked after; none where there is nothing to ask.
    fn asked_after(&self) -> Option<(Output, Id)> {
        if self.hide_answers || !self.computed.errors().is_empty() {
            return None;
        }
        let report = self.asked_position()?;
        let all = possible(&self.shown, report);
        let chosen = self.choosing.influence.output.as_ref();
        let output = chosen
            .filter(|chosen| Output::all(&self.shown).contains(chosen))
            .or_else(|| all.first())?;
        Some((output.clone(), report.id.clone()))
    }

    /// The position asked in; the one shown where none was chosen.
    fn asked_position(&self) -> Option<&PositionReport> {
        let positions = &self.computed.report().positions;
        let of = |id: &Id| positions.iter().find(|position| position.id == *id);
        let chosen = self.choosing.influence.position.as_ref();
        let found = chosen.and_then(of).or_else(|| of(&self.position));
        found.or_else(|| positions.first()).map(|position| &**position)
    }

    /// Takes what there is of an answer, whole or not.
    pub(super) fn take_influence(&mut self, answer: &Rc<Answer>, whole: bool, effects: &mut Vec<Effect>) {
        match &**answer {
            Answer::Sensitivity(found) if whole => {
                self.take_bars(found);
                self.draw_samples(effects);
            }
            Answer::Uncertainty(drawn) => {
                let outputs = self.choosing.influence.drawn_outputs.clone();
                self.choosing.influence.drawn = Some((outputs, Rc::new(drawn.clone())));
            }
            _ => {}
        }
    }

    fn take_bars(&mut self, answer: &SensitivityAnswer) {
        let Some((output, position)) = self.asked_after() else {
            return;
        };
        let positions = self.positions();
        let several = positions.len() > 1;
        let name = positions.iter().find(|(id, _)| *id == position);
        let answered = Answered {
            output,
            position: name.map_or_else(String::new, |(_, name)| name.clone()),
            several,
            state: self.asked_position().map(|report| report.state),
            names: self.choosing.influence.names.clone(),
            answer: Rc::new(answer.clone()),
        };
        self.choosing.influence.found = Some(Rc::new(answered.told(self.units)));
        self.choosing.influence.answered = Some((answered, self.units));
    }

    /// Other units are shown: what was found is told anew.
    fn retell_influence(&mut self) {
        let units = self.units;
        let state = &mut self.choosing.influence;
        let told = state.answered.as_mut().filter(|(_, told)| *told != units);
        if let (Some((answered, told)), true) = (told, state.found.is_some()) {
            state.found = Some(Rc::new(answered.told(units)));
            *told = units;
        }
    }

    /// Has draws made, where there are ranges.
    fn draw_samples(&mut self, effects: &mut Vec<Effect>) {
        let Some(job) = job(&self.choosing.influence, &self.shown) else {
            self.choosing.influence.drawn = None;
            return;
        };
        self.choosing.influence.drawn_outputs = Rc::new(job.outputs.clone());
        self.have_done(Tab::Influence, Job::Uncertainty(job), effects);
    }

    pub(super) fn influence_sheet(&self) -> InfluenceSheet {
        if let Some(empty) = self.nothing_asked() {
            return InfluenceSheet {
                empty: Some(empty.to_owned()),
                ..InfluenceSheet::default()
            };
        }
        let state = &self.choosing.influence;
        let found = state.found.as_deref();
        let bars = found.map_or(&[][..], |found| &found.bars);
        let shown = if state.show_all { bars.len() } else { FEW };
        let doubted = |path: &str| {
            let typed = state.doubts.iter().any(|doubt| doubt.path == path);
            typed || path.starts_with("material_pairs.")
        };
        let bar = |bar: &crate::choosing::influence::bars::Bar| crate::choosing::influence::bars::Bar {
            doubted: doubted(&bar.path),
            ..bar.clone()
        };
        InfluenceSheet {
            empty: None,
            output: self.results_to_ask(),
            position: self.positions_to_ask(),
            head: found.map_or_else(String::new, |found| found.head.clone()),
            note: found
                .filter(|found| !found.bars.is_empty())
                .map_or_else(String::new, |found| words::rest(found.tried, found.bars.len())),
            key: if bars.is_empty() { "" } else { words::READ },
            more: (bars.len() > FEW).then(|| (words::more(bars.len(), state.show_all), !state.show_all)),
            bars: bars.iter().take(shown).map(bar).collect(),
            certainty: self.certainty_sheet(),
        }
    }

    fn nothing_asked(&self) -> Option<&'static str> {
        if self.hide_answers {
            return Some(choosing_sweep::HIDDEN);
        }
        if !self.computed.errors().is_empty() {
            return Some(choosing_sweep::NOT_COMPUTED);
        }
        self.asked_after().is_none().then_some(words::NOTHING)
    }

    fn results_to_ask(&self) -> Choice {
        let asked = self.asked_after().map(|(output, _)| output);
        let mut all = self
            .asked_position()
            .map_or_else(Vec::new, |report| possible(&self.shown, report));
        if let Some(asked) = &asked
            && !all.contains(asked)
        {
            all.insert(0, asked.clone());
        }
        let option = |output: &Output| ChoiceOption {
            group: String::new(),
            value: output.path(),
            name: sentence_case(&choosing_sweep::output(output)),
            chosen: Some(output) == asked.as_ref(),
        };
        Choice {
            key: "influence-output".to_owned(),
            label: "What moves".to_owned(),
            options: all.iter().map(option).collect(),
            hint: String::new(),
        }
    }

    fn positions_to_ask(&self) -> Option<Choice> {
        let positions = self.positions();
        let asked = self.asked_position().map(|report| report.id.clone());
        let option = |(id, name): &(Id, String)| ChoiceOption {
            group: String::new(),
            value: id.to_string(),
            name: name.clone(),
            chosen: Some(id) == asked.as_ref(),
        };
        (positions.len() > 1).then(|| Choice {
            key: "influence-position".to_owned(),
            label: "In position".to_owned(),
            options: positions.iter().map(option).collect(),
            hint: String::new(),
        })
    }
}

/// Results that are something in this position.
fn possible(layout: &Layout, report: &PositionReport) -> Vec<Output> {
    let is_something = |output: &Output| output.of(report).is_some_and(|value| value != 0.0);
    Output::all(layout).into_iter().filter(is_something).collect()
}
