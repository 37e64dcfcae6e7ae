//! The gear search as a builder works it: a bin, a ratio, a train put into the layout and taken back.

use layshaft_choose::task::carry_out;
use layshaft_layout::{ElementKind, Id};

use super::*;
use crate::choosing::{ChooseInput, GearsField, GearsInput, GearsSheet, News, OfferedBin, Part, Tab};

fn gears(script: &mut Script, input: GearsInput) {
    script.input(Input::Choose(ChooseInput::Gears(input)));
    carry_on(script);
}

/// Does what the session asks for, as the page would.
fn carry_on(script: &mut Script) {
    for effect in script.effects.clone() {
        if let Effect::Compute { number, job } = effect {
            let answer = carry_out(&job).expect("sound");
            script.input(Input::Choose(ChooseInput::News(
                number,
                News::Done(Rc::new(answer)),
            )));
        }
    }
}

fn sheet(script: &Script) -> Rc<GearsSheet> {
    match script.session.choose_sheet().part {
        Part::Gears(sheet) => sheet,
        other => panic!("{other:?}"),
    }
}

/// The cart with a bin, the sheet open, a ratio typed.
fn searching(bin: &str, ratio: &str) -> Script {
    let mut script = Script::demo("trail-cart-a");
    script.input(Input::Choose(ChooseInput::Show(Tab::Gears)));
    gears(&mut script, GearsInput::Type(GearsField::Bin, bin.to_owned()));
    gears(&mut script, GearsInput::Keep(GearsField::Bin));
    gears(&mut script, GearsInput::Type(GearsField::Ratio, ratio.to_owned()));
    script
}

fn stages(script: &Script) -> Vec<String> {
    let sheet = sheet(script);
    let rows = sheet.results.groups.iter().flat_map(|group| &group.rows);
    rows.map(|row| row.stages.clone()).collect()
}

fn meshes(script: &Script) -> Vec<String> {
    let layout = script.session.document.layout();
    let meshes = layout.elements.iter().filter_map(|element| match &element.kind {
        ElementKind::Mesh(mesh) => Some(format!(
            "{}:{}-{} {}-{}",
            element.id, mesh.a, mesh.b, mesh.teeth[0], mesh.teeth[1]
        )),
        _ => None,
    });
    meshes.collect()
}

#[test]
fn trains_are_found_while_a_ratio_is_typed() {
    let mut script = searching("12, 20, 36, 40x1", "9 times slower");
    assert_eq!(stages(&script), ["12→36 · 12→36"]);
    let found = sheet(&script);
    assert!(
        found.results.summary.contains("no other"),
        "{}",
        found.results.summary
    );
    let echo = found.echo.clone().expect("it is a ratio");
    assert_eq!(echo.told, "9 turns in, 1 turn out: 9 times slower");
    gears(&mut script, GearsInput::TurnRound);
    assert_eq!(stages(&script)[0], "36→12 · 36→12");
}

#[test]
fn nothing_found_says_what_is_nearest() {
    let script = searching("12, 36", "9.1 times slower");
    let sheet = sheet(&script);
    assert!(sheet.results.groups.is_empty());
    assert!(
        sheet.results.summary.contains("nearest"),
        "{}",
        sheet.results.summary
    );
    assert_eq!(
        sheet.results.nearest.as_ref().map(|row| row.ratio.as_str()),
        Some("1/9")
    );
}

#[test]
fn a_train_takes_the_place_of_a_mesh_and_undo_brings_it_back() {
    let mut script = searching("12, 15, 20, 36, 45", "9 times slower");
    let before = script.session.document.layout().clone();
    script.input(Input::Select {
        targets: vec![Target::Element(Id::from("g2"))],
        add: false,
        position: None,
    });
    carry_on(&mut script);
    assert!(
        sheet(&script).place.contains("from in to side"),
        "{}",
        sheet(&script).place
    );
    gears(&mut script, GearsInput::PutIn(0));
    let new = script
        .session
        .document
        .layout()
        .shafts
        .last()
        .expect("a new shaft")
        .id
        .clone();
    assert_eq!(
        meshes(&script)[1..],
        [
            format!("g2:in-{new} 12-36"),
            format!("{}:{new}-side 12-36", made(&script))
        ]
    );
    let said = format!("{:?}", script.effects);
    assert!(said.contains("side now turns the other way"), "{said}");
    // Both meshes are selected now, so that another train can take their place at once.
    assert!(
        sheet(&script).place.contains("from in to side"),
        "{}",
        sheet(&script).place
    );
    script.act(Action::Undo);
    assert_eq!(script.session.document.layout().shafts, before.shafts);
    assert_eq!(script.session.document.layout().elements, before.elements);
}

