//! The sheet on which a builder chooses: which part is shown, and long work that the page carries out.

mod compare;
mod gears;
mod influence;
mod sweep;
mod two_speeds;

use std::rc::Rc;

use super::{Effect, Session};
use crate::actions::Panel;
use crate::choosing::{Answer, ChooseInput, ChooseSheet, Job, News, Part, Tab, Waiting, WorkNumber};
use crate::wording::work_stopped;

impl Session {
    pub(super) fn choose_input(&mut self, input: ChooseInput, effects: &mut Vec<Effect>) {
        match input {
            ChooseInput::Show(tab) => self.show_choosing(tab, effects),
            ChooseInput::Width(width) => self.set_choosing_width(width, effects),
            ChooseInput::Sweep(input) => self.sweep_input(input, effects),
            ChooseInput::Gears(input) => self.gears_input(input, effects),
            ChooseInput::TwoSpeeds(input) => self.two_speeds_input(input, effects),
            ChooseInput::Influence(input) => self.influence_input(input, effects),
            ChooseInput::Compare(input) => self.compare_input(input, effects),
            ChooseInput::Stop => self.stop_by_hand(effects),
            ChooseInput::Save { name, text } => effects.push(Effect::Download { name, text }),
            ChooseInput::News(number, news) => self.take_news(number, news, effects),
        }
    }

    /// Opens the sheet at a part.
    pub(super) fn show_choosing(&mut self, tab: Tab, effects: &mut Vec<Effect>) {
        self.panel = Some(Panel::Choose);
        self.choosing.tab = tab;
        self.redraw();
        self.follow_choosing(effects);
    }

    fn set_choosing_width(&mut self, width: f64, effects: &mut Vec<Effect>) {
        if width.is_finite() && width >= 120.0 && (width - self.choosing.width).abs() >= 1.0 {
            self.choosing.width = width;
            self.follow_choosing(effects);
        }
    }

    /// After every input: the part shown may want to compute anew.
    pub(super) fn follow_choosing(&mut self, effects: &mut Vec<Effect>) {
        if self.panel != Some(Panel::Choose) {
            return;
        }
        match self.choosing.tab {
            Tab::Sweep => self.follow_sweep(effects),
            Tab::Gears => self.follow_gears(effects),
            Tab::TwoSpeeds => self.follow_two_speeds(effects),
            Tab::Influence => self.follow_influence(effects),
            Tab::Compare => self.follow_compare(effects),
        }
    }

    /// Has a job carried out for a part; what it waited for before is stopped.
    pub(super) fn have_done(&mut self, tab: Tab, job: Job, effects: &mut Vec<Effect>) {
        self.stop_work(tab, effects);
        self.choosing.stopped = self.choosing.stopped.filter(|stopped| *stopped != tab);
        self.choosing.last_number += 1;
        let number = WorkNumber(self.choosing.last_number);
        self.choosing.waiting.insert(
            tab,
            Waiting {
                number,
                progress: None,
            },
        );
        effects.push(Effect::Compute {
            number,
            job: Rc::new(job),
        });
    }

    /// Stops what a part waits for.
    pub(super) fn stop_work(&mut self, tab: Tab, effects: &mut Vec<Effect>) {
        if let Some(waiting) = self.choosing.waiting.remove(&tab) {
            effects.push(Effect::StopComputing(waiting.number));
        }
    }

    fn stop_by_hand(&mut self, effects: &mut Vec<Effect>) {
        let tab = self.choosing.tab;
        if let Some(waiting) = self.choosing.waiting.get(&tab) {
            self.choosing.stopped_at = waiting.progress;
            self.stop_work(tab, effects);
            self.choosing.stopped = Some(tab);
            effects.push(Effect::Announce(work_stopped().to_owned()));
        }
    }

    fn take_news(&mut self, number: WorkNumber, news: News, effects: &mut Vec<Effect>) {
        // News of work that was given up is no news.
        let waits = |waiting: &Waiting| waiting.number == number;
        let waiting = self.choosing.waiting.iter();
        let Some(tab) = waiting
            .clone()
            .find(|(_, waiting)| waits(waiting))
            .map(|(tab, _)| *tab)
        else {
            return;
        };
        match news {
            News::Progress(progress) => {
                if let Some(waiting) = self.choosing.waiting.get_mut(&tab) {
                    waiting.progress = Some(progress);
                }
            }
            News::SoFar(answer) => self.take_answer(tab, &answer, false, effects),
            News::Done(answer) => {
                self.choosing.waiting.remove(&tab);
                self.take_answer(tab, &answer, true, effects);
            }
            News::Failed(sentence) => {
                self.choosing.waiting.remove(&tab);
                self.choosing.fault = Some((tab, sentence.clone()));
                effects.push(Effect::Announce(sentence));
            }
        }
    }

    fn take_answer(&mut self, tab: Tab, answer: &Rc<Answer>, whole: bool, effects: &mut Vec<Effect>) {
        self.choosing.fault = None;
        match tab {
            Tab::Sweep => self.take_sweep(answer, whole, effects),
            Tab::Gears => self.take_gears(answer, whole, effects),
            Tab::TwoSpeeds => self.take_two_speeds(answer, whole, effects),
            Tab::Influence => self.take_influence(answer, whole, effects),
            Tab::Compare => self.take_compare(answer, whole, effects),
        }
    }

    /// The sheet.
    #[must_use]
    pub fn choose_sheet(&self) -> ChooseSheet {
        let tab = self.choosing.tab;
        let fault = self.choosing.fault.as_ref().filter(|(of, _)| *of == tab);
        ChooseSheet {
            tab,
            waiting: self.choosing.waiting.get(&tab).cloned(),
            fault: fault.map(|(_, sentence)| sentence.clone()),
            stopped: (self.choosing.stopped == Some(tab)).then(work_stopped),
            part: match tab {
                Tab::Sweep => Part::Sweep(Rc::new(self.sweep_sheet())),
                Tab::Gears => Part::Gears(Rc::new(self.gears_sheet())),
                Tab::TwoSpeeds => Part::TwoSpeeds(Rc::new(self.two_speeds_sheet())),
                Tab::Influence => Part::Influence(Rc::new(self.influence_sheet())),
                Tab::Compare => Part::Compare(Rc::new(self.compare_sheet())),
            },
        }
    }
}
