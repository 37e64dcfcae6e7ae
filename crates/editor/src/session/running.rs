//! Runs in time: what is asked, carried out by the page, shown and played.

use std::rc::Rc;

use layshaft_layout::{Command, Id, Stretch};
use layshaft_report::{PositionReport, Report};

use super::computed::same_train;
use super::{Effect, Session};
use crate::actions::Panel;
use crate::runs::{self, Outcome, RunField, RunInput, RunJob, RunSheet, Subject, Typing};
use crate::scene::{Overlay, Scene};
use crate::wording;

impl Session {
    pub(super) fn run_input(&mut self, input: RunInput, effects: &mut Vec<Effect>) {
        match input {
            RunInput::Type { field, text } => self.type_in_run(field, text),
            RunInput::Keep => self.keep_run_field(effects),
            RunInput::GiveUp => self.give_up_run_field(),
            RunInput::AddStretch => self.add_stretch(effects),
            RunInput::RemoveStretch(number) => self.remove_stretch(number, effects),
            RunInput::RaiseStretch(number) => self.swap_stretches(number.checked_sub(1), number, effects),
            RunInput::LowerStretch(number) => self.swap_stretches(Some(number), number + 1, effects),
            RunInput::StartIn(position) => {
                self.runs.setup.position = Some(position);
                self.redraw();
            }
            RunInput::Settled => {
                if self.run_is_stale() && self.runs.is_quick() && !self.runs.waiting {
                    self.ask_for_run(effects);
                }
            }
            RunInput::Done(outcome) => self.take_run(outcome, effects),
            RunInput::Width(width) => self.set_run_width(width),
            RunInput::Still(still) => {
                self.runs.still = still;
                self.runs.playback.playing &= !still;
            }
            RunInput::Along(along) => {
                self.runs.along = along;
                self.runs.draw();
            }
            RunInput::SaveNumbers => self.save_run(effects),
            moves => self.move_playhead(moves),
        }
    }

    fn move_playhead(&mut self, input: RunInput) {
        let Some(track) = self.runs.track.clone() else {
            return;
        };
        let end = track.end();
        let playback = &mut self.runs.playback;
        match input {
            RunInput::Tick(passed) => {
                if !playback.playing || self.panel != Some(Panel::Run) {
                    playback.playing = false;
                    return;
                }
                playback.tick(passed, end);
            }
            RunInput::Pace(pace) => return playback.set_pace(pace),
            RunInput::Seek(time) => playback.seek(time, end),
            RunInput::PointAt(x) => {
                let time = self.runs.plots.as_ref().map(|plots| plots.time_at(&track, x));
                playback.playing = false;
                playback.seek(time.unwrap_or_default(), end);
            }
            RunInput::ToEvent(number) => {
                let events = self.runs.result.as_ref().map(|result| &result.events);
                let event = events.and_then(|events| events.get(number));
                playback.playing = false;
                playback.seek(event.map_or(0.0, runs::EventRow::at), end);
            }
            _ => return,
        }
        self.follow_playhead();
    }

    /// The drawing shows the run, in the position of the playhead.
    fn follow_playhead(&mut self) {
        let position = self.run_position();
        let entered = !std::mem::replace(&mut self.runs.on_drawing, true);
        if let Some(position) = position.filter(|position| entered || *position != self.position) {
            self.position = position;
            self.redraw();
        }
    }

    fn run_position(&self) -> Option<Id> {
        let (track, moment) = (self.runs.track.as_ref()?, self.runs.moment()?);
        let position = track.run.positions.get(moment.position)?;
        Some(position.id.clone())
    }

    /// Steady running is drawn again.
    pub(super) fn leave_run(&mut self) {
        if std::mem::take(&mut self.runs.on_drawing) {
            self.runs.playback.playing = false;
            self.redraw();
        }
    }

    /// By button or key: a run, and then it is played.
    pub(super) fn start_run(&mut self, effects: &mut Vec<Effect>) {
        self.keep_run_field(effects);
        self.panel = Some(Panel::Run);
        self.runs.then_play = true;
        self.ask_for_run(effects);
    }

