//! The gear search: the bin, what is wanted, and putting a train into the layout.
//!
//! What is asked of the search is made in [`asking`], what is shown in [`showing`] and [`found`]; [`putting`] puts a train
//! into the layout and says what became of it.

mod asking;
mod found;
mod putting;
mod showing;

use std::rc::Rc;

use layshaft_choose::gears::{Bin, BinEntry, WantedSense, typed};
use layshaft_layout::Command;
use serde_json::Value;

use crate::choosing::gears::place::Place;
use crate::choosing::gears::wish::Wish;
use crate::choosing::gears::{COMMON, PAGE};
use crate::choosing::{
    Answer, GearsChoice, GearsField, GearsInput, GearsSwitch, Job, OfferedBin, Spacing, Tab, Typed,
};
use crate::demos::DEMOS;
use crate::session::{Effect, Session};
use crate::target::Target;
use crate::wording::choosing_gears::{self as words, Search};

/// The name of the step that changes the bin.
const CHANGE_BIN: &str = "change the bin";
/// More of one gear than this nobody counts.
const MOST_COUNTED: u32 = 99;

impl Session {
    pub(super) fn gears_input(&mut self, input: GearsInput, effects: &mut Vec<Effect>) {
        match input {
            GearsInput::Want {
                ratio,
                replaces,
                tolerance,
            } => {
                self.choosing.gears.ratio = Wish::text_of(ratio);
                if let Some(share) = tolerance.filter(|share| share.is_finite() && *share >= 0.0) {
                    self.choosing.gears.tolerance = words::tolerance(share);
                }
                if let Some(id) = replaces {
                    self.select(vec![Target::Element(id)]);
                }
                self.show_choosing(Tab::Gears, effects);
            }
            GearsInput::Type(GearsField::Bin, text) => self.type_bin(text),
            GearsInput::Type(field, text) => self.type_gears(field, text),
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
            GearsInput::ShowPairings(train) => drop(self.choosing.gears.unfolded.insert(train)),
            GearsInput::SearchAgain => self.choosing.gears.asked = None,
            GearsInput::PutIn(index) => self.put_found(effects, |answer| answer.trains.get(index)),
            GearsInput::PutPairingIn(index, pairing) => self.put_found(effects, |answer| {
                answer
                    .trains
                    .get(index)
                    .or(answer.nearest.as_ref())
                    .and_then(|train| train.pairings.get(pairing))
            }),
            GearsInput::PutNearestIn => self.put_found(effects, |answer| answer.nearest.as_ref()),
        }
    }

    fn type_gears(&mut self, field: GearsField, text: String) {
        let units = self.units;
        let gears = &mut self.choosing.gears;
        let length = |of: &mut Typed, text| *of = Typed::new(text, units);
        match field {
            GearsField::Ratio => gears.ratio = text,
            GearsField::Tolerance => gears.tolerance = text,
            GearsField::Bin => gears.bin = Some(text),
            GearsField::Excluded => gears.excluded = text,
            GearsField::Module => length(&mut gears.module, text),
            GearsField::Distances => length(&mut gears.distances, text),
            GearsField::Pitch => length(&mut gears.pitch, text),
            GearsField::Slack => length(&mut gears.slack, text),
            GearsField::Largest => gears.largest = text,
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

    /// The bin is being typed; as long as it can't be read, the last one that could counts.
    fn type_bin(&mut self, text: String) {
        let gears = &mut self.choosing.gears;
        if let Ok(bin) = typed_bin(&text) {
            gears.read_bin = Some(Rc::new(bin));
        }
        gears.bin = Some(text);
    }

    /// The gears at hand: as they are being typed where that can be read, else the layout's.
    pub(super) fn bin(&self) -> Bin {
        let gears = &self.choosing.gears;
        let typed = gears.read_bin.as_ref().filter(|_| gears.bin.is_some());
        typed.map_or_else(|| self.layout_bin(), |bin| (**bin).clone())
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
        if let Ok(bin) = typed_bin(&text) {
            self.forget_typed_bin();
            self.set_bin(&with_materials(bin, &self.layout_bin()), effects);
        }
    }

    fn forget_typed_bin(&mut self) {
        (self.choosing.gears.bin, self.choosing.gears.read_bin) = (None, None);
    }

    fn change_bin(&mut self, teeth: u32, change: impl Fn(&mut BinEntry), effects: &mut Vec<Effect>) {
        let mut bin = with_materials(self.bin(), &self.layout_bin());
        self.forget_typed_bin();
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
        self.commit(Command::SetCarried { name, value }, CHANGE_BIN, effects);
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
            let said = words::summary(gears.asked.as_deref(), Some(answer), Search::Whole, shown, &bin);
            effects.push(Effect::Announce(said));
        }
    }

    /// Searches anew once what is asked has changed.
    pub(super) fn follow_gears(&mut self, effects: &mut Vec<Effect>) {
        let bin = self.layout_bin();
        if !bin.0.is_empty() && *self.choosing.gears.last_bin != bin {
            self.choosing.gears.example = came_with_a_demo(&bin);
            self.choosing.gears.last_bin = Rc::new(bin);
        }
        self.fill_ratio();
        let job = self.gear_job();
        if job.as_ref() == self.choosing.gears.asked.as_deref() {
            return;
        }
        let gears = &mut self.choosing.gears;
        gears.asked = job.clone().map(Rc::new);
        (gears.whole, gears.shown) = (false, PAGE);
        gears.unfolded.clear();
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

    /// Fills in the ratio of what is selected, once, as long as no ratio is typed.
    fn fill_ratio(&mut self) {
        let Some(place) = self.gears_place() else {
            return;
        };
        let gears = &mut self.choosing.gears;
        if gears.filled != place.meshes {
            gears.filled.clone_from(&place.meshes);
            if gears.ratio.trim().is_empty()
                && let Some(ratio) = place.ratio(self.document.layout())
            {
                gears.ratio = Wish { ratio }.text();
            }
        }
    }
}

/// What is typed as a bin; nothing is an empty one.
fn typed_bin(text: &str) -> Result<Bin, typed::TypedProblem> {
    if text.trim().is_empty() {
        return Ok(Bin::default());
    }
    typed::bin(text)
}

/// Whether a bin is an example.
fn came_with_a_demo(bin: &Bin) -> bool {
    let bins = DEMOS.iter().filter_map(|demo| {
        let file: Value = serde_json::from_str(demo.text).ok()?;
        Some(Bin::read(file.get("bin")?))
    });
    bins.into_iter().any(|of_demo| of_demo == *bin)
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
