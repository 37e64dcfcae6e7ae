//! Arrangements with two speeds: asked for from a finding, found, put on the bench, taken back.

use std::rc::Rc;

use layshaft_choose::task::carry_out;

use super::*;
use crate::choosing::two_speeds::{TwoSpeedsField, WantedBy};
use crate::choosing::{ChooseInput, News, Part, Tab, TwoSpeedsInput, TwoSpeedsSheet};

impl Script {
    fn two_speeds(&mut self, input: TwoSpeedsInput) -> &mut Self {
        self.input(Input::Choose(ChooseInput::TwoSpeeds(input)))
    }

    /// Does the work that was asked for, as the page would; false where none was.
    fn work(&mut self) -> bool {
        let asked = self.effects.iter().find_map(|effect| match effect {
            Effect::Compute { number, job } => Some((*number, job.clone())),
            _ => None,
        });
        let Some((number, job)) = asked else {
            return false;
        };
        let news = match carry_out(&job) {
            Ok(answer) => News::Done(Rc::new(answer)),
            Err(problem) => News::Failed(problem.to_string()),
        };
        self.input(Input::Choose(ChooseInput::News(number, news)));
        true
    }

    fn sheet(&self) -> Rc<TwoSpeedsSheet> {
        match self.session.choose_sheet().part {
            Part::TwoSpeeds(sheet) => sheet,
            other => panic!("another part is shown: {other:?}"),
        }
    }

    /// The cart with what was found for it.
    fn cart_with_arrangements() -> Self {
        let mut script = Self::demo("trail-cart-a");
        let repair = script.session.headline().repair.expect("it leads somewhere");
        script.input(*repair.input);
        assert!(script.work());
        script
    }
}

#[test]
fn the_finding_that_lower_pulls_less_leads_to_what_can_be_built() {
    let script = Script::cart_with_arrangements();
    let sheet = script.sheet();
    let texts: Vec<&str> = sheet
        .wanted
        .iter()
        .map(|(_, entry)| entry.text.as_str())
        .collect();
    assert_eq!(texts, ["1/16", "1/12"]);
    let found = sheet.found.as_ref().expect("arrangements");
    assert_eq!(found.lead.split(':').next(), Some("Two gear pairs side by side"));
    assert_eq!(found.rows[0].figures[0].gain.as_deref(), Some("+75\u{202f}%"));
    assert!(found.rows[0].catches.is_empty(), "{:?}", found.rows[0].catches);
    let worm = found
        .rows
        .iter()
        .find(|row| row.name.ends_with("worm"))
        .expect("a worm");
    assert!(worm.catches[0].starts_with("Low pulls"), "{:?}", worm.catches);
}

#[test]
fn an_arrangement_goes_on_the_bench_and_undo_takes_it_back() {
    let mut script = Script::cart_with_arrangements();
    let before = script.sheet();
    script.two_speeds(TwoSpeedsInput::Open(0));
    assert!(!script.work(), "what was found stays as it is");
    assert_eq!(script.sheet().on_bench, Some(0));
    assert_eq!(script.sheet().found, before.found);
    assert!(script.session.headline().headline.starts_with("Low climbs"));
    assert_eq!(
        script.session.layout().title,
        "Trail cart, two gear pairs side by side"
    );
    script.act(Action::Undo);
    assert!(!script.work());
    assert_eq!(script.sheet().on_bench, None);
    assert!(script.session.headline().headline.starts_with("Second pulls"));
}

#[test]
fn what_is_typed_is_asked_for_at_once_and_mistakes_are_named() {
    let mut script = Script::cart_with_arrangements();
    script.two_speeds(TwoSpeedsInput::Type(TwoSpeedsField::Low, "1/24".to_owned()));
    assert!(script.work());
    let found = script.sheet().found.clone().expect("arrangements");
    assert!(
        found.rows[0].facts[0].1.contains("1/24"),
        "{:?}",
        found.rows[0].facts
    );
    script.two_speeds(TwoSpeedsInput::Type(TwoSpeedsField::Low, "24:1".to_owned()));
    assert!(!script.work());
    let problem = script.sheet().wanted[0]
        .1
        .problem
        .clone()
        .expect("it can be read both ways");
    assert!(problem.contains("both ways"), "{problem}");
    script.two_speeds(TwoSpeedsInput::AsNow);
    assert!(script.work());
    assert_eq!(script.sheet().wanted[0].1.text, "1/16");
}

#[test]
fn pull_and_speed_begin_with_what_the_layout_reaches() {
    let mut script = Script::cart_with_arrangements();
    script.two_speeds(TwoSpeedsInput::By(WantedBy::PullAndSpeed));
    assert!(script.work());
    let sheet = script.sheet();
    let texts: Vec<&str> = sheet
        .wanted
        .iter()
        .map(|(_, entry)| entry.text.as_str())
        .collect();
    assert_eq!(texts, ["4.29", "0.982"]);
    assert!(sheet.found.as_ref().is_some_and(|found| found.rows[0].reaches));
}

#[test]
fn a_changed_layout_is_asked_about_anew() {
    let mut script = Script::cart_with_arrangements();
    script.act(Action::OpenDemo("granary-hoist-stages"));
    assert!(script.work());
    let sheet = script.sheet();
    assert_eq!(sheet.wanted[1].1.text, "1/12");
    assert_eq!(
        sheet
            .found
            .as_ref()
            .and_then(|found| found.present.clone())
            .map(|row| row.name),
        Some(script.session.layout().title.clone())
    );
    script
        .act(Action::EmptyBench)
        .input(Input::Choose(ChooseInput::Show(Tab::TwoSpeeds)));
    assert!(script.sheet().empty.is_some());
}
