//! Variants side by side: kept, added from undo, demos and files, put on the bench. Their plot is in `plot`.

mod plot;

use std::rc::Rc;

use layshaft_layout::{Id, decode};

use crate::choosing::compare::{Kept, MOST, Side, Variant, VariantNumber, sheet};
use crate::choosing::{Choice, ChoiceOption, CompareInput, CompareSheet};
use crate::demos::{DEMOS, demo};
use crate::session::{Effect, Session};
use crate::wording;

/// How many changes back are offered.
const MOST_BACK: usize = 12;

/// Values in the list of what can be added: a head, and what it is followed by.
const BENCH: &str = "bench:";
const BACK: &str = "back:";
const BEFORE: &str = "before:";
const DEMO: &str = "demo:";

impl Session {
    pub(super) fn compare_input(&mut self, input: CompareInput, effects: &mut Vec<Effect>) {
        self.choosing.compare.problem = None;
        match input {
            CompareInput::Pick(value) => self.choosing.compare.picked = value,
            CompareInput::Add => self.add_picked(effects),
            CompareInput::Keep => self.keep_bench(effects),
            CompareInput::AddFile { text, name } => self.add_file(&text, &name, effects),
            CompareInput::Remove(number) => self.remove_variant(number, effects),
            CompareInput::Rename(number, name) => {
                let typed = Some(name).filter(|name| !name.trim().is_empty());
                self.change_variant(number, |variant| variant.typed = typed);
            }
            CompareInput::Position(number, id) => {
                let position = (!id.is_empty()).then(|| Id::from(&id));
                self.change_variant(number, |variant| variant.position = position);
            }
            CompareInput::Base(number) => self.choosing.compare.base = Some(number),
            CompareInput::PutOnBench(number) => self.put_on_bench(number, effects),
            CompareInput::Over(code) => self.plot_over(&code),
            CompareInput::Show(code) => self.plot_result(&code),
            CompareInput::End(which, text) => self.plot_to(which, text),
        }
    }

    pub(super) fn compare_sheet(&self) -> CompareSheet {
        let state = &self.choosing.compare;
        let sides = self.sides();
        let sheet = sheet(
            &sides,
            self.addable(),
            state.base,
            state.problem.as_ref(),
            self.hide_answers,
            self.units,
        );
        CompareSheet {
            plot: self.compare_plot(&sides),
            ..sheet
        }
    }

