//! Varying inputs: the trail cart's branch, carrying the mark, following changes, maps.

use std::rc::Rc;

use layshaft_choose::task::{Job, carry_out};

use super::*;
use crate::chart::Carry;
use crate::choosing::{ChooseInput, News, Part, SweepInput, SweepSheet, Tab, WorkNumber};

fn sweep(input: SweepInput) -> Input {
    Input::Choose(ChooseInput::Sweep(input))
}

impl Script {
    fn asked(&self) -> Option<(WorkNumber, Rc<Job>)> {
        self.effects.iter().find_map(|effect| match effect {
            Effect::Compute { number, job } => Some((*number, job.clone())),
            _ => None,
        })
    }

    /// Carries out what was asked for, as the page does.
    fn compute(&mut self) -> &mut Self {
        let (number, job) = self.asked().expect("work was asked for");
        let answer = carry_out(&job).expect("it can be done");
        self.input(Input::Choose(ChooseInput::News(
            number,
            News::Done(Rc::new(answer)),
        )))
    }

    fn vary(&mut self, path: &str) -> &mut Self {
        self.input(Input::Choose(ChooseInput::Show(Tab::Sweep)));
        self.compute();
        self.input(sweep(SweepInput::Choose(path.to_owned())));
        if self.asked().is_some() {
            self.compute()
        } else {
            self
        }
    }

    fn sweep_sheet(&self) -> Rc<SweepSheet> {
        match self.session.choose_sheet().part {
            Part::Sweep(sheet) => sheet,
            other => panic!("another part is shown: {other:?}"),
        }
    }
}

fn text(script: &Script, field: &FieldRef) -> String {
    crate::fields::current_text(script.session.layout(), field)
}

#[test]
fn the_trail_carts_branch_is_varied_first_and_the_answer_is_said() {
    let mut script = Script::demo("trail-cart-a");
    script
        .input(Input::Choose(ChooseInput::Show(Tab::Sweep)))
        .compute();
    let sheet = script.sweep_sheet();
    assert_eq!(
        sheet.verdict,
        [
            "Second climbs most at 0.0200, the end of the range (15.5°), still less than First (16.5°).",
            "Second, plain gears, climbs most from 0.262 on (38.7°, as far as the wheels grip), more than First (16.5°); \
             at 0.333 it stands still, and beyond that it runs backwards. \
             There it does 0.222\u{202f}m/s on the level, First 0.982\u{202f}m/s.",
            "Plain gears don't hold branch: First then needs a brake on branch.",
        ]
    );
    assert_eq!(script.announced(), sheet.verdict.join(" "));
    let chart = sheet.chart.as_ref().expect("a plot");
    let names: Vec<&str> = chart.spec.lines.iter().map(|line| line.name.as_str()).collect();
    assert_eq!(names, ["Second, plain gears", "Second", "First"]);
    assert_eq!(chart.spec.below.len(), 1, "what a climb costs in speed");
    assert!(chart.present.is_some() && sheet.gears.is_some());
}

#[test]
fn carrying_the_mark_of_a_field_is_one_change_and_asks_for_nothing_new() {
    let mut script = Script::demo("trail-cart-a");
    let first = teeth("g1", 0);
    script.vary("elements.g1.teeth.0");
    for to in [13.2, 14.8, 16.0] {
        script.input(sweep(SweepInput::Carry(Carry::To(to))));
        assert!(script.asked().is_none(), "nothing else would come of it");
    }
    assert_eq!(text(&script, &first), "16");
    assert!(script.sweep_sheet().carried.ends_with("now 16"));
    script.input(sweep(SweepInput::Carry(Carry::Keep)));
    assert_eq!(text(&script, &first), "16");
    script.act(Action::Undo);
    assert_eq!(text(&script, &first), "12");
    script.input(sweep(SweepInput::Carry(Carry::By(1))));
    script.input(sweep(SweepInput::Carry(Carry::Back)));
    assert_eq!(text(&script, &first), "12");
}

#[test]
fn the_picture_follows_the_layout_but_work_that_gave_nothing_is_let_go_on() {
    let mut script = Script::demo("trail-cart-a");
    script.vary("elements.cart.mass_kg");
    let before = script.sweep_sheet().chart.clone();
    let teeth = teeth("g1", 0);
    script.type_into(&teeth, "14");
    let (number, job) = script.asked().expect("another layout is another question");
    assert!(script.sweep_sheet().chart.is_some(), "the old picture stays");
    script.type_into(&teeth, "15");
    assert!(script.asked().is_none(), "the first is let go on");
    let answer = Rc::new(carry_out(&job).expect("it can be done"));
    script.input(Input::Choose(ChooseInput::News(number, News::Done(answer))));
    assert!(script.asked().is_some(), "then the next is asked for");
    script.compute();
    assert_ne!(script.sweep_sheet().chart, before);
}

#[test]
fn moving_a_symbol_asks_for_nothing() {
    let mut script = Script::demo("trail-cart-a");
    script.vary("elements.cart.mass_kg");
    script.act(Action::Arrange);
    assert!(script.asked().is_none());
}

#[test]
fn a_ratio_that_was_carried_is_looked_for_among_the_gears() {
    let mut script = Script::demo("trail-cart-a");
    script.vary("elements.wg.ratio");
    script.input(sweep(SweepInput::Carry(Carry::To(0.3))));
    let sheet = script.sweep_sheet();
    assert_eq!(sheet.gears.as_deref(), Some("Find gears for 0.300"));
    assert!(
        sheet.carried.contains("tried at 0.300: First 16.5°, "),
        "{}",
        sheet.carried
    );
    assert!(sheet.tried.is_some() && sheet.back == "Back to now (0.0833)");
    assert_eq!((sheet.keep.as_str(), sheet.gears_why.as_str()), ("", ""));
    script.input(sweep(SweepInput::FindGears));
    assert_eq!(script.session.choose_sheet().tab, Tab::Gears);
}