    /// By button or key: plays, or stops; runs first where there is nothing to play.
    pub(super) fn play_run(&mut self, effects: &mut Vec<Effect>) {
        if self.runs.track.is_none() || self.run_is_stale() {
            return self.start_run(effects);
        }
        if self.runs.still {
            let words = "Movement is reduced on this device: move the time by hand";
            effects.push(Effect::Announce(words.to_owned()));
            return;
        }
        self.panel = Some(Panel::Run);
        let end = self.runs.track.as_ref().map_or(0.0, |track| track.end());
        self.runs.playback.toggle(end);
        self.follow_playhead();
    }

    fn ask_for_run(&mut self, effects: &mut Vec<Effect>) {
        self.runs.waiting = true;
        effects.push(Effect::Run(self.run_job()));
    }

    fn run_job(&self) -> RunJob {
        let lifts = runs::subject(&self.shown).0 == Subject::Winch;
        RunJob {
            layout: self.shown.clone(),
            request: self.runs.setup.request(&self.shown, lifts),
        }
    }

    fn take_run(&mut self, outcome: Rc<Outcome>, effects: &mut Vec<Effect>) {
        self.runs.take(outcome);
        self.redraw();
        let then_play = std::mem::take(&mut self.runs.then_play);
        if let Some(words) = self.run_words().filter(|_| !self.hide_answers) {
            effects.push(Effect::Announce(words));
        }
        let can_play = self.runs.track.as_ref().is_some_and(|track| !track.is_empty());
        if then_play && can_play {
            self.runs.playback.time = 0.0;
            self.runs.playback.playing = !self.runs.still;
        }
        if can_play && (then_play || self.runs.on_drawing) && !self.run_is_stale() {
            self.runs.on_drawing = false;
            self.follow_playhead();
        } else {
            self.leave_run();
        }
    }

    fn run_words(&self) -> Option<String> {
        let outcome = self.runs.outcome.as_ref()?;
        Some(match (&outcome.result, &self.runs.result) {
            (Ok(run), Some(result)) => {
                wording::run_announcement(&result.headline, result.events.len(), &run.end)
            }
            (Err(problem), _) => wording::run_problem(problem, &self.shown),
            _ => return None,
        })
    }

    /// Whether the last run is of something else than what is asked for now.
    #[must_use]
    pub fn run_is_stale(&self) -> bool {
        self.runs.outcome.as_ref().is_none_or(|outcome| {
            let (asked, now) = (&outcome.job, self.run_job());
            asked.request != now.request
                || asked.layout.course != now.layout.course
                || !same_train(&asked.layout, &now.layout)
        })
    }

    fn set_run_width(&mut self, width: f64) {
        if width.is_finite() && width >= 120.0 && (width - self.runs.width).abs() >= 1.0 {
            self.runs.width = width;
            self.runs.draw();
        }
    }

    fn save_run(&self, effects: &mut Vec<Effect>) {
        if let (Some(track), Some(outcome)) = (&self.runs.track, &self.runs.outcome) {
            effects.push(Effect::Download {
                name: "run.csv".to_owned(),
                text: runs::csv(track, &outcome.job.layout, self.units),
            });
        }
    }

    /// The run sheet.
    #[must_use]
    pub fn run_sheet(&self) -> RunSheet {
        self.runs
            .sheet(&self.shown, self.run_is_stale(), self.hide_answers)
    }

    /// Whether the drawing shows a moment of a run.
    #[must_use]
    pub fn shows_run(&self) -> bool {
        self.runs.on_drawing && self.panel == Some(Panel::Run) && !self.hide_answers && !self.run_is_stale()
    }

    /// What the drawing shows while it shows a run.
    pub(super) fn run_hint(&self) -> Option<String> {
        let moment = self.runs.moment().filter(|_| self.shows_run())?;
        Some(wording::run_hint(moment.time))
    }

