//! The sheet for choosing in units other than the file's: axes, marks, ranges, tables, and what is put back into the layout.
//!
//! Factors after NIST SP 811 (2008), appendix B.8: 1 kgf = 9.80665 N, 1 in = 25.4 mm, 1 lbf = 0.45359237 × 9.80665 N and
//! 1 ozf a sixteenth of it, all exact; 1 rpm = 2π/60 rad/s.

use std::rc::Rc;

use layshaft_choose::task::{Job, carry_out};

use super::*;
use crate::chart::field::FieldSpec;
use crate::chart::{Carry, Chart, ChartSpec};
use crate::choosing::influence::InfluenceField;
use crate::choosing::sweep::SweepField;
use crate::choosing::two_speeds::{TwoSpeedsField, WantedBy};
use crate::choosing::{
    ChooseInput, CompareInput, GearsField, GearsInput, InfluenceInput, News, Part, SweepInput, Tab,
    TwoSpeedsInput,
};
use crate::numbers::THIN_SPACE;
use crate::units::Switchable;

const KGF: f64 = 9.806_65;
const INCH: f64 = 25.4;
const OZ_IN: f64 = 0.453_592_37 / 16.0 * KGF * 0.0254;
const LBF_IN: f64 = 0.453_592_37 * KGF * 0.0254;
const RAD_S: f64 = 60.0 / core::f64::consts::TAU;

/// A crank of 2 N·m on one pair of gears under a load of 0.1 N·m.
const PAIR: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
    {"id": "k", "kind": "crank", "shaft": "a", "speed_rpm": 60, "limit_nm": 2},
    {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [16, 30], "efficiency": 0.9},
    {"id": "l", "kind": "load", "shaft": "b", "torque_nm": 0.1}]}"#;

fn pair() -> Script {
    Script {
        session: Session::new(layshaft_layout::decode(PAIR).expect("sound")),
        effects: Vec::new(),
    }
}

fn choose(script: &mut Script, input: ChooseInput) -> Vec<Rc<Job>> {
    script.input(Input::Choose(input));
    carry_on(script)
}

fn sweep(script: &mut Script, input: SweepInput) -> Vec<Rc<Job>> {
    choose(script, ChooseInput::Sweep(input))
}

/// Carries out whatever is asked for, one thing after another, as the page does; gives the jobs.
fn carry_on(script: &mut Script) -> Vec<Rc<Job>> {
    let mut jobs = Vec::new();
    loop {
        let asked = script.effects.iter().find_map(|effect| match effect {
            Effect::Compute { number, job } => Some((*number, job.clone())),
            _ => None,
        });
        let Some((number, job)) = asked else {
            return jobs;
        };
        let news = News::Done(Rc::new(carry_out(&job).expect("it can be done")));
        jobs.push(job);
        script.input(Input::Choose(ChooseInput::News(number, news)));
    }
}

/// Chooses a unit; nothing may be computed for that.
fn choose_unit(script: &mut Script, what: Switchable, symbol: &'static str) {
    script.input(Input::SetUnit(what, symbol));
    assert_eq!(
        carry_on(script).len(),
        0,
        "{symbol} is only another way to show it"
    );
}

fn choose_others(script: &mut Script) {
    choose_unit(script, Switchable::Speed, "rad/s");
    choose_unit(script, Switchable::Torque, "oz·in");
    choose_unit(script, Switchable::Force, "kgf");
    choose_unit(script, Switchable::Length, "in");
}

macro_rules! part {
    ($script:expr, $part:ident) => {
        match $script.session.choose_sheet().part {
            Part::$part(sheet) => sheet,
            other => panic!("another part is shown: {other:?}"),
        }
    };
}

fn same(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= wanted.abs() * 1e-12, "{found} {wanted}");
}

