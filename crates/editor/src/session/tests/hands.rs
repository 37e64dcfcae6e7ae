//! Selecting several things, the clipboard, aligning, groups, the menu, and fingers that rest.

use super::*;
use crate::aligning::{Alignment, Axis};
use crate::tools::Framing;

const HOIST: &str = include_str!("../../../../../tests/layouts/groups.layshaft.json");

/// The stored hoist with its gearbox folded, bench and screen coordinates the same but for an offset of 200.
fn hoist() -> Script {
    let mut script = Script::empty();
    script.input(Input::OpenText {
        text: HOIST.to_owned(),
        name: "hoist".to_owned(),
    });
    script.session.view.origin = Point::new(-200.0, -300.0);
    script.session.view.zoom = 1.0;
    script.session.follows = false;
    script
}

/// Three plain shafts.
fn three() -> Script {
    let mut script = Script::empty();
    for (x, y) in [(200.0, 200.0), (300.0, 260.0), (600.0, 400.0)] {
        script.place(Kind::Shaft, x, y);
    }
    script
}

fn select(script: &mut Script, keys: &[&str]) {
    let all = script.session.all_parts();
    let targets = keys.iter().map(|key| {
        all.iter()
            .find(|target| target.key() == **key)
            .expect("it is there")
            .clone()
    });
    script.input(Input::Select {
        targets: targets.collect(),
        add: false,
        position: None,
    });
}

fn touch(script: &mut Script, phase: Phase, x: f64, y: f64) {
    script.input(Input::Pointer(Pointer {
        phase,
        id: 7,
        at: Point::new(x, y),
        button: Button::Primary,
        kind: PointerKind::Touch,
        modifiers: Modifiers::default(),
    }));
}

fn names(script: &Script) -> Vec<String> {
    let menu = script.session.menu();
    menu.map(|menu| menu.entries.iter().map(|entry| entry.name.clone()).collect())
        .unwrap_or_default()
}

#[test]
fn what_is_copied_is_pasted_with_its_connections_and_undone_at_once() {
    let mut script = Script::empty();
    script.place(Kind::Mesh, 300.0, 300.0);
    select(&mut script, &["shaft-s2", "element-g3"]);
    let text = script.session.copied_text().expect("something is selected");
    script.input(Input::Copied { cut: false });
    assert_eq!(script.announced(), "2 things copied");
    script
        .pointer(Phase::Move, 500.0, 500.0)
        .input(Input::Paste(text));
    script.check(&[
        "s1 at 220 300",
        "s2 at 380 300",
        "s4 at 500 500",
        "g3: gear mesh on s1 s2",
        "g5: gear mesh on s1 s4",
    ]);
    assert_eq!(script.selected(), ["shaft-s4", "element-g5"]);
    assert_eq!(script.session.undo_name().as_deref(), Some("Undo paste 2 things"));
    script.act(Action::Undo);
    assert_eq!(script.outline().len(), 3);
}

#[test]
fn what_is_cut_comes_back_under_its_name() {
    let mut script = Script::empty();
    script.place(Kind::Mesh, 300.0, 300.0);
    select(&mut script, &["element-g3"]);
    let text = script.session.copied_text().expect("something is selected");
    script.input(Input::Copied { cut: true });
    script.check(&["s1 at 220 300", "s2 at 380 300"]);
    script.input(Input::Paste(text));
    script.check(&["s1 at 220 300", "s2 at 380 300", "g3: gear mesh on s1 s2"]);
}

#[test]
fn in_another_layout_a_part_brings_its_shafts() {
    let mut script = Script::empty();
    script.place(Kind::Mesh, 300.0, 300.0);
    select(&mut script, &["element-g3"]);
    let text = script.session.copied_text().expect("something is selected");
    let mut other = hoist();
    other.pointer(Phase::Move, 500.0, 100.0).input(Input::Paste(text));
    assert_eq!(other.session.layout().shafts.len(), 5);
    assert_eq!(other.session.layout().elements.len(), 5);
}

