//! Variants of the trail cart: how they differ, put on the bench, and back; the plot of all.

use layshaft_layout::decode;

use super::*;
use crate::actions::Action;
use crate::choosing::{ChooseInput, Part, Tab};
use crate::choosing::{Job, News, WorkNumber};
use crate::demos::demo;
use crate::session::{Effect, Input, Session};

/// The trail cart with the sheet for comparing open.
fn cart() -> Session {
    let demo = demo("trail-cart-a").expect("a demo");
    let mut session = Session::new(decode(demo.text).expect("demos are sound"));
    session.handle(Input::Choose(ChooseInput::Show(Tab::Compare)));
    session
}

fn compare(session: &mut Session, input: CompareInput) {
    session.handle(Input::Choose(ChooseInput::Compare(input)));
}

fn add(session: &mut Session, value: &str) {
    compare(session, CompareInput::Pick(value.to_owned()));
    compare(session, CompareInput::Add);
}

fn sheet_of(session: &Session) -> Rc<CompareSheet> {
    match session.choose_sheet().part {
        Part::Compare(sheet) => sheet,
        other => panic!("another part is shown: {other:?}"),
    }
}

/// What stands in a row, column by column, as text with differences in brackets.
fn row(session: &Session, label: &str) -> Vec<String> {
    let sheet = sheet_of(session);
    let row = sheet
        .rows
        .iter()
        .find(|row| row.label == label)
        .expect("the row is there");
    let text = |value: &CompareValue| {
        let difference = value.difference.as_ref();
        let difference = difference.map_or_else(String::new, |found| {
            format!(" [{} {}]", found.trend.sign(), found.text)
        });
        format!("{}{difference}", value.value.text())
    };
    let column = |values: &Vec<CompareValue>| values.iter().map(text).collect::<Vec<_>>().join("; ");
    row.cells
        .iter()
        .map(column)
        .map(|text| text.replace(crate::numbers::THIN_SPACE, "_"))
        .collect()
}

#[test]
fn the_bench_stands_by_itself_at_first() {
    let session = cart();
    let sheet = sheet_of(&session);
    assert_eq!(sheet.variants.len(), 1);
    assert!(!sheet.variants[0].can_be_put && !sheet.variants[0].can_be_removed);
    assert_eq!(row(&session, "Ratio, drive to load"), ["1/12; 1/16"]);
}

#[test]
fn positions_of_another_layout_differ_position_by_position() {
    let mut session = cart();
    add(&mut session, "demo:trail-cart-b");
    let ratios = row(&session, "Ratio, drive to load");
    assert_eq!(ratios[1], "1/6 [▲ ×2.00]; 1/12 [▲ +33_%]");
    // Second of B has the ratio of first in A and one mesh less to lose in: the pull per position follows.
    assert_eq!(
        sheet_of(&session).verdict,
        "At most A climbs 16.5° in First, B 16.5° in Second."
    );
    assert_eq!(row(&session, "Shafts"), ["7", "5 [▼ 2 fewer]"]);
    assert_eq!(row(&session, "Gears"), ["4", "4 [= same]"]);
}

#[test]
fn one_position_is_what_all_others_differ_from() {
    let mut session = cart();
    let first = sheet_of(&session).variants[0].number;
    compare(&mut session, CompareInput::Position(first, "first".to_owned()));
    add(&mut session, "bench:second");
    assert_eq!(row(&session, "Ratio, drive to load"), ["1/12", "1/16 [▼ −25_%]"]);
    let pull = &row(&session, "Pull to keep moving")[1];
    assert!(pull.contains("[▼ −"), "second pulls less: {pull}");
}