    /// Reports as the drawing of a run needs them.
    pub(super) fn reports_of_run(&self) -> Option<Vec<Rc<PositionReport>>> {
        let track = self.runs.track.as_ref().filter(|_| self.shows_run())?;
        let report: &Report = self.report();
        let strip = |report: &Rc<PositionReport>| Rc::new(runs::without_power(report, &self.shown, track));
        Some(report.positions.iter().map(strip).collect())
    }

    /// The drawing at the playhead, where a run is shown.
    pub(super) fn at_playhead(&self, drawn: Rc<Scene>) -> Rc<Scene> {
        let moment = || self.runs.draw_moment(&drawn, &self.shown).map(Rc::new);
        if self.shows_run() {
            moment().unwrap_or(drawn)
        } else {
            drawn
        }
    }

    /// Typing into the sheet: computed with at once where it can be read.
    fn type_in_run(&mut self, field: RunField, text: String) {
        let read = field.read(&text);
        let mut problem = read.clone().err();
        if let Ok(value) = read {
            match (field, value) {
                (RunField::FromSpeed, speed) => self.runs.setup.from_speed = speed,
                (RunField::Limit, limit) => self.runs.setup.limit = limit,
                (RunField::Lift, lift) => self.runs.setup.lift = lift,
                (field, Some(value)) => problem = self.preview_stretch(field, value).err(),
                _ => {}
            }
        }
        self.runs.typing = Some(Typing { field, text, problem });
        self.redraw();
    }

    fn preview_stretch(&mut self, field: RunField, value: f64) -> Result<(), String> {
        let course = runs::changed(&self.document.layout().course, field, value);
        let command = Command::SetCourse(course.unwrap_or_default());
        self.preview(&command)
            .map_err(|refusal| crate::fields::sentence(&refusal))
    }

    fn keep_run_field(&mut self, effects: &mut Vec<Effect>) {
        let Some(typing) = self.runs.typing.take() else {
            return;
        };
        let (RunField::Length(_) | RunField::Slope(_), Ok(Some(value))) =
            (typing.field, typing.field.read(&typing.text))
        else {
            self.show_document();
            return;
        };
        let course = self.document.layout().course.clone();
        match runs::changed(&course, typing.field, value) {
            Some(changed) if changed != course => self.set_course(changed, "change the course", effects),
            _ => self.show_document(),
        }
    }

    pub(super) fn give_up_run_field(&mut self) {
        if self.runs.typing.take().is_some() {
            self.show_document();
        }
    }

    fn set_course(&mut self, course: Vec<Stretch>, name: &str, effects: &mut Vec<Effect>) {
        self.commit(Command::SetCourse(course), name, effects);
    }

    fn add_stretch(&mut self, effects: &mut Vec<Effect>) {
        self.keep_run_field(effects);
        let mut course = self.document.layout().course.clone();
        course.push(runs::next(&course));
        self.set_course(course, "add a stretch", effects);
    }

    fn remove_stretch(&mut self, number: usize, effects: &mut Vec<Effect>) {
        self.runs.typing = None;
        let mut course = self.document.layout().course.clone();
        if number < course.len() {
            course.remove(number);
            self.set_course(course, "remove a stretch", effects);
        }
    }

    fn swap_stretches(&mut self, one: Option<usize>, other: usize, effects: &mut Vec<Effect>) {
        self.keep_run_field(effects);
        let mut course = self.document.layout().course.clone();
        if let Some(one) = one.filter(|_| other < course.len()) {
            course.swap(one, other);
            self.set_course(course, "move a stretch", effects);
        }
    }

    /// The drawing as made, or with what shows during a gesture.
    pub(super) fn under_overlay(&self, drawn: Rc<Scene>) -> Rc<Scene> {
        if self.overlay == Overlay::default() {
            drawn
        } else {
            Rc::new(Scene {
                overlay: self.overlay.clone(),
                ..(*drawn).clone()
            })
        }
    }
}