#[test]
fn a_whole_layout_goes_below_and_may_be_opened_instead() {
    let mut script = Script::empty();
    script.place(Kind::Mesh, 300.0, 300.0);
    script.input(Input::Paste(HOIST.to_owned()));
    assert_eq!(script.session.layout().shafts.len(), 5);
    assert!(script.session.offer().is_some());
    script.input(Input::Paste("Dear Anna".to_owned()));
    assert!(script.session.offer().is_none(), "another message offers nothing");
    script.act(Action::Undo).input(Input::Paste(HOIST.to_owned()));
    script.input(Input::TakeOffer);
    assert_eq!(script.session.layout().shafts.len(), 3);
    assert_eq!(script.session.offer(), None);
    script.act(Action::Undo);
    assert_eq!(script.outline().len(), 3, "the bench from before is back");
}

#[test]
fn a_text_that_is_no_layout_is_refused_in_a_sentence() {
    let mut script = three();
    let before = script.outline();
    script.input(Input::Paste("Dear Anna".to_owned()));
    let message = script.session.message().expect("it says why");
    assert!(message.is_error && message.text.starts_with("There is no layout on the clipboard"));
    assert_eq!(script.outline(), before);
}

#[test]
fn where_the_browser_refuses_what_was_copied_here_is_pasted() {
    let mut script = three();
    script.act(Action::Paste);
    assert_eq!(script.effects, [Effect::ReadClipboard]);
    script.input(Input::PasteRefused);
    assert!(
        script
            .session
            .message()
            .is_some_and(|message| message.text.contains("Ctrl+V"))
    );
    select(&mut script, &["shaft-s1"]);
    script.act(Action::Copy);
    assert!(matches!(&script.effects[0], Effect::CopyText(text) if text.contains("s1")));
    script.input(Input::PasteRefused);
    assert_eq!(script.outline().len(), 4);
}

#[test]
fn things_are_aligned_and_spread_out_in_one_step() {
    let mut script = three();
    script.act(Action::SelectAll).act(Action::Align(Alignment::Top));
    script.check(&["s1 at 200 200", "s2 at 300 200", "s3 at 600 200"]);
    script.act(Action::SpreadOut(Axis::Across));
    script.check(&["s1 at 200 200", "s2 at 400 200", "s3 at 600 200"]);
    script.act(Action::Align(Alignment::Middle));
    assert_eq!(script.announced(), "They stand so already");
    script.act(Action::Undo).act(Action::Undo);
    script.check(&["s1 at 200 200", "s2 at 300 260", "s3 at 600 400"]);
}

#[test]
fn one_thing_is_not_aligned_and_is_told_why() {
    let mut script = three();
    select(&mut script, &["shaft-s1"]);
    script.act(Action::Align(Alignment::Left));
    assert_eq!(script.announced(), "Select two or more things first");
    let listed = script.session.actions("align left");
    assert_eq!(listed[0].why_not, Some("Select two or more things first"));
}

#[test]
fn a_group_is_named_folded_and_dissolved() {
    let mut script = Script::empty();
    script
        .place(Kind::Mesh, 300.0, 300.0)
        .place(Kind::Mesh, 380.0, 300.0)
        .input(Input::EndEdit);
    select(&mut script, &["element-g3", "element-g5"]);
    script.act(Action::Group);
    let group = script.session.layout().groups[0].clone();
    assert_eq!(group.members.len(), 3, "the shaft between them belongs to it");
    let field = script
        .session
        .editing()
        .expect("its name can be typed")
        .field
        .clone();
    script.type_into(&field, "Gearbox").input(Input::EndEdit);
    assert_eq!(script.session.layout().groups[0].name, "Gearbox");
    script.act(Action::Fold);
    let scene = script.session.scene();
    assert_eq!((scene.shafts.len(), scene.elements.len()), (2, 0));
    assert_eq!(scene.groups[0].wires.len(), 2);
    assert!(
        scene.groups[0]
            .spoken
            .starts_with("group Gearbox, folded, 3 parts, from s1 to s4, ratio one ninth"),
        "{}",
        scene.groups[0].spoken
    );
    // Enter opens it again.
    script.key("Enter");
    assert!(!script.session.layout().groups[0].folded);
    script.act(Action::Ungroup);
    assert_eq!(script.session.layout().groups, []);
    assert_eq!(script.session.selection().len(), 3);
}