/// That every number of a plot is so many times smaller: across, and up from plot to plot.
fn check_plot(before: &ChartSpec, after: &ChartSpec, across: (f64, &str), up: &[(f64, &str)]) {
    fn panels(spec: &ChartSpec) -> Vec<(&str, &[crate::chart::LineSpec])> {
        let below = spec
            .below
            .iter()
            .map(|panel| (panel.up.unit.as_str(), &panel.lines[..]));
        std::iter::once((spec.up.unit.as_str(), &spec.lines[..]))
            .chain(below)
            .collect()
    }
    assert_eq!(after.across.unit, across.1);
    assert_eq!(panels(after).len(), up.len());
    for (((_, old), (unit, new)), (factor, wanted)) in panels(before).into_iter().zip(panels(after)).zip(up) {
        assert_eq!(unit, *wanted);
        for (old, new) in old.iter().zip(new) {
            assert_eq!((old.points.len(), &old.name), (new.points.len(), &new.name));
            for ((x, y), (to_x, to_y)) in old.points.iter().zip(&new.points) {
                same(*to_x * across.0, *x);
                assert_eq!(y.is_some(), to_y.is_some());
                same(to_y.unwrap_or(0.0) * factor, y.unwrap_or(0.0));
            }
        }
    }
    for (old, new) in before.marks.iter().zip(&after.marks) {
        same(new.at * across.0, old.at);
    }
}

fn check_map(before: &FieldSpec, after: &FieldSpec, factors: [f64; 3]) {
    let [across, up, value] = factors;
    let all = |spec: &FieldSpec| spec.values.iter().flatten().copied().collect::<Vec<_>>();
    for (old, new) in before.columns.iter().zip(&after.columns) {
        same(new * across, *old);
    }
    for (old, new) in before.rows.iter().zip(&after.rows) {
        same(new * up, *old);
    }
    for (old, new) in all(before).into_iter().zip(all(after)) {
        same(new.unwrap_or(0.0) * value, old.unwrap_or(0.0));
    }
    let (old, new) = before
        .present
        .zip(after.present)
        .expect("the layout is on the map");
    same(new.0 * across, old.0);
    same(new.1 * up, old.1);
}

fn chart(script: &Script) -> Rc<Chart> {
    part!(script, Sweep).chart.clone().expect("a plot")
}

#[test]
fn a_sweep_is_shown_in_the_units_chosen() {
    let mut script = Script::demo("trail-cart-a");
    choose(&mut script, ChooseInput::Show(Tab::Sweep));
    sweep(
        &mut script,
        SweepInput::Choose("elements.cart.wheel_mm".to_owned()),
    );
    for path in ["stall.pull_n", "shafts.axle.rpm", "shafts.axle.torque_nm"] {
        sweep(&mut script, SweepInput::Look(path.to_owned(), true));
    }
    let before = chart(&script);
    choose_others(&mut script);
    let after = chart(&script);
    check_plot(
        &before.spec,
        &after.spec,
        (INCH, "in"),
        &[
            (1.0, "°"),
            (KGF, "kgf"),
            (1.0, "m/s"),
            (RAD_S, "rad/s"),
            (OZ_IN, "oz·in"),
        ],
    );
    assert_eq!(after.spec.marks[0].text, format!("now 2.20{THIN_SPACE}in"));
    let head = after.csv().lines().next().expect("a heading").to_owned();
    assert!(head.starts_with("\"Wheels, cart, in\""), "{head}");
    assert!(
        head.contains("kgf") && head.contains("oz·in") && !head.contains("rpm"),
        "{head}"
    );
    let first = after.csv().lines().nth(1).expect("a row").to_owned();
    let at: f64 = first
        .split(',')
        .next()
        .and_then(|cell| cell.parse().ok())
        .expect("a number");
    same(at, after.spec.lines[0].points[0].0);
    assert!(after.table().columns[0].ends_with(", in"));
    let read = after.reading(0).expect("a place");
    assert!(
        read.spoken.contains("kgf") && read.at.ends_with("in"),
        "{}",
        read.spoken
    );
    let sheet = part!(script, Sweep);
    assert!(
        sheet.carried.ends_with(&format!("now 2.20{THIN_SPACE}in")),
        "{}",
        sheet.carried
    );
    let looked = |path: &str| {
        let row = sheet.outputs.iter().find(|row| row.path == path);
        row.map(|row| row.name.clone())
    };
    assert_eq!(looked("stall.pull_n").as_deref(), Some("Greatest pull, kgf"));
    assert!(after.svg().contains("kgf"));
}

