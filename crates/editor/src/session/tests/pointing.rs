//! Placing, dragging, connecting and panning by pointer.

use super::*;

#[test]
fn a_mesh_on_the_bare_bench_brings_its_shafts() {
    let mut script = Script::empty();
    script.place(Kind::Mesh, 400.0, 300.0);
    script.check(&["s1 at 320 300", "s2 at 480 300", "g3: gear mesh on s1 s2"]);
    assert_eq!(script.session.tool(), Tool::Select, "one click, one part");
    assert_eq!(script.selected(), ["element-g3"]);
}

#[test]
fn a_click_on_a_shaft_builds_on_from_it() {
    let mut script = Script::empty();
    script
        .place(Kind::Mesh, 300.0, 300.0)
        .place(Kind::Mesh, 380.0, 300.0)
        .place(Kind::Winch, 540.0, 300.0);
    script.check(&[
        "s1 at 220 300",
        "s2 at 380 300",
        "s4 at 540 300",
        "g3: gear mesh on s1 s2",
        "g5: gear mesh on s2 s4",
        "winch6: winch on s4",
    ]);
    assert_eq!(script.ratio("s4"), "1/9");
}

#[test]
fn drawing_from_shaft_to_shaft_joins_them() {
    let mut script = Script::empty();
    script
        .place(Kind::Shaft, 200.0, 200.0)
        .place(Kind::Shaft, 500.0, 200.0);
    script
        .act(Action::Place(Kind::Chain))
        .drag((200.0, 200.0), (500.0, 200.0));
    script.check(&["s1 at 200 200", "s2 at 500 200", "chain3: chain on s1 s2"]);
}

#[test]
fn drawing_from_a_shaft_to_the_bare_bench_makes_the_other_one_there() {
    let mut script = Script::empty();
    script.place(Kind::Shaft, 200.0, 200.0);
    script
        .act(Action::Place(Kind::Mesh))
        .drag((200.0, 200.0), (404.0, 345.0));
    script.check(&["s1 at 200 200", "s2 at 400 340", "g3: gear mesh on s1 s2"]);
}

#[test]
fn a_press_that_does_not_reach_the_threshold_drags_nothing() {
    let mut script = Script::empty();
    script.place(Kind::Shaft, 200.0, 200.0);
    script.drag((200.0, 200.0), (202.0, 201.0));
    script.check(&["s1 at 200 200"]);
    assert_eq!(script.session.undo_name().as_deref(), Some("Undo place shaft s1"));
}

#[test]
fn a_drag_snaps_and_is_one_change() {
    let mut script = Script::empty();
    script
        .place(Kind::Shaft, 200.0, 200.0)
        .place(Kind::Shaft, 500.0, 400.0);
    script.drag((200.0, 200.0), (303.0, 397.0));
    script.check(&["s1 at 300 400", "s2 at 500 400"]);
    script
        .act(Action::Undo)
        .check(&["s1 at 200 200", "s2 at 500 400"]);
    script
        .act(Action::Redo)
        .check(&["s1 at 300 400", "s2 at 500 400"]);
}

#[test]
fn what_is_dragged_is_seen_moving_and_esc_puts_it_back() {
    let mut script = Script::empty();
    script.place(Kind::Shaft, 200.0, 200.0);
    script
        .pointer(Phase::Down, 200.0, 200.0)
        .drag_on((200.0, 200.0), (400.0, 300.0));
    script.check(&["s1 at 400 300"]);
    script.key("Escape").check(&["s1 at 200 200"]);
    script.pointer(Phase::Up, 400.0, 300.0).check(&["s1 at 200 200"]);
    assert_eq!(script.session.undo_name().as_deref(), Some("Undo place shaft s1"));
}

#[test]
fn undo_in_mid_drag_ends_the_drag_first() {
    let mut script = Script::empty();
    script
        .place(Kind::Shaft, 200.0, 200.0)
        .drag((200.0, 200.0), (300.0, 200.0));
    script
        .pointer(Phase::Down, 300.0, 200.0)
        .drag_on((300.0, 200.0), (500.0, 300.0));
    script.act(Action::Undo).check(&["s1 at 200 200"]);
    script.pointer(Phase::Up, 500.0, 300.0).check(&["s1 at 200 200"]);
}

#[test]
fn several_selected_things_move_together() {
    let mut script = Script::empty();
    script.place(Kind::Mesh, 300.0, 300.0).act(Action::SelectAll);
    script.drag((220.0, 300.0), (260.0, 400.0));
    script.check(&["s1 at 260 400", "s2 at 420 400", "g3: gear mesh on s1 s2"]);
}

#[test]
fn a_load_dropped_on_another_shaft_sits_on_that_one() {
    let mut script = Script::empty();
    script
        .place(Kind::Mesh, 300.0, 300.0)
        .place(Kind::Load, 380.0, 300.0);
    let load = script.session.scene().elements[1].at;
    script.drag((load.x, load.y), (220.0, 300.0));
    script.check(&[
        "s1 at 220 300",
        "s2 at 380 300",
        "g3: gear mesh on s1 s2",
        "load4: load on s1",
    ]);
    assert_eq!(script.announced(), "load4 connected to s1");
}