    fn sides(&self) -> Vec<Side<'_>> {
        let variants = &self.choosing.compare.variants;
        variants.iter().map(|variant| self.side(variant)).collect()
    }

    fn side<'a>(&'a self, variant: &'a Variant) -> Side<'a> {
        match &variant.kept {
            Some(kept) => Side {
                variant,
                layout: &kept.layout,
                report: &kept.report,
                problem: kept.problem.clone(),
            },
            None => Side {
                variant,
                layout: &self.shown,
                report: self.computed.report(),
                problem: self
                    .computed
                    .errors()
                    .first()
                    .map(|error| wording::report_error(error, &self.shown).headline),
            },
        }
    }

    /// All that can be added: positions of the bench, states before the last changes, layouts that lay on the bench, demos.
    fn addable(&self) -> Choice {
        let mut options = Vec::new();
        let mut add = |group: &str, value: String, name: String| {
            options.push(ChoiceOption {
                group: group.to_owned(),
                value,
                name,
                chosen: false,
            });
        };
        let positions = self.positions();
        if positions.len() > 1 {
            for (id, name) in positions {
                add(
                    "On the bench",
                    format!("{BENCH}{id}"),
                    format!("The bench in {name}"),
                );
            }
        }
        for (back, change) in self
            .document
            .done_names()
            .iter()
            .rev()
            .take(MOST_BACK)
            .enumerate()
        {
            let name = wording::before_change(change);
            add("Earlier", format!("{BACK}{}", back + 1), name);
        }
        for (n, document) in self.before.iter().enumerate().rev().take(MOST_BACK) {
            let name = wording::bench_before(&document.layout().title);
            add("Earlier", format!("{BEFORE}{n}"), name);
        }
        for demo in &DEMOS {
            add("Demos", format!("{DEMO}{}", demo.id), demo.name.to_owned());
        }
        let picked = self.picked(&options);
        if let Some(option) = options.get_mut(picked) {
            option.chosen = true;
        }
        Choice {
            key: "compare-add".to_owned(),
            label: "Add a column".to_owned(),
            options,
            hint: String::new(),
        }
    }

    /// Which of the options is picked; the first where what was picked is gone.
    fn picked(&self, options: &[ChoiceOption]) -> usize {
        let picked = &self.choosing.compare.picked;
        let is_picked = |option: &ChoiceOption| option.value == *picked;
        options.iter().position(is_picked).unwrap_or(0)
    }

    fn add_picked(&mut self, effects: &mut Vec<Effect>) {
        let choice = self.addable();
        let Some(option) = choice.options.into_iter().find(|option| option.chosen) else {
            return;
        };
        let (value, name) = (option.value, option.name);
        let mut variant = Variant::default();
        if let Some(id) = value.strip_prefix(BENCH) {
            variant.position = Some(Id::from(id));
        } else if let Some(back) = value.strip_prefix(BACK).and_then(|back| back.parse().ok()) {
            let layout = self.document.steps_back(back);
            variant.kept = Some(Rc::new(Kept::older(name, layout)));
        } else if let Some(n) = value.strip_prefix(BEFORE).and_then(|n| n.parse::<usize>().ok()) {
            let layout = self.before.get(n).map(|document| document.layout().clone());
            variant.kept = layout.map(|layout| Rc::new(Kept::older(layout.title.clone(), layout)));
        } else if let Some(demo) = value.strip_prefix(DEMO).and_then(demo) {
            let layout = decode(demo.text).ok();
            variant.kept = layout.map(|layout| Rc::new(Kept::new(demo.name.to_owned(), Rc::new(layout))));
        }
        self.add_variant(variant, effects);
    }

    fn keep_bench(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout().clone();
        let kept = Kept::older(self.free_name(&layout.title), layout);
        let variant = Variant {
            kept: Some(Rc::new(kept)),
            ..Variant::default()
        };
        self.add_variant(variant, effects);
    }

    fn add_file(&mut self, text: &str, name: &str, effects: &mut Vec<Effect>) {
        match decode(text) {
            Ok(layout) => {
                let title = if layout.title.is_empty() {
                    name
                } else {
                    &layout.title
                };
                let kept = Kept::new(title.to_owned(), Rc::new(layout));
                let variant = Variant {
                    kept: Some(Rc::new(kept)),
                    ..Variant::default()
                };
                self.add_variant(variant, effects);
            }
            Err(errors) => {
                let first = errors.first().map_or_else(String::new, ToString::to_string);
                let problem = wording::unreadable_variant(name, &first);
                effects.push(Effect::Announce(problem.clone()));
                self.choosing.compare.problem = Some(problem);
            }
        }
    }

    /// A name that no variant has yet: with a number behind it where there is one.
    fn free_name(&self, title: &str) -> String {
        let title = if title.is_empty() { "Untitled" } else { title };
        let taken = |name: &str| {
            let variants = &self.choosing.compare.variants;
            variants.iter().any(|variant| variant.name() == name)
        };
        if !taken(title) {
            return title.to_owned();
        }
        let numbered = (2..=MOST + 1).map(|n| format!("{title} ({n})"));
        numbered
            .into_iter()
            .find(|name| !taken(name))
            .unwrap_or_else(|| title.to_owned())
    }

    fn add_variant(&mut self, variant: Variant, effects: &mut Vec<Effect>) {
        let state = &mut self.choosing.compare;
        if state.variants.len() >= MOST {
            return;
        }
        state.last_number += 1;
        let number = VariantNumber(state.last_number);
        let added = format!("Added: {}", variant.name());
        Rc::make_mut(&mut state.variants).push(Variant { number, ..variant });
        effects.push(Effect::Announce(added));
    }

    fn remove_variant(&mut self, number: VariantNumber, effects: &mut Vec<Effect>) {
        let variants = Rc::make_mut(&mut self.choosing.compare.variants);
        if variants.len() > 1 {
            variants.retain(|variant| variant.number != number);
            effects.push(Effect::Announce("Taken away".to_owned()));
        }
    }

    fn change_variant(&mut self, number: VariantNumber, change: impl FnOnce(&mut Variant)) {
        let variants = Rc::make_mut(&mut self.choosing.compare.variants);
        if let Some(variant) = variants.iter_mut().find(|variant| variant.number == number) {
            change(variant);
        }
    }

    /// Puts a kept variant on the bench, in the position looked at; undo brings back what lay there.
    fn put_on_bench(&mut self, number: VariantNumber, effects: &mut Vec<Effect>) {
        let variants = self.choosing.compare.variants.clone();
        let variant = variants.iter().find(|variant| variant.number == number);
        let Some((variant, kept)) = variant.and_then(|variant| Some((variant, variant.kept.as_ref()?)))
        else {
            return;
        };
        self.close_edit(effects);
        self.give_up_gesture(effects);
        let announced = format!(
            "{} is on the bench. Undo brings the old layout back.",
            variant.name()
        );
        self.open((*kept.layout).clone(), &announced, effects);
        if let Some(position) = &variant.position {
            self.show_position(position.clone(), effects);
        }
    }
}
