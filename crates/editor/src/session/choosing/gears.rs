//! The gear search: the bin, what is wanted, and putting a train into the layout.
//!
//! What is asked of the search is made in [`asking`], what is shown in [`showing`].

mod asking;
mod showing;

use std::rc::Rc;

use layshaft_choose::gears::{Bin, BinEntry, GearTrain, WantedSense, typed};
use layshaft_layout::Command;
use serde_json::Value;

use crate::choosing::gears::place::{Place, alone};
use crate::choosing::gears::wish::Wish;
use crate::choosing::gears::{COMMON, PAGE};
use crate::choosing::{
    Answer, GearsChoice, GearsField, GearsInput, GearsSwitch, Job, OfferedBin, Spacing, Tab,
};
use crate::session::{Effect, Session};
use crate::target::Target;
use crate::wording::choosing_gears as words;

/// More of one gear than this nobody counts.
const MOST_COUNTED: u32 = 99;

impl Session {
    pub(super) fn gears_input(&mut self, input: GearsInput, effects: &mut Vec<Effect>) {
        match input {
            GearsInput::Want { ratio, replaces } => {
                self.choosing.gears.ratio = Wish::text_of(ratio);
                if let Some(id) = replaces {
                    self.select(vec![Target::Element(id)]);
                }
                self.show_choosing(Tab::Gears, effects);
            }
            GearsInput::Type(field, text) => *self.gears_text(field) = text,
            GearsInput::Keep(GearsField::Bin) => self.keep_bin(effects),
            GearsInput::Keep(_) => {}
            GearsInput::Choose(choice, value) => self.choose_gears(choice, &value),
            GearsInput::Switch(switch, on) => match switch {
                GearsSwitch::Idlers => self.choosing.gears.idlers = on,
                GearsSwitch::Coaxial => self.choosing.gears.coaxial = on,
            },
            GearsInput::TurnRound => {
                if let Ok(wish) = Wish::read(&self.choosing.gears.ratio) {
                    self.choosing.gears.ratio = wish.turned();
                }
            }
            GearsInput::More(teeth) => {
                self.change_bin(
                    teeth,
                    |entry| entry.count = entry.count.map(|count| (count + 1).min(MOST_COUNTED)),
                    effects,
                );
            }
            GearsInput::Less(teeth) => {
                self.change_bin(
                    teeth,
                    |entry| entry.count = Some(entry.count.unwrap_or(1) - 1),
                    effects,
                );
            }
            GearsInput::AnyNumber(teeth, any) => {
                self.change_bin(teeth, |entry| entry.count = (!any).then_some(1), effects);
            }
            GearsInput::TakeBin(offered) => {
                let bin = match offered {
                    OfferedBin::Last => (*self.choosing.gears.last_bin).clone(),
                    OfferedBin::Common => typed::bin(COMMON).unwrap_or_default(),
                };
                self.set_bin(&bin, effects);
            }
            GearsInput::Sort(column) => {
                let gears = &mut self.choosing.gears;
                gears.backwards = gears.sort == column && !gears.backwards;
                gears.sort = column;
            }
            GearsInput::ShowMore => self.choosing.gears.shown += PAGE,
            GearsInput::PutIn(index) => {
                let answer = self.choosing.gears.answer.clone();
                if let Some(train) = answer.as_ref().and_then(|answer| answer.trains.get(index)) {
                    self.put_train(train, effects);
                }
            }
            GearsInput::PutNearestIn => {
                let answer = self.choosing.gears.answer.clone();
                if let Some(train) = answer.as_ref().and_then(|answer| answer.nearest.as_ref()) {
                    self.put_train(train, effects);
                }
            }
        }
    }

    fn gears_text(&mut self, field: GearsField) -> &mut String {
        let gears = &mut self.choosing.gears;
        match field {
            GearsField::Ratio => &mut gears.ratio,
            GearsField::Tolerance => &mut gears.tolerance,
            GearsField::Bin => gears.bin.get_or_insert_default(),
            GearsField::Excluded => &mut gears.excluded,
            GearsField::Module => &mut gears.module,
            GearsField::Distances => &mut gears.distances,
            GearsField::Pitch => &mut gears.pitch,
            GearsField::Slack => &mut gears.slack,
            GearsField::Largest => &mut gears.largest,
        }
    }

    fn choose_gears(&mut self, choice: GearsChoice, value: &str) {
        let gears = &mut self.choosing.gears;
        match choice {
            GearsChoice::Stages => gears.stages = value.parse().unwrap_or(gears.stages),
            GearsChoice::Sense => {
                gears.sense = match value {
                    "same" => WantedSense::Same,
                    "opposite" => WantedSense::Opposite,
                    _ => WantedSense::Any,
                };
            }
            GearsChoice::Spacing => {
                gears.spacing = match value {
                    "listed" => Spacing::Listed,
                    "bores" => Spacing::Bores,
                    _ => Spacing::Any,
                };
            }
        }
    }