#[test]
fn gears_are_looked_for_where_a_stretch_begins() {
    let mut script = Script::demo("trail-cart-a");
    script
        .input(Input::Choose(ChooseInput::Show(Tab::Sweep)))
        .compute();
    let sheet = script.sweep_sheet();
    assert_eq!(
        sheet.gears.as_deref(),
        Some("Find gears for 0.268 ±\u{202f}2\u{202f}%")
    );
    assert!(
        sheet.gears_why.contains("begins to go as far as the wheels grip"),
        "{}",
        sheet.gears_why
    );
}

#[test]
fn a_tried_value_goes_with_the_layout_it_was_tried_in() {
    let mut script = Script::demo("trail-cart-a");
    let tries = |script: &Script| script.sweep_sheet().tried.is_some();
    script.vary("elements.wg.ratio");
    script.input(sweep(SweepInput::Carry(Carry::To(0.3))));
    script.input(sweep(SweepInput::Carry(Carry::Keep)));
    script.input(sweep(SweepInput::Carry(Carry::To(0.4))));
    script.input(sweep(SweepInput::Carry(Carry::Back)));
    assert!(
        script.sweep_sheet().carried.contains("tried at 0.300"),
        "what breaks a gesture off undoes that gesture"
    );
    script.act(Action::Arrange);
    assert!(tries(&script), "places of symbols are no other layout");
    script.type_into(&teeth("g1", 0), "14");
    assert!(!tries(&script));
    script.input(sweep(SweepInput::Carry(Carry::By(3))));
    assert!(tries(&script));
    script.input(sweep(SweepInput::Choose("elements.cart.mass_kg".to_owned())));
    assert!(!tries(&script));
}

#[test]
fn several_numbers_stand_in_plots_of_their_units() {
    let mut script = Script::demo("trail-cart-a");
    script.vary("elements.cart.mass_kg");
    script
        .input(sweep(SweepInput::Look("stall.pull_n".to_owned(), true)))
        .compute();
    let chart = script.sweep_sheet().chart.clone().expect("a plot");
    let units: Vec<&str> = chart
        .spec
        .below
        .iter()
        .map(|panel| panel.up.unit.as_str())
        .collect();
    assert_eq!((chart.spec.up.unit.as_str(), units), ("°", vec!["N", "m/s"]));
}

#[test]
fn a_second_input_makes_a_map() {
    let mut script = Script::demo("trail-cart-a");
    script.vary("elements.cart.mass_kg");
    script.input(sweep(SweepInput::Also("elements.g1.teeth.0".to_owned())));
    let (_, job) = script.asked().expect("a map");
    assert!(matches!(*job, Job::Map(_)));
    script.compute();
    let sheet = script.sweep_sheet();
    let map = sheet.map.as_ref().expect("a map");
    assert_eq!(map.spec.rows.first(), Some(&6.0));
    assert_eq!(map.spec.rows.len(), map.spec.values.len());
    assert!(
        sheet.verdict[0].contains(" climbs most (") && sheet.verdict[0].contains("mass (cart) "),
        "{:?}",
        sheet.verdict
    );
    script.input(sweep(SweepInput::Also(String::new()))).compute();
    assert!(script.sweep_sheet().chart.is_some() && script.sweep_sheet().map.is_none());
}

#[test]
fn what_is_typed_wrongly_stays_in_its_field() {
    let mut script = Script::demo("trail-cart-a");
    script.vary("elements.wg.ratio");
    let field = crate::choosing::sweep::SweepField::Plain;
    script.input(sweep(SweepInput::Type(field, "1.2".to_owned())));
    let entry = |script: &Script| {
        let sheet = script.sweep_sheet();
        sheet
            .fields
            .iter()
            .find(|(own, _)| *own == field)
            .map(|(_, entry)| entry.clone())
    };
    let wrong = entry(&script).expect("a worm can be compared with plain gears");
    assert_eq!((wrong.text.as_str(), wrong.problem.is_some()), ("1.2", true));
    assert!(script.asked().is_none());
    script.input(sweep(SweepInput::Type(field, String::new())));
    script.compute();
    assert_eq!(script.sweep_sheet().verdict.len(), 1);
}

#[test]
fn numbers_are_found_by_words_and_varied_from_their_fields() {
    let mut script = Script::demo("trail-cart-a");
    script.input(Input::Choose(ChooseInput::Show(Tab::Sweep)));
    script.input(sweep(SweepInput::Find("teeth g1".to_owned())));
    let found = script.sweep_sheet().found.clone();
    let paths: Vec<&str> = found.iter().map(|(path, _)| path.as_str()).collect();
    assert_eq!(paths, ["elements.g1.teeth.0", "elements.g1.teeth.1"]);
    script.input(Input::Select {
        targets: vec![Target::Element(Id::from("cart"))],
        add: false,
        position: None,
    });
    let details = script.session.details().expect("the cart");
    let mass = details
        .fields
        .iter()
        .find_map(crate::Field::varied)
        .expect("its mass");
    script.input(sweep(SweepInput::Vary(mass)));
    assert!(
        script
            .sweep_sheet()
            .inputs
            .options
            .iter()
            .any(|option| option.chosen && option.name.starts_with("Mass"))
    );
}

#[test]
fn an_empty_bench_says_what_to_do() {
    let mut script = Script::empty();
    script.input(Input::Choose(ChooseInput::Show(Tab::Sweep)));
    assert!(script.asked().is_none());
    assert!(script.sweep_sheet().empty.starts_with("Put a drive"));
}
