//! Varying inputs: what is asked, computed by the page, shown and taken over into the layout.
//!
//! How a question comes about is in `question`, carrying the mark of the present value in `carry`, what the page shows in
//! `sheet`.

mod carry;
mod question;
mod sheet;

use std::rc::Rc;

use layshaft_choose::{Input, Output};
use layshaft_layout::Id;

use crate::chart::draw;
use crate::chart::field::draw_field;
use crate::choosing::sweep::{Shown, SweepField, Typing, Variable, plane, plot};
use crate::choosing::{Answer, GearsInput, SweepInput, Tab};
use crate::fields::plain_number;
use crate::session::{Effect, Session};
use crate::wording::choosing_sweep as words;

impl Session {
    pub(super) fn sweep_input(&mut self, input: SweepInput, effects: &mut Vec<Effect>) {
        match input {
            SweepInput::Vary(input) => {
                self.close_edit(effects);
                self.vary(Some(input));
                self.show_choosing(Tab::Sweep, effects);
            }
            SweepInput::Choose(path) => {
                let input = self.input_by(&path);
                self.vary(input);
            }
            SweepInput::Also(path) => {
                self.choosing.sweep.asked.also = self.input_by(&path);
                if let Some(Shown::Sweep(_, answer, _)) = &self.choosing.sweep.shown {
                    self.choosing.sweep.asked.position = plane::most_moved(answer, 0);
                }
                self.choosing.sweep.asked.also_ends = [None; 2];
                self.choosing.sweep.typing = None;
            }
            SweepInput::Find(text) => self.choosing.sweep.find = text,
            SweepInput::Type(field, text) => self.type_in_sweep(field, text),
            SweepInput::Keep => self.choosing.sweep.typing = None,
            SweepInput::Look(path, on) => self.look_at(&path, on),
            SweepInput::LookAt(path) => {
                self.choosing.sweep.asked.outputs = Output::parse(&path).into_iter().collect();
            }
            SweepInput::In(id) => self.choosing.sweep.asked.position = Some(Id::from(id.as_str())),
            SweepInput::Carry(carry) => self.carry(carry, effects),
            SweepInput::FindGears => {
                if let Some(wanted) = self.wanted_ratio() {
                    let want = GearsInput::Want {
                        ratio: wanted.ratio,
                        replaces: Some(wanted.element),
                        tolerance: wanted.tolerance,
                    };
                    self.gears_input(want, effects);
                }
            }
        }
    }

    fn input_by(&mut self, path: &str) -> Option<Input> {
        self.list_variables();
        let variables = self.choosing.sweep.variables.iter();
        let found = variables.clone().find(|variable| variable.input.path() == path);
        found.map(|variable| variable.input.clone())
    }

    /// Another thing is varied: its range suggests itself, and nothing has been carried yet.
    fn vary(&mut self, input: Option<Input>) {
        let state = &mut self.choosing.sweep;
        state.asked.what = input;
        state.asked.ends = [None; 2];
        (state.carried, state.began, state.typing) = (None, None, None);
        state.find.clear();
        if state.asked.also == state.asked.what {
            state.asked.also = None;
        }
    }

    fn look_at(&mut self, path: &str, on: bool) {
        let Ok(output) = Output::parse(path) else { return };
        let mut outputs = self.sweep_outputs();
        outputs.retain(|other| *other != output);
        if on {
            outputs.push(output);
        }
        self.choosing.sweep.asked.outputs = outputs;
    }

    /// Text is typed into a field; what is no number stays out of what is asked.
    fn type_in_sweep(&mut self, field: SweepField, text: String) {
        let problem = match field {
            SweepField::Plain => self.type_plain(&text),
            SweepField::From | SweepField::To => self.type_end(field, self.sweep_variable().cloned(), &text),
            SweepField::AlsoFrom | SweepField::AlsoTo => {
                self.type_end(field, self.also_variable().cloned(), &text)
            }
        };
        self.choosing.sweep.typing = Some(Typing { field, text, problem });
    }