    /// The gears at hand: as they are being typed where that can be read, else the layout's.
    pub(super) fn bin(&self) -> Bin {
        let typed = self
            .choosing
            .gears
            .bin
            .as_ref()
            .and_then(|text| typed::bin(text).ok());
        typed.unwrap_or_else(|| self.layout_bin())
    }

    fn layout_bin(&self) -> Bin {
        self.document
            .layout()
            .carried
            .get("bin")
            .map(Bin::read)
            .unwrap_or_default()
    }

    /// What was typed becomes the layout's bin; what can't be read stays in the field. An emptied field empties the bin.
    fn keep_bin(&mut self, effects: &mut Vec<Effect>) {
        let Some(text) = self.choosing.gears.bin.clone() else {
            return;
        };
        let bin = if text.trim().is_empty() {
            Ok(Bin::default())
        } else {
            typed::bin(&text)
        };
        if let Ok(bin) = bin {
            self.choosing.gears.bin = None;
            self.set_bin(&with_materials(bin, &self.layout_bin()), effects);
        }
    }

    fn change_bin(&mut self, teeth: u32, change: impl Fn(&mut BinEntry), effects: &mut Vec<Effect>) {
        let mut bin = with_materials(self.bin(), &self.layout_bin());
        self.choosing.gears.bin = None;
        if let Some(entry) = bin.0.iter_mut().find(|entry| entry.teeth == teeth) {
            change(entry);
        }
        bin.0.retain(|entry| entry.count != Some(0));
        self.set_bin(&bin, effects);
    }

    fn set_bin(&mut self, bin: &Bin, effects: &mut Vec<Effect>) {
        if *bin == self.layout_bin() {
            return;
        }
        let value = (!bin.0.is_empty()).then(|| bin.write());
        self.change_carried_bin(value, effects);
    }

    fn change_carried_bin(&mut self, value: Option<Value>, effects: &mut Vec<Effect>) {
        let name = "bin".to_owned();
        self.commit(Command::SetCarried { name, value }, "change the bin", effects);
    }

    /// Takes what there is of an answer, whole or not.
    pub(super) fn take_gears(&mut self, answer: &Rc<Answer>, whole: bool, effects: &mut Vec<Effect>) {
        let Answer::Gears(answer) = &**answer else {
            return;
        };
        let bin = self.bin();
        let gears = &mut self.choosing.gears;
        gears.answer = Some(Rc::new(answer.clone()));
        gears.whole = whole;
        if whole {
            let shown = answer.trains.len().min(gears.shown);
            let said = words::summary(gears.asked.as_deref(), Some(answer), true, shown, &bin);
            effects.push(Effect::Announce(said));
        }
    }

    /// Searches anew once what is asked has changed.
    pub(super) fn follow_gears(&mut self, effects: &mut Vec<Effect>) {
        let bin = self.layout_bin();
        if !bin.0.is_empty() && *self.choosing.gears.last_bin != bin {
            self.choosing.gears.last_bin = Rc::new(bin);
        }
        let job = self.gear_job();
        if job.as_ref() == self.choosing.gears.asked.as_deref() {
            return;
        }
        let gears = &mut self.choosing.gears;
        gears.asked = job.clone().map(Rc::new);
        (gears.whole, gears.shown) = (false, PAGE);
        match job {
            Some(job) => self.have_done(Tab::Gears, Job::Gears(job), effects),
            None => {
                gears.answer = None;
                self.stop_work(Tab::Gears, effects);
            }
        }
    }

    /// Where a train would go.
    fn gears_place(&self) -> Option<Place> {
        Place::find(self.document.layout(), &self.selection)
    }

    fn put_train(&mut self, train: &GearTrain, effects: &mut Vec<Effect>) {
        let layout = self.document.layout().clone();
        let Some(place) = self.gears_place() else {
            let title = format!("{} by {}", train.ratio, words::stages(train));
            let loss = self.gears_loss().0;
            let opened = alone(train, title, loss, &self.bin());
            return self.open(
                opened,
                "Opened the train as a layout of its own. Undo brings the old layout back.",
                effects,
            );
        };
        let Some((command, made)) = place.replace(&layout, train, self.gears_loss().0) else {
            return;
        };
        if self.commit(command, "put a train in", effects) {
            self.select(made.into_iter().map(Target::Element).collect());
            effects.push(Effect::Announce(words::put_in(train, &place)));
        }
    }
}

/// Materials are not typed in the field; they stay with their tooth counts.
fn with_materials(bin: Bin, before: &Bin) -> Bin {
    let material = |teeth: u32| {
        let entry = before.0.iter().find(|entry| entry.teeth == teeth);
        entry.and_then(|entry| entry.material.clone())
    };
    let entries = bin.0.into_iter().map(|entry| BinEntry {
        material: material(entry.teeth),
        ..entry
    });
    Bin(entries.collect())
}