fn made(script: &Script) -> String {
    let layout = script.session.document.layout();
    let at = layout
        .elements
        .iter()
        .position(|element| element.id.as_str() == "g2")
        .expect("it is there");
    layout.elements[at + 1].id.to_string()
}

#[test]
fn a_chain_between_two_shafts_is_replaced_by_one_stage() {
    let mut script = searching("10, 60", "6 times slower");
    script.input(Input::Select {
        targets: vec![Target::Shaft(Id::from("pinion")), Target::Shaft(Id::from("side"))],
        add: false,
        position: None,
    });
    carry_on(&mut script);
    // The shaft between carries a clutch as well, so the chain can't be taken out.
    assert!(sheet(&script).place.contains("layout of its own"));
    let mut script = searching("12, 36", "9 times slower");
    gears(&mut script, GearsInput::PutIn(0));
    assert_eq!(meshes(&script), ["g1:in-s2 12-36", "g2:s2-out 12-36"]);
    carry_on(&mut script);
    gears(
        &mut script,
        GearsInput::Type(GearsField::Ratio, "3 times slower".to_owned()),
    );
    script.input(Input::Select {
        targets: vec![Target::Shaft(Id::from("in")), Target::Shaft(Id::from("out"))],
        add: false,
        position: None,
    });
    carry_on(&mut script);
    gears(&mut script, GearsInput::PutIn(0));
    assert_eq!(meshes(&script), ["g1:in-out 12-36"]);
    assert_eq!(script.session.document.layout().shafts.len(), 2);
}

#[test]
fn the_bin_is_the_layouts_and_can_be_counted_up_and_down() {
    let mut script = searching("12x2, 36", "3 times slower");
    let bin = |script: &Script| script.session.document.layout().carried.get("bin").cloned();
    assert_eq!(
        bin(&script),
        Some(serde_json::json!([{"teeth": 12, "count": 2}, 36]))
    );
    gears(&mut script, GearsInput::More(12));
    gears(&mut script, GearsInput::AnyNumber(36, false));
    assert_eq!(sheet(&script).bin.entry.text, "12x3, 36x1");
    gears(&mut script, GearsInput::Less(36));
    assert_eq!(sheet(&script).bin.entry.text, "12x3");
    script.act(Action::Undo);
    assert_eq!(sheet(&script).bin.entry.text, "12x3, 36x1");
    gears(&mut script, GearsInput::Type(GearsField::Bin, String::new()));
    gears(&mut script, GearsInput::Keep(GearsField::Bin));
    assert_eq!(bin(&script), None);
    assert_eq!(sheet(&script).bin.offers.len(), 2);
    gears(&mut script, GearsInput::TakeBin(OfferedBin::Last));
    assert_eq!(sheet(&script).bin.entry.text, "12x3, 36x1");
}

#[test]
fn a_worm_gives_way_to_a_train_from_the_bin() {
    let mut script = searching("12, 36, 48", "12 times slower");
    gears(
        &mut script,
        GearsInput::Want {
            ratio: -1.0 / 12.0,
            replaces: Some(Id::from("wg")),
            tolerance: Some(0.02),
        },
    );
    let shown = sheet(&script);
    assert_eq!(shown.ratio.text, "12 times slower");
    assert_eq!(shown.tolerance.text, "2");
    assert!(
        shown.place.contains("worm") && shown.place.contains("from screw to branch"),
        "{}",
        shown.place
    );
    gears(&mut script, GearsInput::PutIn(0));
    let placed = meshes(&script);
    assert!(
        placed.iter().any(|mesh| mesh.starts_with("wg:screw-")),
        "{placed:?}"
    );
    let said = format!("{:?}", script.effects);
    assert!(!said.contains("turns the other way"), "{said}");
    script.act(Action::Undo);
    assert_eq!(meshes(&script).len(), 2);
}

#[test]
fn gears_that_pair_off_otherwise_are_listed_and_put_in() {
    let mut script = searching("8, 11, 28, 42", "13.3636 times slower");
    let found = sheet(&script);
    let row = &found.results.groups[0].rows[0];
    assert_eq!(row.stages, "8→28 · 11→42");
    assert_eq!(row.pairings[0].stages, "also 8→42 · 11→28");
    assert!(
        found.results.summary.contains("that makes 2 trains"),
        "{}",
        found.results.summary
    );
    script.input(Input::Select {
        targets: vec![Target::Element(Id::from("g2"))],
        add: false,
        position: None,
    });
    carry_on(&mut script);
    gears(&mut script, GearsInput::PutPairingIn(0, 0));
    assert!(meshes(&script)[1].ends_with("8-42"), "{:?}", meshes(&script));
}