    fn type_plain(&mut self, text: &str) -> Option<String> {
        let empty = text.trim().is_empty();
        let sound = plain_number(text).filter(|value| *value > 0.0 && *value <= 1.0);
        if empty || sound.is_some() {
            self.choosing.sweep.asked.plain = Some(sound);
        }
        (!empty && sound.is_none()).then(|| words::SHARE.to_owned())
    }

    /// An end of a range, in the unit shown unless another one is typed behind it.
    fn type_end(&mut self, field: SweepField, of: Option<Variable>, text: &str) -> Option<String> {
        let empty = text.trim().is_empty();
        let read = of?.read(text, self.units);
        let asked = &mut self.choosing.sweep.asked;
        let end = match field {
            SweepField::From => &mut asked.ends[0],
            SweepField::To => &mut asked.ends[1],
            SweepField::AlsoFrom => &mut asked.also_ends[0],
            _ => &mut asked.also_ends[1],
        };
        match read {
            _ if empty => *end = None,
            Ok(value) => *end = Some(value),
            Err(problem) => return Some(problem),
        }
        None
    }

    /// Another unit is shown: what was being typed counts as it was read, and nothing is being carried.
    pub(in crate::session) fn leave_sweep_fields(&mut self) {
        let sweep = &mut self.choosing.sweep;
        (sweep.typing, sweep.began, sweep.carrying) = (None, None, false);
    }

    /// Takes what there is of an answer, whole or not.
    pub(super) fn take_sweep(&mut self, answer: &Rc<Answer>, whole: bool, effects: &mut Vec<Effect>) {
        let Some(asking) = self.choosing.sweep.asking.clone() else {
            return;
        };
        let shown = match &**answer {
            Answer::Sweep(sweep) => Shown::Sweep(asking, Rc::new(sweep.clone()), whole),
            Answer::Map(map) => Shown::Map(asking, Rc::new(map.clone())),
            _ => return,
        };
        let state = &mut self.choosing.sweep;
        (state.shown, state.delivered, state.drawn) = (Some(shown), true, None);
        self.draw_sweep();
        if whole {
            self.say_verdict(effects);
        }
    }

    /// Says what came of it, unless the picture only follows something that is being dragged or typed.
    fn say_verdict(&mut self, effects: &mut Vec<Effect>) {
        let said = self.sweep_verdict().join(" ");
        if self.editing.is_none() && !said.is_empty() && said != self.choosing.sweep.said {
            effects.push(Effect::Announce(said.clone()));
            self.choosing.sweep.said = said;
        }
    }

    /// The layout shown, its position or what is selected has changed, or this part is shown anew.
    pub(super) fn follow_sweep(&mut self, effects: &mut Vec<Effect>) {
        if self.hides_answers() {
            return;
        }
        self.list_variables();
        self.ask_sweep(effects);
        self.draw_sweep();
    }

    /// Draws the picture anew where the answer, the room for it or the present value has changed.
    fn draw_sweep(&mut self) {
        let room = self.choosing.room();
        let key = (self.shown.clone(), room, self.choosing.sweep.carried, self.units);
        let drawn = self.choosing.sweep.drawn.as_ref();
        let same = drawn.is_some_and(|(layout, wide, carried, units)| {
            Rc::ptr_eq(layout, &key.0) && *wide == room && *carried == key.2 && *units == key.3
        });
        if same {
            return;
        }
        let (chart, map) = match &self.choosing.sweep.shown {
            Some(Shown::Sweep(asking, answer, whole)) => {
                let spec = plot::chart(asking, answer, *whole, self.now(asking), self.units);
                (spec.map(|spec| Rc::new(draw(&spec, room))), None)
            }
            Some(Shown::Map(asking, answer)) => {
                let spec = plane::map(asking, answer, &self.shown, self.units);
                (None, spec.map(|spec| Rc::new(draw_field(&spec, room))))
            }
            None => (None, None),
        };
        let state = &mut self.choosing.sweep;
        (state.chart, state.map, state.drawn) = (chart, map, Some(key));
    }
}