#[test]
fn a_map_is_shown_in_the_units_chosen() {
    let mut script = Script::demo("trail-cart-a");
    choose(&mut script, ChooseInput::Show(Tab::Sweep));
    sweep(
        &mut script,
        SweepInput::Choose("elements.cart.wheel_mm".to_owned()),
    );
    sweep(&mut script, SweepInput::LookAt("stall.pull_n".to_owned()));
    sweep(&mut script, SweepInput::Also("elements.cart.mass_kg".to_owned()));
    let map = |script: &Script| part!(script, Sweep).map.clone().expect("a map");
    let before = map(&script);
    choose_others(&mut script);
    let after = map(&script);
    check_map(&before.spec, &after.spec, [INCH, 1.0, KGF]);
    let head = after.csv().lines().next().expect("a heading").to_owned();
    assert!(head.contains(", in\"") && head.contains(", kgf"), "{head}");
    let verdict = part!(script, Sweep).verdict.join(" ");
    assert!(
        verdict.contains("kgf") && verdict.contains(&format!("{THIN_SPACE}in")),
        "{verdict}"
    );
}

/// The ends of what was asked last.
fn asked_ends(jobs: &[Rc<Job>]) -> [f64; 2] {
    match jobs.last().map(|job| &**job) {
        Some(Job::Sweep(job)) => [job.from, job.to],
        other => panic!("no sweep: {other:?}"),
    }
}

fn end(script: &Script, field: SweepField) -> (String, String, bool) {
    let sheet = part!(script, Sweep);
    let (_, entry) = sheet
        .fields
        .iter()
        .find(|(own, _)| *own == field)
        .expect("a field");
    (entry.text.clone(), entry.unit.clone(), entry.problem.is_some())
}

#[test]
fn ranges_are_typed_in_the_unit_shown_or_in_one_that_is_typed() {
    let mut script = pair();
    choose(&mut script, ChooseInput::Show(Tab::Sweep));
    sweep(&mut script, SweepInput::Choose("elements.l.torque_nm".to_owned()));
    choose_unit(&mut script, Switchable::Torque, "N·cm");
    let mut type_end = |field, text: &str, wanted: [f64; 2]| {
        let jobs = sweep(&mut script, SweepInput::Type(field, text.to_owned()));
        let ends = asked_ends(&jobs);
        same(ends[0], wanted[0]);
        same(ends[1], wanted[1]);
    };
    type_end(SweepField::From, "0,5 N·m", [0.5, 0.2]);
    type_end(SweepField::From, "0,5", [0.005, 0.2]);
    type_end(SweepField::To, "5 lbf·in", [0.005, 0.564_924_145_138]);
    assert!((LBF_IN - 0.112_984_829_027_616_7).abs() < 1e-15);
    assert_eq!(
        end(&script, SweepField::To),
        ("5 lbf·in".to_owned(), "N·cm".to_owned(), false)
    );
    sweep(&mut script, SweepInput::Type(SweepField::From, "5 kg".to_owned()));
    assert!(end(&script, SweepField::From).2, "a mass is no torque");
    sweep(&mut script, SweepInput::Keep);
    assert_eq!(
        end(&script, SweepField::From),
        ("0.5".to_owned(), "N·cm".to_owned(), false)
    );
    choose_unit(&mut script, Switchable::Torque, "N·m");
    assert_eq!(
        end(&script, SweepField::From),
        ("0.005".to_owned(), "N·m".to_owned(), false)
    );
    choose_unit(&mut script, Switchable::Torque, "oz·in");
    assert_eq!(end(&script, SweepField::To).1, "oz·in");
}

#[test]
fn suggested_ranges_are_short_in_the_unit_shown() {
    let mut script = pair();
    script.input(Input::SetUnit(Switchable::Torque, "kgf·cm"));
    choose(&mut script, ChooseInput::Show(Tab::Sweep));
    let jobs = sweep(&mut script, SweepInput::Choose("elements.l.torque_nm".to_owned()));
    let [from, to] = asked_ends(&jobs);
    // 0.1 N·m are 1.0197 kgf·cm.
    same(from, 0.51 * 0.098_066_5);
    same(to, 2.04 * 0.098_066_5);
    assert_eq!(end(&script, SweepField::From).0, "0.51");
}