#[test]
fn a_bin_that_cant_be_read_leaves_what_was_found_and_says_so() {
    let mut script = searching("12, 36", "9 times slower");
    gears(
        &mut script,
        GearsInput::Type(GearsField::Bin, "12, 36, soup".to_owned()),
    );
    assert_eq!(stages(&script), ["12→36 · 12→36"]);
    let said = sheet(&script).results.stale.clone();
    assert!(said.is_some_and(|said| said.ends_with("12, 36.")));
    gears(&mut script, GearsInput::Keep(GearsField::Bin));
    assert!(sheet(&script).bin.entry.problem.is_some());
    gears(
        &mut script,
        GearsInput::Type(GearsField::Bin, "8-12, 36".to_owned()),
    );
    assert_eq!(
        (
            sheet(&script).results.stale.clone(),
            sheet(&script).bin.rows.len()
        ),
        (None, 6)
    );
}

#[test]
fn typing_in_the_bin_leaves_redo_until_it_is_kept() {
    let mut script = searching("12, 36", "9 times slower");
    gears(&mut script, GearsInput::More(12));
    gears(&mut script, GearsInput::AnyNumber(12, false));
    script.act(Action::Undo);
    assert!(script.session.redo_name().is_some());
    gears(
        &mut script,
        GearsInput::Type(GearsField::Bin, "12, 36, 4".to_owned()),
    );
    assert!(script.session.redo_name().is_some());
    gears(
        &mut script,
        GearsInput::Type(GearsField::Bin, "12, 36".to_owned()),
    );
    gears(&mut script, GearsInput::Keep(GearsField::Bin));
    assert!(script.session.redo_name().is_some(), "nothing was changed");
}

#[test]
fn a_search_that_was_stopped_says_how_far_it_was_and_can_be_begun_again() {
    let mut script = searching("12, 36", "9 times slower");
    script.input(Input::Choose(ChooseInput::Gears(GearsInput::Type(
        GearsField::Ratio,
        "3 times slower".to_owned(),
    ))));
    let number = script.effects.iter().find_map(|effect| match effect {
        Effect::Compute { number, .. } => Some(*number),
        _ => None,
    });
    let progress = layshaft_choose::task::Progress { done: 45, of: 100 };
    let news = ChooseInput::News(number.expect("it searches"), News::Progress(progress));
    script.input(Input::Choose(news));
    assert!(sheet(&script).results.summary.starts_with("So far"));
    script.input(Input::Choose(ChooseInput::Stop));
    let found = sheet(&script);
    assert!(
        found.results.summary.starts_with("Stopped at 45\u{202F}%"),
        "{}",
        found.results.summary
    );
    assert_eq!(found.results.run, Some(crate::choosing::Run::Again));
    gears(&mut script, GearsInput::SearchAgain);
    assert_eq!(sheet(&script).results.run, None);
    assert_eq!(stages(&script)[0], "12→36");
}

#[test]
fn the_ratio_of_what_is_selected_is_filled_in_once() {
    let mut script = Script::demo("trail-cart-a");
    let select = |script: &mut Script, id: &str| {
        script.input(Input::Select {
            targets: vec![Target::Element(Id::from(id))],
            add: false,
            position: None,
        });
        carry_on(script);
    };
    script.input(Input::Choose(ChooseInput::Show(Tab::Gears)));
    select(&mut script, "wg");
    assert_eq!(sheet(&script).ratio.text, "12 times slower");
    gears(&mut script, GearsInput::Type(GearsField::Ratio, String::new()));
    assert_eq!(sheet(&script).ratio.text, "");
    assert!(sheet(&script).bin.entry.hint.starts_with("An example"));
}

#[test]
fn a_position_that_is_worse_off_is_named_when_a_train_is_put_in() {
    let mut script = searching("12, 36, 48", "12 times slower");
    script.input(Input::Select {
        targets: vec![Target::Element(Id::from("wg"))],
        add: false,
        position: None,
    });
    carry_on(&mut script);
    gears(&mut script, GearsInput::PutIn(0));
    let said = sheet(&script).results.became.clone().expect("it was put in");
    assert!(said.contains("First is worse off now"), "{said}");
    script.act(Action::Undo);
    assert_eq!(sheet(&script).results.became, None);
}