#[test]
fn a_folded_group_moves_with_all_that_is_in_it() {
    let mut script = hoist();
    let before = script.session.report().clone();
    script.drag((360.0, 300.0), (440.0, 380.0));
    assert_eq!(script.session.layout().shafts[1].at, [240.0, 80.0]);
    assert_eq!(script.session.layout().shafts[0].at, [0.0, 0.0]);
    assert_eq!(**script.session.report(), *before, "nothing is computed anew");
    script.act(Action::Undo);
    assert_eq!(script.session.layout().shafts[1].at, [160.0, 0.0]);
}

#[test]
fn esc_puts_a_dragged_group_back() {
    let mut script = hoist();
    script.pointer(Phase::Down, 360.0, 300.0);
    script.drag_on((360.0, 300.0), (440.0, 380.0)).key("Escape");
    assert_eq!(script.session.layout().shafts[1].at, [160.0, 0.0]);
    assert_eq!(script.session.undo_name(), None);
}

#[test]
fn a_finding_about_something_inside_lights_the_group() {
    let mut script = hoist();
    script.input(Input::Light(vec![Target::Element(Id::from("g1"))]));
    assert_eq!(
        script.session.scene().groups[0].emphasis,
        crate::scene::Emphasis::Lit
    );
    script.input(Input::Select {
        targets: vec![Target::Element(Id::from("g1"))],
        add: false,
        position: None,
    });
    assert_eq!(
        script.session.scene().groups[0].emphasis,
        crate::scene::Emphasis::Focused
    );
}

#[test]
fn arrow_keys_go_through_a_folded_group() {
    let mut script = hoist();
    select(&mut script, &["shaft-motor"]);
    script.key("ArrowRight");
    assert_eq!(script.selected(), ["group-box"]);
    script.key("ArrowRight");
    assert_eq!(script.selected(), ["shaft-drum"]);
}

#[test]
fn deleting_a_folded_group_takes_what_is_in_it() {
    let mut script = hoist();
    select(&mut script, &["group-box"]);
    script.act(Action::Delete);
    assert_eq!(script.session.layout().elements.len(), 2);
    assert_eq!(script.session.layout().groups.len(), 1);
    script.act(Action::Undo);
    assert_eq!(script.session.layout().groups.len(), 2);
}

#[test]
fn the_rectangle_in_hand_selects_without_any_key() {
    let mut script = three();
    script.input(Input::Select {
        targets: Vec::new(),
        add: false,
        position: None,
    });
    script
        .act(Action::SelectArea)
        .drag((150.0, 150.0), (350.0, 300.0));
    assert_eq!(script.selected(), ["shaft-s1", "shaft-s2"]);
    assert_eq!(script.session.tool(), Tool::Select);
    let bar = script.session.selection_bar().expect("two are selected");
    assert_eq!(bar.text, "2 selected");
    script.act(Action::Cancel);
    assert!(script.session.selection_bar().is_none());
}

#[test]
fn a_finger_that_rests_on_the_bench_draws_a_rectangle() {
    let mut script = three();
    touch(&mut script, Phase::Down, 150.0, 150.0);
    script.input(Input::LongPress(7));
    assert!(matches!(
        script.session.selecting,
        Selecting::Framing(Framing { is_held: true, .. })
    ));
    touch(&mut script, Phase::Move, 350.0, 300.0);
    touch(&mut script, Phase::Up, 350.0, 300.0);
    assert!(
        script.selected().contains(&"shaft-s1".to_owned())
            && script.selected().contains(&"shaft-s2".to_owned())
    );
    // Let go where it was, it opens the menu of the bench.
    touch(&mut script, Phase::Down, 800.0, 600.0);
    script.input(Input::LongPress(7));
    touch(&mut script, Phase::Up, 802.0, 600.0);
    assert_eq!(
        script.session.menu().map(|menu| menu.title.as_str()),
        Some("Bench")
    );
}

