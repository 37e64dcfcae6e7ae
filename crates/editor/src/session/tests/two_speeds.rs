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
    assert!(
        found
            .lead
            .starts_with("Two gear pairs, the low one through a one-way clutch: 75"),
        "{}",
        found.lead
    );
    assert_eq!(found.rows[0].figures[0].gain.as_deref(), Some("+75\u{202f}%"));
    assert_eq!(found.rows[0].why, None);
    assert!(found.columns[2].ends_with("on the level"));
    let present = found.present.as_ref().expect("the cart moves");
    assert_eq!(present.works, "Low is Second, high is First.");
}

fn titles(script: &Script) -> Vec<String> {
    let sheet = script.sheet();
    let found = sheet.found.as_ref().expect("arrangements");
    found.groups.iter().map(|group| group.title.clone()).collect()
}

#[test]
fn what_is_found_stands_in_groups_that_cover_it_and_agree_with_the_verdict() {
    let script = Script::cart_with_arrangements();
    assert_eq!(
        titles(&script),
        [
            "Beat what is there: 8",
            "Other ratios than wanted: 4",
            "No better: 2"
        ]
    );
    let found = script.sheet().found.clone().expect("arrangements");
    assert!(found.beside[0].starts_with("8 arrangements beat what is there: more pull than now"));
    assert!(
        found.beside[1].contains("153\u{202f}% more, but set aside. Its step"),
        "{}",
        found.beside[1]
    );
    let places: Vec<usize> = found
        .groups
        .iter()
        .flat_map(|group| group.places.clone())
        .collect();
    assert_eq!(places, (0..found.rows.len()).collect::<Vec<usize>>());
    for (place, row) in found.rows.iter().enumerate() {
        assert_eq!(row.why.is_none(), place < 8, "{row:?}");
    }
    let mut names: Vec<&str> = found.rows.iter().map(|row| row.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), found.rows.len(), "{names:?}");
}

fn fact(script: &Script, arrangement: &str, name: &str) -> Vec<String> {
    let found = script.sheet().found.clone().expect("arrangements");
    let row = found
        .rows
        .iter()
        .find(|row| row.name.starts_with(arrangement))
        .expect("it is found");
    let fact = row
        .facts
        .iter()
        .find(|fact| fact.name == name)
        .expect("it is said");
    fact.lines.clone()
}

#[test]
fn ratios_teeth_and_shifting_are_said_gear_by_gear() {
    let script = Script::cart_with_arrangements();
    let check = |arrangement: &str, name: &str, lines: [&str; 2]| {
        assert_eq!(fact(&script, arrangement, name), lines, "{arrangement}");
    };
    let one_way = "Two gear pairs, the low one";
    check(
        one_way,
        "Ratios",
        ["Low 1/16.07 (wanted 1/16)", "High 1/12, as wanted"],
    );
    check(
        one_way,
        "Teeth",
        ["Low: 16 on 60, 14 on 60", "High: 20 on 56, 14 on 60"],
    );
    let kept = "The torque switch is kept and does that alone, at the same torques";
    check(one_way, "Shifts by", ["One clutch, closed for high", kept]);
    let lost = "The present torque switch moves only one of them: shifting by itself is lost";
    check(
        "Two layshafts",
        "Shifts by",
        ["One clutch opens as the other closes", lost],
    );
    check(
        "Branch subtracted",
        "Teeth",
        ["Low: 10 on 60, worm on 24", "High: 10 on 60"],
    );
    assert_eq!(fact(&script, "Branch subtracted", "Sense").len(), 1);
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
        "Trail cart, two gear pairs, the low one through a one-way clutch"
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
        found.rows[0].facts[0].lines[0].contains("1/24"),
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
    assert!(
        sheet
            .found
            .as_ref()
            .is_some_and(|found| found.rows[0].why.is_none())
    );
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