#[test]
fn positions_of_other_names_go_by_their_gear() {
    let mut session = cart();
    let text = demo("trail-cart-a").expect("a demo").text;
    // Second, the lower gear, stands first here and is called so.
    let renamed = text
        .replace("\"First\"", "\"High\"")
        .replace("\"Second\"", "\"Low\"");
    compare(
        &mut session,
        CompareInput::AddFile {
            text: renamed,
            name: "renamed.json".to_owned(),
        },
    );
    let ratios = row(&session, "Ratio, drive to load");
    assert_eq!(ratios[1], "1/12 [= same]; 1/16 [= same]");
    assert_eq!(
        sheet_of(&session).hint,
        "All are measured against A. Positions of B are held against those of A by their gear: \
         High against First, Low against Second."
    );
}

#[test]
fn a_kept_bench_stays_while_the_bench_changes() {
    let mut session = cart();
    compare(&mut session, CompareInput::Keep);
    set_mass(&mut session, "2.8");
    let slopes = row(&session, "Steepest slope");
    assert!(
        slopes[0].contains('▼') && !slopes[1].contains('['),
        "the bench has grown heavier than what was kept: {slopes:?}"
    );
    assert_eq!(
        sheet_of(&session).hint,
        "All are measured against B, the one kept."
    );
    let first = sheet_of(&session).variants[0].number;
    compare(&mut session, CompareInput::Base(first));
    let slopes = row(&session, "Steepest slope");
    assert!(slopes[1].contains('▲'), "the kept cart is lighter: {slopes:?}");
    assert!(sheet_of(&session).variants[0].is_base && !sheet_of(&session).variants[1].is_base);
    add(&mut session, "back:1");
    let slopes = row(&session, "Steepest slope");
    assert_eq!(slopes[1], slopes[2], "the state before is the one that was kept");
    assert_eq!(sheet_of(&session).variants[2].name, "Before: load it");
}

#[test]
fn a_variant_on_the_bench_can_be_undone() {
    let mut session = cart();
    add(&mut session, "demo:trail-cart-b");
    let added = sheet_of(&session).variants[1].number;
    compare(&mut session, CompareInput::PutOnBench(added));
    assert_eq!(session.layout().title, "Trail cart, differential locked or held");
    assert!(row(&session, "Pull to keep moving")[1].contains("[= same]"));
    session.handle(Input::Act(Action::Undo));
    assert_eq!(session.layout().title, "Trail cart, branch held by a worm");
}

#[test]
fn four_fit_and_what_is_no_layout_is_told() {
    let mut session = cart();
    let broken = CompareInput::AddFile {
        text: "{".to_owned(),
        name: "broken.json".to_owned(),
    };
    compare(&mut session, broken);
    assert!(sheet_of(&session).is_problem);
    for _ in 0..5 {
        compare(&mut session, CompareInput::Keep);
    }
    let sheet = sheet_of(&session);
    assert_eq!((sheet.variants.len(), sheet.adding.is_none()), (4, true));
    let mut names: Vec<_> = sheet.variants.iter().map(|variant| &variant.name).collect();
    names.dedup();
    assert_eq!(names.len(), 4);
}

#[test]
fn hidden_answers_stay_hidden() {
    let mut session = cart();
    add(&mut session, "demo:trail-cart-b");
    session.handle(Input::Act(Action::HideAnswers));
    assert_eq!(row(&session, "Efficiency"), ["…; …", "…; …"]);
}

/// The work that effects ask for.
fn asked(effects: &[Effect]) -> Vec<(WorkNumber, Rc<Job>)> {
    let work = |effect: &Effect| match effect {
        Effect::Compute { number, job } => Some((*number, job.clone())),
        _ => None,
    };
    effects.iter().filter_map(work).collect()
}

/// Carries out what is asked for, and what is asked for after that; gives how much it was.
fn carry_out(session: &mut Session, effects: &[Effect]) -> usize {
    let mut work = asked(effects);
    let mut count = 0;
    while let Some((number, job)) = work.pop() {
        count += 1;
        let answer = layshaft_choose::task::carry_out(&job).expect("a sound sweep");
        let news = News::Done(Rc::new(answer));
        work.extend(asked(
            &session.handle(Input::Choose(ChooseInput::News(number, news))),
        ));
    }
    count
}