#[test]
fn a_finger_that_has_moved_does_not_rest() {
    let mut script = three();
    touch(&mut script, Phase::Down, 150.0, 150.0);
    touch(&mut script, Phase::Move, 180.0, 150.0);
    script.input(Input::LongPress(7));
    assert!(matches!(script.session.selecting, Selecting::Panning { .. }));
}

#[test]
fn the_menu_of_a_thing_has_what_applies_and_gives_the_focus_back() {
    let mut script = three();
    script.input(Input::OpenMenu(Point::new(200.0, 200.0), PointerKind::Mouse));
    assert_eq!(script.selected(), ["shaft-s1"]);
    assert_eq!(
        script.session.menu().map(|menu| menu.title.as_str()),
        Some("shaft s1")
    );
    let lines = names(&script);
    assert!(
        lines.contains(&"Delete".to_owned()) && !lines.contains(&"Align left".to_owned()),
        "{lines:?}"
    );
    let number = lines
        .iter()
        .position(|name| name == "Duplicate")
        .expect("it is there");
    script.input(Input::ChooseFromMenu(number));
    assert!(script.session.menu().is_none());
    assert_eq!(script.outline().len(), 4);
    script
        .input(Input::OpenMenu(Point::new(600.0, 400.0), PointerKind::Mouse))
        .key("Escape");
    assert!(script.session.menu().is_none());
    assert_eq!(script.effects, [Effect::Focus(Target::Shaft(Id::from("s3")))]);
}

#[test]
fn the_menu_of_the_bench_places_and_pastes_where_it_was_opened() {
    let mut script = three();
    script.input(Input::OpenMenu(Point::new(800.0, 600.0), PointerKind::Mouse));
    let lines = names(&script);
    assert_eq!(lines[..2], ["Paste here", "Place shaft here"]);
    script.input(Input::ChooseFromMenu(1));
    assert_eq!(script.outline()[3], "s4 at 800 600");
    select(&mut script, &["shaft-s1"]);
    script.act(Action::Copy);
    script.input(Input::OpenMenu(Point::new(400.0, 600.0), PointerKind::Mouse));
    script.input(Input::ChooseFromMenu(0)).input(Input::PasteRefused);
    assert_eq!(script.outline()[4], "s5 at 400 600");
}

#[test]
fn the_menu_key_opens_the_menu_of_what_is_selected() {
    let mut script = three();
    select(&mut script, &["shaft-s2"]);
    script.key("ContextMenu");
    let menu = script.session.menu().expect("it is open");
    assert_eq!(
        (menu.title.as_str(), menu.at),
        ("shaft s2", Point::new(300.0, 260.0))
    );
}

#[test]
fn the_space_bar_pans_while_held_and_means_nothing_else_then() {
    let mut script = three();
    let origin = script.session.view().origin;
    script.input(Input::Space(true));
    script.drag((200.0, 200.0), (260.0, 200.0));
    assert_eq!(script.session.view().origin, origin - Point::new(60.0, 0.0));
    script.input(Input::Space(false));
    assert_eq!(script.effects, Vec::new());
    script.check(&["s1 at 200 200", "s2 at 300 260", "s3 at 600 400"]);
}

#[test]
fn equal_gaps_snap_unless_alt_is_held() {
    let mut script = three();
    script.act(Action::SelectAll).act(Action::Align(Alignment::Top));
    script.click(800.0, 600.0);
    script.pointer(Phase::Down, 600.0, 200.0);
    script.drag_on((600.0, 200.0), (404.0, 203.0));
    assert_eq!(script.session.layout().shafts[2].at, [400.0, 200.0]);
    assert_eq!(script.session.scene().overlay.gaps.len(), 2);
    script.pointer(Phase::Up, 404.0, 203.0);
    assert!(script.session.scene().overlay.gaps.is_empty());
}

#[test]
fn actions_are_found_by_key_too() {
    let script = three();
    let found = script.session.actions("ctrl+g");
    assert!(found.iter().any(|listed| listed.info.action == Action::Group));
    let undo = &script.session.actions("undo")[0];
    assert_eq!(undo.info.action, Action::Undo);
}