#[test]
fn the_end_of_a_selected_mesh_is_led_to_another_shaft() {
    let mut script = Script::empty();
    script
        .place(Kind::Mesh, 300.0, 300.0)
        .place(Kind::Shaft, 380.0, 500.0);
    script.click(300.0, 300.0);
    assert_eq!(script.selected(), ["element-g3"]);
    let handle = script.session.scene().elements[0].wires[1].handle();
    script.drag((handle.x, handle.y), (380.0, 500.0));
    assert_eq!(script.outline()[3], "g3: gear mesh on s1 s4");
    let handle = script.session.scene().elements[0].wires[1].handle();
    script.drag((handle.x, handle.y), (600.0, 500.0));
    assert_eq!(script.outline()[3..], ["s5 at 600 500", "g3: gear mesh on s1 s5"]);
}

#[test]
fn the_background_pans_and_changes_nothing() {
    let mut script = Script::empty();
    script.place(Kind::Mesh, 300.0, 300.0);
    let before = script.session.file_text();
    script.drag((700.0, 600.0), (650.0, 570.0));
    assert_eq!(script.session.view().origin, Point::new(50.0, 30.0));
    assert_eq!(script.session.file_text(), before);
    assert_eq!(
        script.session.undo_name().as_deref(),
        Some("Undo place gear mesh g3")
    );
}

#[test]
fn two_fingers_zoom_about_their_middle_and_give_up_a_drag() {
    let mut script = Script::empty();
    script.place(Kind::Shaft, 200.0, 200.0);
    let touch = |phase, id, x: f64, y: f64| {
        let at = Point::new(x, y);
        Input::Pointer(Pointer {
            phase,
            id,
            at,
            button: Button::Primary,
            kind: PointerKind::Touch,
            modifiers: Modifiers::default(),
        })
    };
    script
        .input(touch(Phase::Down, 1, 200.0, 200.0))
        .input(touch(Phase::Move, 1, 260.0, 200.0));
    script.check(&["s1 at 260 200"]);
    script.input(touch(Phase::Down, 2, 460.0, 200.0));
    script.check(&["s1 at 200 200"]);
    let middle = Point::new(360.0, 200.0);
    let fixed = script.session.view().to_bench(middle);
    script
        .input(touch(Phase::Move, 1, 160.0, 200.0))
        .input(touch(Phase::Move, 2, 560.0, 200.0));
    let view = script.session.view();
    assert!((view.zoom - 2.0).abs() < 1e-9, "{view:?}");
    assert!(view.to_screen(fixed).distance(middle) < 1e-6, "{view:?}");
    script
        .input(touch(Phase::Up, 1, 160.0, 200.0))
        .input(touch(Phase::Up, 2, 560.0, 200.0));
    script.check(&["s1 at 200 200"]);
}

#[test]
fn a_click_on_a_tooth_count_edits_it_where_it_stands() {
    let mut script = Script::empty();
    script.place(Kind::Mesh, 300.0, 300.0);
    let place =
        crate::hit::edit_place(&script.session.scene(), &teeth("g3", 0)).expect("it is on the drawing");
    script.click(place.centre().x, place.centre().y);
    let editing = script.session.editing().expect("it is being edited");
    assert_eq!((editing.text.as_str(), editing.place.is_some()), ("12", true));
    assert!(script.effects.contains(&Effect::FocusField(teeth("g3", 0))));
}

#[test]
fn a_symbol_dragged_from_the_tray_lands_where_it_is_dropped() {
    let mut script = Script::empty();
    script.input(Input::TrayOver(Kind::Motor, Point::new(300.0, 300.0)));
    assert!(script.session.scene().overlay.ghost.is_some());
    script.input(Input::TrayDrop(Kind::Motor, Point::new(300.0, 300.0)));
    script.check(&["s1 at 380 300", "motor2: motor on s1"]);
    assert!(script.session.scene().overlay.ghost.is_none());
    script.input(Input::TrayDrop(Kind::Mesh, Point::new(380.0, 300.0)));
    assert_eq!(script.outline()[3], "g4: gear mesh on s1 s3");
}

#[test]
fn a_ratio_on_the_drawing_opens_its_working() {
    let mut script = Script::demo("granary-hoist-stages");
    let scene = script.session.scene();
    let label = &scene.shafts[2].label;
    let run = label.lines[1]
        .runs
        .iter()
        .find(|run| matches!(run.content, crate::scene::RunContent::Ratio(_)));
    let at = script.session.view().to_screen(Point::new(
        run.expect("a ratio").middle(),
        label.lines[1].baseline - 4.0,
    ));
    script.click(at.x, at.y);
    assert_eq!(script.session.panel(), Some(Panel::Working));
    assert_eq!(
        script
            .session
            .working()
            .map(|sheet| sheet.shaft.to_string())
            .as_deref(),
        Some("drum")
    );
}
