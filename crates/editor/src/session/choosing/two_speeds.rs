//! Arrangements with two speeds: asked, shown, opened as layouts of their own.

use std::rc::Rc;

use layshaft_choose::alternatives::{Alternative, Gear, TwoSpeedAnswer};
use layshaft_layout::{Layout, decode, encode};

use crate::choosing::two_speeds::ask::{self, Defaults};
use crate::choosing::two_speeds::rows;
use crate::choosing::{Answer, Job, Tab, TwoSpeedsInput, TwoSpeedsSheet, Typed};
use crate::session::{Effect, Session};
use crate::wording::{LEFT_OUT, arrangement_in_title, arrangement_works};

impl Session {
    pub(super) fn two_speeds_input(&mut self, input: TwoSpeedsInput, effects: &mut Vec<Effect>) {
        let state = &mut self.choosing.two_speeds;
        match input {
            TwoSpeedsInput::By(by) => state.by = by,
            TwoSpeedsInput::Type(field, text) => {
                state.typed.insert(field, Typed::new(text, self.units));
            }
            TwoSpeedsInput::AsNow => state.typed.clear(),
            TwoSpeedsInput::Open(place) => return self.open_arrangement(place, effects),
        }
        state.stale = true;
    }

    /// Puts an arrangement on the bench; undo brings back what lay there.
    fn open_arrangement(&mut self, place: usize, effects: &mut Vec<Effect>) {
        let answer = self.choosing.two_speeds.answer.clone();
        let Some(alternative) = answer.as_ref().and_then(|answer| answer.found.get(place)) else {
            return;
        };
        let Ok(sized) = decode(&alternative.layout) else {
            return;
        };
        let layout = self.named(sized, alternative);
        self.choosing.two_speeds.opened = Some((place, Rc::from(encode(&layout))));
        let announced = format!("Opened {}. Undo brings the old layout back.", layout.title);
        self.close_edit(effects);
        self.give_up_gesture(effects);
        self.open(layout, &announced, effects);
    }

    /// With a title after the layout asked about, and what that one carries of use to others.
    fn named(&self, sized: Layout, alternative: &Alternative) -> Layout {
        let stem = sized
            .title
            .split(',')
            .next()
            .unwrap_or_default()
            .trim()
            .to_owned();
        let name = arrangement_in_title(alternative.arrangement);
        let mut carried = sized.carried.clone();
        if let Some(bin) = self.shown.carried.get("bin") {
            carried.insert("bin".to_owned(), bin.clone());
        }
        Layout {
            title: if stem.is_empty() {
                name
            } else {
                format!("{stem}, {name}")
            },
            notes: arrangement_works(alternative.arrangement).to_owned(),
            course: self.shown.course.clone(),
            carried,
            ..sized
        }
    }

    /// Takes what there is of an answer, whole or not.
    pub(super) fn take_two_speeds(&mut self, answer: &Rc<Answer>, whole: bool, _effects: &mut Vec<Effect>) {
        let Answer::TwoSpeeds(answer) = &**answer else {
            return;
        };
        // A whole answer is not put aside for the beginning of the next.
        if !whole && self.choosing.two_speeds.found.is_some() {
            return;
        }
        let defaults = self.choosing.two_speeds.defaults.clone();
        let Some(asked) = self.choosing.two_speeds.asked.clone() else {
            return;
        };
        let found = rows::found(answer, &asked.wanted, &self.shown, self.units);
        let reached = self.reached(answer);
        let told = (self.shown.clone(), asked, self.units);
        let state = &mut self.choosing.two_speeds;
        state.found = Some(Rc::new(found));
        state.told = Some(told);
        state.answer = Some(Rc::new(answer.clone()));
        state.opened = None;
        if let Some(defaults) = defaults {
            state.defaults = Some(Rc::new(Defaults {
                reached,
                ..(*defaults).clone()
            }));
        }
    }