#[test]
fn a_mark_is_carried_in_the_unit_shown_and_kept_in_the_file_s() {
    let mut script = pair();
    choose(&mut script, ChooseInput::Show(Tab::Sweep));
    sweep(&mut script, SweepInput::Choose("elements.l.torque_nm".to_owned()));
    choose_unit(&mut script, Switchable::Torque, "kgf·cm");
    let kept = |script: &Script| {
        let field = FieldRef::element(&Id::from("l"), "torque_nm");
        crate::fields::current_text(script.session.layout(), &field)
    };
    assert!(sweep(&mut script, SweepInput::Carry(Carry::To(1.501))).is_empty());
    assert_eq!(kept(&script), "0.1471978165");
    same(chart(&script).spec.marks[0].at, 1.501);
    sweep(&mut script, SweepInput::Carry(Carry::Keep));
    assert_eq!(kept(&script), "0.1471978165");
    sweep(&mut script, SweepInput::Carry(Carry::By(1)));
    sweep(&mut script, SweepInput::Carry(Carry::Keep));
    assert_eq!(kept(&script), "0.1962310665", "a key steps 0.5 kgf·cm");
    script.act(Action::Undo).act(Action::Undo);
    assert_eq!(kept(&script), "0.1");
}

#[test]
fn variants_are_plotted_in_the_units_chosen() {
    let mut script = Script::demo("trail-cart-a");
    choose(&mut script, ChooseInput::Show(Tab::Compare));
    let compare = |script: &mut Script, input| choose(script, ChooseInput::Compare(input));
    compare(&mut script, CompareInput::Pick("demo:trail-cart-b".to_owned()));
    compare(&mut script, CompareInput::Add);
    compare(&mut script, CompareInput::Over("wheel".to_owned()));
    compare(&mut script, CompareInput::Show("pull".to_owned()));
    compare(&mut script, CompareInput::End(0, "30".to_owned()));
    let plot = |script: &Script| part!(script, Compare).plot.clone().expect("a plot");
    let before = plot(&script);
    choose_others(&mut script);
    let after = plot(&script);
    let spec =
        |plot: &crate::choosing::compare::ComparePlot| plot.chart.clone().expect("curves").spec.clone();
    check_plot(&spec(&before), &spec(&after), (INCH, "in"), &[(KGF, "kgf")]);
    assert_eq!(
        (after.ends[0].text.as_str(), after.ends[0].unit.as_str()),
        ("1.1811", "in")
    );
    assert_eq!(after.ends[1].hint, "5.91 if left empty", "150 mm");
    let jobs = compare(&mut script, CompareInput::End(1, "4".to_owned()));
    same(asked_ends(&jobs)[0], 30.0);
    same(asked_ends(&jobs)[1], 101.6);
}

#[test]
fn what_matters_is_told_in_the_units_chosen() {
    let mut script = pair();
    choose(&mut script, ChooseInput::Show(Tab::Influence));
    let matter = |script: &mut Script, input| choose(script, ChooseInput::Influence(input));
    matter(&mut script, InfluenceInput::Ask("stall.torque_nm".to_owned()));
    let path = "elements.k.limit_nm".to_owned();
    matter(&mut script, InfluenceInput::Doubt(path.clone()));
    let told = |script: &Script| {
        let sheet = part!(script, Influence);
        let bar = sheet
            .bars
            .iter()
            .find(|bar| bar.path == path)
            .expect("it matters");
        let range = &sheet.certainty.ranges[0];
        let middle = sheet.certainty.rows[0].quantiles.clone().expect("draws")[1].clone();
        let entry = range.entry.clone().expect("it was typed");
        [
            sheet.head.clone(),
            bar.value.clone(),
            range.range.clone(),
            middle,
            entry.text,
            entry.unit,
        ]
        .map(|text| text.replace(THIN_SPACE, " "))
    };
    assert_eq!(
        told(&script)[..3],
        ["Greatest torque: 3.38 N·m", "2.00 N·m", "1.90 to 2.10 N·m"]
    );
    let range = |text: &str| InfluenceInput::Type(InfluenceField::Range(path.clone()), text.to_owned());
    matter(&mut script, range("1,5..2,5"));
    choose_unit(&mut script, Switchable::Torque, "oz·in");
    let [head, bar, shown, middle, text, unit] = told(&script);
    // 3.375 N·m / 7.0615518 mN·m
    assert_eq!(
        (head.as_str(), bar.as_str()),
        ("Greatest torque: 478 oz·in", "283 oz·in")
    );
    assert_eq!((shown.as_str(), unit.as_str()), ("212 to 354 oz·in", "oz·in"));
    assert!(middle.ends_with(" oz·in"), "{middle}");
    assert_eq!(text, "212.418..354.03");
    matter(&mut script, range("10..20 lbf·in"));
    assert_eq!(
        told(&script)[2],
        "160 to 320 oz·in",
        "sixteen ounces to the pound"
    );
}

