//! Changing what is there: something inserted, turned round, of another kind, two shafts one, one shaft two, set out anew.

use std::collections::BTreeSet;

use layshaft_layout::{Command, Element, Id};

use super::{Effect, Session};
use crate::actions::Action;
use crate::arranging::arrange;
use crate::catalogue::Kind;
use crate::drawings::Drawing;
use crate::inserting;
use crate::merging;
use crate::parts;
use crate::swapping::{self, Change, siblings};
use crate::target::Target;

/// What is put into a connection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Inserted {
    /// A gear between two gears.
    Idler,
    /// A part of its own behind it.
    Stage(Kind),
}

/// Something that can be done with what is selected, for buttons beside its fields.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// What the button does.
    pub action: Action,
    /// What it says.
    pub name: &'static str,
}

/// Another kind that could stand in the place of what is selected.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KindChoice {
    /// The kind.
    pub kind: Kind,
    /// Its name.
    pub name: &'static str,
    /// Whether it is the kind that stands there.
    pub chosen: bool,
}

impl Session {
    /// What can be done with what is selected, beside deleting and copying.
    #[must_use]
    pub fn offers(&self) -> Vec<Offer> {
        let offer = |action, name| Offer { action, name };
        let shafts = self.selected_shafts();
        let mut offers = Vec::new();
        if let Some(element) = self.selected_element() {
            let kind = Kind::of(&element.kind);
            if matches!(kind, Kind::Mesh | Kind::RingMesh) {
                offers.push(offer(Action::InsertIdler, "Insert an idler"));
            }
            if kind.port_count() == 2 {
                offers.push(offer(Action::InsertStage, "Insert a stage"));
            }
            if swapping::reversed(element).is_ok() {
                offers.push(offer(Action::Reverse, "Turn round"));
            }
        }
        if shafts.len() == 2 && self.selection.len() == 2 {
            offers.push(offer(Action::MergeShafts, "Make one shaft of two"));
        }
        if shafts.len() == 1 && self.selection.len() > 1 {
            offers.push(offer(Action::SplitShaft, "Give ends a shaft of their own"));
        }
        if shafts.len() > 2 && self.drawing == Drawing::Flow {
            offers.push(offer(Action::ArrangeSelected, "Arrange what is selected"));
        }
        offers
    }

    /// The kinds that could stand in the place of the selected element; empty where there are none.
    #[must_use]
    pub fn kind_choices(&self) -> Vec<KindChoice> {
        let Some(element) = self.selected_element() else {
            return Vec::new();
        };
        let chosen = Kind::of(&element.kind);
        let choice = |kind: &Kind| KindChoice {
            kind: *kind,
            name: kind.entry().name,
            chosen: *kind == chosen,
        };
        siblings(chosen).iter().map(choice).collect()
    }

    /// Whether an action of this file applies to what is selected.
    pub(super) fn is_offered(&self, action: &Action) -> bool {
        match action {
            Action::ChangeInto(kind) => self
                .kind_choices()
                .iter()
                .any(|choice| choice.kind == *kind && !choice.chosen),
            other => self.offers().iter().any(|offer| offer.action == *other),
        }
    }

    fn selected_element(&self) -> Option<&Element> {
        match self.selection.last() {
            Some(Target::Element(id)) => self.shown.element(id),
            _ => None,
        }
    }

    fn selected_shafts(&self) -> Vec<Id> {
        let shafts = self.selection.iter().filter_map(|target| match target {
            Target::Shaft(id) => Some(id.clone()),
            _ => None,
        });
        shafts.collect()
    }

    fn selected_elements(&self) -> Vec<Id> {
        let elements = self.selection.iter().filter_map(|target| match target {
            Target::Element(id) => Some(id.clone()),
            _ => None,
        });
        elements.collect()
    }

    /// Says why something can't be done; nothing else happens.
    fn refuse(effects: &mut Vec<Effect>, message: &mut Option<super::Message>, text: String) {
        effects.push(Effect::Announce(text.clone()));
        *message = Some(super::Message {
            text,
            lines: Vec::new(),
            is_error: true,
        });
    }

    /// Makes a change and says what came of it, or why not.
    fn rework(&mut self, outcome: Result<Change, String>, effects: &mut Vec<Effect>) -> bool {
        match outcome {
            Ok(change) => {
                let done = self.commit(change.command, &change.name, effects);
                if done {
                    self.message = None;
                    self.say_with_result(&change.spoken, effects);
                }
                done
            }
            Err(text) => {
                Self::refuse(effects, &mut self.message, text);
                false
            }
        }
    }