    /// The layout shown, its position or what is selected has changed, or this part is shown anew.
    pub(super) fn follow_two_speeds(&mut self, effects: &mut Vec<Effect>) {
        self.retell_two_speeds();
        let state = &self.choosing.two_speeds;
        let same = state
            .seen
            .as_ref()
            .is_some_and(|seen| Rc::ptr_eq(seen, &self.shown));
        if same && !state.stale {
            return;
        }
        if !same && self.is_asked_about() {
            self.choosing.two_speeds.seen = Some(self.shown.clone());
            if !self.choosing.two_speeds.stale {
                return;
            }
        } else if !same {
            self.look_at_layout();
        }
        self.choosing.two_speeds.stale = false;
        self.ask_for_arrangements(effects);
    }

    /// Whether what lies on the bench is what was asked about last, or an arrangement found then.
    fn is_asked_about(&self) -> bool {
        let state = &self.choosing.two_speeds;
        let Some(asked) = &state.asked else {
            return false;
        };
        let text = encode(&self.shown);
        let opened = state.opened.as_ref().is_some_and(|(_, opened)| **opened == text);
        text == asked.layout || opened
    }

    fn look_at_layout(&mut self) {
        let defaults = Defaults::of(&self.shown, self.computed.report());
        let state = &mut self.choosing.two_speeds;
        let reached = state.defaults.as_ref().and_then(|defaults| defaults.reached);
        state.defaults = Some(Rc::new(Defaults { reached, ..defaults }));
        state.seen = Some(self.shown.clone());
    }

    fn ask_for_arrangements(&mut self, effects: &mut Vec<Effect>) {
        let Some(job) = ask::job(&self.choosing.two_speeds, &self.shown) else {
            self.stop_work(Tab::TwoSpeeds, effects);
            return;
        };
        self.choosing.two_speeds.asked = Some(Rc::new(job.clone()));
        self.have_done(Tab::TwoSpeeds, Job::TwoSpeeds(job), effects);
    }

    pub(super) fn two_speeds_sheet(&self) -> TwoSpeedsSheet {
        let state = &self.choosing.two_speeds;
        let defaults = state.defaults.as_ref();
        let can_be_asked = defaults.is_none_or(|defaults| defaults.can_be_asked);
        let text = || encode(&self.shown);
        TwoSpeedsSheet {
            by: ask::choice(state),
            wanted: ask::wanted_fields(state, self.units),
            reckoned: ask::reckoned_fields(state, self.units),
            gears: defaults.map_or_else(String::new, |defaults| ask::gears_words(defaults)),
            left_out: LEFT_OUT,
            can_reset: !state.typed.is_empty(),
            empty: (!can_be_asked).then(|| {
                "Put a motor or a crank on one shaft and a winch, a vehicle or a load on another: arrangements are found \
                 between these two."
                    .to_owned()
            }),
            found: state.found.clone().filter(|_| can_be_asked),
            on_bench: state
                .opened
                .as_ref()
                .filter(|(_, opened)| **opened == text())
                .map(|(place, _)| *place),
        }
    }

    /// Other units are shown: what was found is told anew.
    fn retell_two_speeds(&mut self) {
        let units = self.units;
        let state = &mut self.choosing.two_speeds;
        let (Some(answer), Some((layout, asked, told))) = (&state.answer, &mut state.told) else {
            return;
        };
        if *told != units && state.found.is_some() {
            let found = rows::found(answer, &asked.wanted, layout, units);
            state.found = Some(Rc::new(found));
            *told = units;
        }
    }

    /// Largest pull and highest speed of the layout asked about, as short as they are shown.
    fn reached(&self, answer: &TwoSpeedAnswer) -> Option<[f64; 2]> {
        let most = |of: fn(&Gear) -> Option<f64>| answer.present.iter().filter_map(of).max_by(f64::total_cmp);
        let pull = most(|gear| gear.pull.or(gear.torque))?;
        let speed = most(|gear| gear.speed)?;
        Some(ask::short_in(
            &self.choosing.two_speeds,
            [pull, speed],
            self.units,
        ))
    }
}