fn add_demo_b(session: &mut Session) -> Vec<Effect> {
    compare(session, CompareInput::Pick("demo:trail-cart-b".to_owned()));
    session.handle(Input::Choose(ChooseInput::Compare(CompareInput::Add)))
}

fn set_mass(session: &mut Session, mass: &str) -> Vec<Effect> {
    session.handle(Input::SetFields {
        fields: vec![(
            crate::FieldRef {
                target: crate::Target::Element("cart".into()),
                path: "mass_kg".to_owned(),
            },
            mass.to_owned(),
        )],
        name: "load it".to_owned(),
    })
}

#[test]
fn every_variant_gets_its_curve_through_its_present_value() {
    let mut session = cart();
    let effects = add_demo_b(&mut session);
    assert_eq!(carry_out(&mut session, &effects), 2);
    let plot = sheet_of(&session).plot.clone().expect("both have a vehicle");
    let chart = plot.chart.expect("computed");
    let names: Vec<_> = chart.spec.lines.iter().map(|line| line.name.as_str()).collect();
    assert_eq!(names, ["B Second", "B First", "A Second", "A First"]);
    // The report of the bench is the second road: 1.4 kg lies between two of the 61 masses from 0.5 to 3.
    let report = session.report().positions[0].clone();
    let slope = report
        .stall
        .as_ref()
        .and_then(|stall| stall.slope)
        .expect("it climbs")
        .to_degrees();
    let points = &chart.spec.lines[3].points;
    let after = points
        .iter()
        .position(|(at, _)| *at >= 1.4)
        .expect("in the range");
    let (heavier, lighter) = (
        points[after].1.expect("computed"),
        points[after - 1].1.expect("computed"),
    );
    assert!(
        heavier <= slope && slope <= lighter,
        "{heavier} {slope} {lighter}"
    );
}

#[test]
fn a_change_meanwhile_lets_the_short_sweep_end_and_begins_another() {
    let mut session = cart();
    let effects = add_demo_b(&mut session);
    let first = asked(&effects);
    assert_eq!(first.len(), 1);
    let effects = set_mass(&mut session, "2");
    assert_eq!(asked(&effects).len(), 0, "the first is still under way");
    let answer = layshaft_choose::task::carry_out(&first[0].1).expect("a sound sweep");
    let news = ChooseInput::News(first[0].0, News::Done(Rc::new(answer)));
    let effects = session.handle(Input::Choose(news));
    assert_eq!(
        carry_out(&mut session, &effects),
        2,
        "the bench anew, then the demo"
    );
    let effects = set_mass(&mut session, "1.8");
    assert_eq!(carry_out(&mut session, &effects), 1, "the demo has not changed");
}

#[test]
fn after_a_stop_nothing_is_begun_until_something_changes() {
    let mut session = cart();
    add_demo_b(&mut session);
    let effects = session.handle(Input::Choose(ChooseInput::Stop));
    assert_eq!(asked(&effects).len(), 0);
    assert!(session.choose_sheet().stopped.is_some());
    let effects = set_mass(&mut session, "2");
    assert_eq!(carry_out(&mut session, &effects), 1);
    assert!(session.choose_sheet().stopped.is_none());
}

#[test]
fn another_result_and_another_range_are_computed_anew() {
    let mut session = cart();
    let effects = add_demo_b(&mut session);
    carry_out(&mut session, &effects);
    let mut change = |input| {
        let effects = session.handle(Input::Choose(ChooseInput::Compare(input)));
        carry_out(&mut session, &effects)
    };
    assert_eq!(change(CompareInput::Show("efficiency".to_owned())), 2);
    assert_eq!(change(CompareInput::Over("supply".to_owned())), 2);
    assert_eq!(change(CompareInput::End(0, "4,5".to_owned())), 2);
    assert_eq!(change(CompareInput::End(1, "3".to_owned())), 0, "no range");
    let plot = sheet_of(&session).plot.clone().expect("a plot");
    assert!(plot.ends[1].problem.is_some() && plot.chart.is_none());
}
