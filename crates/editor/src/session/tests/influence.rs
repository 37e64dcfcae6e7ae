//! What matters: bars in order, following changes, ranges that are typed and those of materials, draws.

use std::rc::Rc;

use layshaft_choose::task::{Job, carry_out};

use super::*;
use crate::choosing::influence::InfluenceField;
use crate::choosing::{ChooseInput, InfluenceInput, InfluenceSheet, News, Part, Tab};

fn influence(input: InfluenceInput) -> Input {
    Input::Choose(ChooseInput::Influence(input))
}

fn laid_out(text: &str) -> Script {
    Script {
        session: Session::new(layshaft_layout::decode(text).expect("sound")),
        effects: Vec::new(),
    }
}

impl Script {
    /// Carries out whatever is asked for, one thing after another, as the page does; gives the jobs.
    fn do_all(&mut self) -> Vec<Rc<Job>> {
        let mut jobs = Vec::new();
        loop {
            let asked = self.effects.iter().find_map(|effect| match effect {
                Effect::Compute { number, job } => Some((*number, job.clone())),
                _ => None,
            });
            let Some((number, job)) = asked else {
                return jobs;
            };
            let answer = carry_out(&job).expect("it can be done");
            jobs.push(job);
            let news = News::Done(Rc::new(answer));
            self.input(Input::Choose(ChooseInput::News(number, news)));
        }
    }

    fn what_matters(&mut self) -> Vec<Rc<Job>> {
        self.input(Input::Choose(ChooseInput::Show(Tab::Influence)));
        self.do_all()
    }

    fn influence_sheet(&self) -> Rc<InfluenceSheet> {
        match self.session.choose_sheet().part {
            Part::Influence(sheet) => sheet,
            other => panic!("another part is shown: {other:?}"),
        }
    }
}

#[test]
fn bars_stand_in_order_and_follow_the_layout() {
    let mut script = Script::demo("trail-cart-a");
    assert_eq!(script.what_matters().len(), 1, "there is no range to draw from");
    let sheet = script.influence_sheet();
    assert_eq!(sheet.head, "Steepest slope in First: 16.5°");
    let lengths: Vec<f64> = sheet.bars.iter().map(|bar| bar.length).collect();
    assert!(lengths.is_sorted_by(|a, b| a >= b) && (lengths[0] - 50.0).abs() < 1e-9);
    for bar in &sheet.bars {
        assert_eq!(bar.rises, bar.effect.starts_with('+'), "{bar:?}");
        assert_eq!(bar.start < 50.0, !bar.rises, "{bar:?}");
    }
    assert!(sheet.bars.iter().any(|bar| bar.name == "Efficiency of g1"));
    script.act(Action::Position(1));
    script.do_all();
    assert!(
        script
            .influence_sheet()
            .head
            .starts_with("Steepest slope in Second")
    );
}

#[test]
fn what_was_hidden_is_asked_once_it_may_be_seen() {
    let mut script = Script::demo("trail-cart-a");
    script.act(Action::HideAnswers);
    assert!(script.what_matters().is_empty());
    assert!(script.influence_sheet().empty.is_some());
    script.act(Action::HideAnswers);
    assert_eq!(script.do_all().len(), 1);
    assert!(!script.influence_sheet().bars.is_empty());
}

#[test]
fn ranges_are_taken_typed_and_taken_away() {
    let mut script = Script::demo("trail-cart-a");
    script.what_matters();
    let path = "elements.g1.efficiency".to_owned();
    script.input(influence(InfluenceInput::Doubt(path.clone())));
    assert_eq!(script.do_all().len(), 2, "bars, then draws");
    let known = script.influence_sheet().certainty.clone();
    assert_eq!(known.ranges.len(), 1);
    assert_eq!(
        known.rows.len(),
        8,
        "pull, slope, speed and efficiency in both positions"
    );
    assert!(known.rows[0].strip.is_some());

    let field = InfluenceField::Range(path.clone());
    script.input(influence(InfluenceInput::Type(
        field.clone(),
        "0.9..1.4".to_owned(),
    )));
    let problem = script.influence_sheet().certainty.ranges[0].entry.clone();
    assert!(
        problem.is_some_and(|entry| entry.problem.is_none()),
        "it ends at 1"
    );
    script.input(influence(InfluenceInput::Type(field, "many".to_owned())));
    let problem = script.influence_sheet().certainty.ranges[0].entry.clone();
    assert!(problem.is_some_and(|entry| entry.problem.is_some()));

    script.input(influence(InfluenceInput::Trust(path)));
    script.do_all();
    let known = script.influence_sheet().certainty.clone();
    assert!(known.ranges.is_empty() && known.rows.is_empty());
}

/// A loss is what is left to one: 20 % of the 13 % that a mesh of 87 % loses are 2.6 points either way.
#[test]
fn a_share_of_an_efficiency_is_one_of_its_loss() {
    let mut script = Script::demo("trail-cart-a");
    script.what_matters();
    let path = "elements.g1.efficiency".to_owned();
    script.input(influence(InfluenceInput::DoubtLosses));
    let check = |script: &mut Script, typed: Option<&str>, expected: &str| {
        if let Some(text) = typed {
            let field = InfluenceField::Range(path.clone());
            script.input(influence(InfluenceInput::Type(field, text.to_owned())));
        }
        let sheet = script.influence_sheet();
        let found = sheet.certainty.ranges.iter().find(|range| range.path == path);
        let range = found
            .expect("g1 has a range")
            .range
            .replace(crate::numbers::THIN_SPACE, " ");
        assert_eq!(range, expected, "{typed:?}");
    };
    check(&mut script, None, "of its loss: efficiency 84.4 % to 89.6 %");
    check(
        &mut script,
        Some("50"),
        "of its loss: efficiency 80.5 % to 93.5 %",
    );
    check(&mut script, Some("0.9..0.95"), "90.0 % to 95.0 %");
    check(&mut script, Some("90..95"), "90.0 % to 95.0 %");
    script.do_all();
    let sheet = script.influence_sheet();
    assert!(sheet.certainty.doubt_losses.is_none(), "every loss has a range");
    assert!(!sheet.key.is_empty());
}

#[test]
fn materials_bring_their_ranges_with_source_and_standing() {
    let mut script = laid_out(
        r#"{"layshaft": 1, "material_pair": "acetal-acetal-dry", "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
        {"id": "k", "kind": "crank", "shaft": "a", "speed_rpm": 60, "limit_nm": 2},
        {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [16, 30]},
        {"id": "l", "kind": "load", "shaft": "b", "torque_nm": 0.1}]}"#,
    );
    assert_eq!(script.what_matters().len(), 2);
    let sheet = script.influence_sheet();
    let range = &sheet.certainty.ranges[0];
    assert_eq!(range.name, "Friction of acetal on acetal, dry");
    assert!(range.source.starts_with("from the table of materials, ") && range.entry.is_none());
    assert!(sheet.bars.iter().any(|bar| bar.name == range.name && bar.doubted));
    assert!(!sheet.certainty.rows.is_empty());
}

#[test]
fn an_empty_bench_says_what_to_do() {
    let mut script = laid_out(r#"{"layshaft": 1}"#);
    assert!(script.what_matters().is_empty());
    let empty = script.influence_sheet().empty.clone();
    assert!(empty.is_some_and(|empty| empty.starts_with("Put a drive and a load")));
}