#[test]
fn two_speeds_are_asked_and_told_in_the_units_chosen() {
    let mut script = Script::demo("trail-cart-a");
    choose(&mut script, ChooseInput::Show(Tab::TwoSpeeds));
    let ask = |script: &mut Script, input| choose(script, ChooseInput::TwoSpeeds(input));
    ask(&mut script, TwoSpeedsInput::By(WantedBy::PullAndSpeed));
    let pull = |script: &Script| {
        let sheet = part!(script, TwoSpeeds);
        let found = sheet.found.clone().expect("arrangements");
        let now = found.present.clone().expect("it moves").figures[1].text.clone();
        let entry = sheet.wanted[0].1.clone();
        (entry.text, entry.unit, now.replace(THIN_SPACE, " "))
    };
    let check = |script: &Script, expected: [&str; 3]| {
        let (text, unit, now) = pull(script);
        assert_eq!([text.as_str(), unit.as_str(), now.as_str()], expected);
    };
    check(&script, ["4.29", "N", "4.29 N"]);
    choose_unit(&mut script, Switchable::Force, "kgf");
    check(&script, ["0.437458", "kgf", "0.437 kgf"]);
    let wanted = |text: &str| TwoSpeedsInput::Type(TwoSpeedsField::Pull, text.to_owned());
    let job = |jobs: &[Rc<Job>]| match jobs.last().map(|job| &**job) {
        Some(Job::TwoSpeeds(job)) => match job.wanted {
            layshaft_choose::alternatives::WantedSpeeds::PullAndSpeed { pull, .. } => pull,
            other => panic!("{other:?}"),
        },
        other => panic!("{other:?}"),
    };
    same(job(&ask(&mut script, wanted("0,5"))), 0.5 * KGF);
    choose_unit(&mut script, Switchable::Force, "N");
    assert_eq!(pull(&script).0, "4.903325");
    same(job(&ask(&mut script, wanted("1 lbf"))), 0.453_592_37 * KGF);
}

#[test]
fn gears_stand_at_distances_in_the_unit_chosen() {
    let mut script = Script::demo("trail-cart-a");
    choose(&mut script, ChooseInput::Show(Tab::Gears));
    let gears = |script: &mut Script, input| choose(script, ChooseInput::Gears(input));
    let typed = |field, text: &str| GearsInput::Type(field, text.to_owned());
    gears(&mut script, typed(GearsField::Ratio, "1/3"));
    gears(
        &mut script,
        GearsInput::Choose(crate::choosing::GearsChoice::Spacing, "listed".to_owned()),
    );
    gears(&mut script, typed(GearsField::Distances, "25,4 50.8"));
    choose_unit(&mut script, Switchable::Length, "in");
    let sheet = part!(script, Gears);
    let texts: Vec<(&str, &str)> = sheet
        .rules
        .lengths
        .iter()
        .map(|(_, entry)| (entry.text.as_str(), entry.unit.as_str()))
        .collect();
    assert_eq!(texts, [("1 2", "in"), ("0.00393701", "in")]);
    assert_eq!(sheet.rules.module.hint, "0.0393701 in where left empty.");
    let asked = |jobs: &[Rc<Job>]| match jobs.last().map(|job| &**job) {
        Some(Job::Gears(job)) => format!("{:?}", job.rules.distances),
        other => panic!("{other:?}"),
    };
    let jobs = gears(&mut script, typed(GearsField::Distances, "0,5 1 30mm"));
    assert!(asked(&jobs).contains("[12.7, 25.4, 30.0]"), "{}", asked(&jobs));
    let jobs = gears(&mut script, typed(GearsField::Distances, "16 24 mm"));
    assert!(asked(&jobs).contains("[16.0, 24.0]"), "{}", asked(&jobs));
    gears(
        &mut script,
        typed(GearsField::Distances, "5000".to_owned().as_str()),
    );
    let problem = part!(script, Gears).rules.lengths[0].1.problem.clone();
    assert_eq!(
        problem.as_deref(),
        Some("A length lies between 0.000393701 and 3937.01 in")
    );
}