    /// Puts something into the selected connection and opens its numbers.
    pub(super) fn insert(&mut self, what: Inserted, effects: &mut Vec<Effect>) {
        match self.selected_element().map(|element| element.id.clone()) {
            Some(id) => self.insert_into(&id, what, effects),
            None => Self::refuse(
                effects,
                &mut self.message,
                "Select the mesh, chain or belt that something is to be inserted into".to_owned(),
            ),
        }
    }

    pub(super) fn insert_into(&mut self, id: &Id, what: Inserted, effects: &mut Vec<Effect>) {
        let layout = self.document.layout().clone();
        let Some(element) = layout.element(id) else { return };
        let planned = match what {
            Inserted::Idler => inserting::idler(&layout, element),
            Inserted::Stage(kind) => inserting::stage(&layout, element, kind),
        };
        let new = planned.as_ref().ok().map(|planned| planned.element.clone());
        let outcome = planned.map(|planned| Change {
            command: planned.command,
            name: planned.name,
            spoken: planned.spoken,
        });
        if self.rework(outcome, effects)
            && let Some(new) = new
        {
            let target = Target::Element(new.clone());
            self.select(vec![target.clone()]);
            self.show_target(&target);
            effects.push(Effect::Focus(target.clone()));
            self.placed_last = Some(new.clone());
            self.open_numbers(&new, target, effects);
        }
    }

    /// Turns all selected elements round, as one change.
    pub(super) fn reverse(&mut self, effects: &mut Vec<Effect>) {
        let ids = self.selected_elements();
        let turned: Result<Vec<(Element, String)>, String> = ids
            .iter()
            .filter_map(|id| self.document.layout().element(id))
            .map(swapping::reversed)
            .collect();
        let outcome = turned.and_then(|turned| {
            if turned.is_empty() {
                return Err("Select the part that is to be turned round".to_owned());
            }
            let (elements, words): (Vec<Element>, Vec<String>) = turned.into_iter().unzip();
            let names: Vec<String> = elements.iter().map(|element| element.id.to_string()).collect();
            let commands = elements
                .into_iter()
                .map(|element| Command::ReplaceElement { element });
            Ok(Change {
                command: Command::Batch(commands.collect()),
                name: format!("turn {} round", parts::list(&names)),
                spoken: words.join("; "),
            })
        });
        self.rework(outcome, effects);
    }

    pub(super) fn change_into(&mut self, kind: Kind, effects: &mut Vec<Effect>) {
        let outcome = match self.selected_element() {
            Some(element) => swapping::change_kind(self.document.layout(), element, kind, &self.position),
            None => Err("Select the part that is to be of another kind".to_owned()),
        };
        self.rework(outcome, effects);
    }

    /// The shaft selected first stays.
    pub(super) fn merge_shafts(&mut self, effects: &mut Vec<Effect>) {
        let shafts = self.selected_shafts();
        let outcome = match &shafts[..] {
            [keep, gone] => merging::merge(self.document.layout(), keep, gone),
            _ => Err("Select two shafts to make one of them".to_owned()),
        };
        self.clear_overlay();
        if self.rework(outcome, effects)
            && let Some(keep) = shafts.into_iter().next()
        {
            self.joined_from = None;
            self.go_to(Target::Shaft(keep), false, effects);
        }
    }

    pub(super) fn split_shaft(&mut self, effects: &mut Vec<Effect>) {
        let elements = self.selected_elements();
        let split = match &self.selected_shafts()[..] {
            [shaft] => merging::split(self.document.layout(), shaft, &elements),
            _ => Err("Select one shaft and the parts on it that are to get a shaft of their own".to_owned()),
        };
        let new = split.as_ref().ok().map(|(_, id)| id.clone());
        if self.rework(split.map(|(change, _)| change), effects)
            && let Some(new) = new
        {
            self.go_to(Target::Shaft(new), false, effects);
        }
    }

    /// The selected shafts, and those of selected elements.
    pub(super) fn arrange_selected(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout().clone();
        let mut only: BTreeSet<Id> = self.selected_shafts().into_iter().collect();
        for element in self
            .selected_elements()
            .iter()
            .filter_map(|id| layout.element(id))
        {
            let on = element.ports().into_iter().map(|(_, on)| on.clone());
            only.extend(on.filter(|on| !on.is_frame()));
        }
        if only.len() < 2 {
            let text = "Select two shafts or more, or parts between them, to set them out anew";
            Self::refuse(effects, &mut self.message, text.to_owned());
            return;
        }
        let drive = self.computed.report().drive.clone();
        let arranged = arrange(&layout, drive.as_ref(), Some(&only));
        let count = arranged.shafts.len();
        let name = format!("arrange {count} shafts");
        if self.commit(arranged.command(), &name, effects) {
            effects.push(Effect::Announce(format!("{count} shafts set out anew")));
        }
    }
}
