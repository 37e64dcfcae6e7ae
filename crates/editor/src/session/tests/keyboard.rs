//! Everything by keys alone.

use super::*;

#[test]
fn a_hoist_is_typed_as_a_row_of_keys() {
    let mut script = Script::empty();
    script.keys("ommn");
    let outline = script.outline();
    let elements: Vec<&str> = outline.iter().skip(3).map(String::as_str).collect();
    assert_eq!(
        elements,
        [
            "motor2: motor on s1",
            "g4: gear mesh on s1 s3",
            "g6: gear mesh on s3 s5",
            "winch7: winch on s5"
        ]
    );
    assert_eq!(script.ratio("s5"), "1/9");
    assert_eq!(script.selected(), ["shaft-s5"]);
    assert!(
        script
            .session
            .headline()
            .headline
            .starts_with("Turns 9 times slower, pulls")
    );
}

#[test]
fn arrows_go_along_what_is_connected() {
    let mut script = Script::empty();
    script.keys("omm").key("ArrowLeft");
    assert_eq!(script.selected(), ["element-g6"]);
    script
        .key("ArrowLeft")
        .key("ArrowLeft")
        .key("ArrowLeft")
        .key("ArrowLeft");
    assert_eq!(script.selected(), ["element-motor2"]);
    script.key("ArrowLeft");
    assert_eq!(script.announced(), "Nothing is connected that way");
    script.key("ArrowRight");
    assert_eq!(script.selected(), ["shaft-s1"]);
    assert!(
        script
            .effects
            .contains(&Effect::Focus(Target::Shaft(Id::from("s1"))))
    );
}

#[test]
fn two_selected_shafts_are_joined_by_the_next_part() {
    let mut script = Script::empty();
    script.keys("mm").key("ArrowLeft").key("ArrowLeft");
    assert_eq!(script.selected(), ["shaft-s2"]);
    script.shift("ArrowRight").shift("ArrowRight");
    assert_eq!(script.selected(), ["shaft-s2", "element-g5", "shaft-s4"]);
    script.key("k");
    assert_eq!(
        script.outline().last().map(String::as_str),
        Some("clutch6: dog clutch on s2 s4")
    );
}

#[test]
fn a_planetary_set_has_its_sun_on_the_selected_shaft_and_goes_on_from_its_carrier() {
    let mut script = Script::empty();
    script.keys("ap");
    let outline = script.outline();
    assert_eq!(
        outline.last().map(String::as_str),
        Some("set5: planetary set on s1 s3 s4")
    );
    assert_eq!(script.selected(), ["shaft-s4"]);
}

#[test]
fn enter_edits_a_tooth_count_and_plus_steps_it() {
    let mut script = Script::empty();
    script.keys("m").key("ArrowLeft").key("Enter");
    assert_eq!(
        script.session.editing().map(|editing| editing.field.clone()),
        Some(teeth("g3", 0))
    );
    script.type_into(&teeth("g3", 0), "18").input(Input::EndEdit);
    assert_eq!(script.ratio("s2"), "−1/2");
    script.key("+");
    assert_eq!(script.ratio("s2"), "−19/36");
    script.key("PageUp");
    assert_eq!(
        (script.ratio("s2"), script.announced()),
        (
            "−2/3".to_owned(),
            "teeth of the first gear 24: s2, ratio minus two thirds".to_owned()
        )
    );
    script.key("-");
    assert_eq!(
        script.session.undo_name().as_deref(),
        Some("Undo set teeth of the first gear")
    );
}

#[test]
fn delete_takes_a_shaft_with_what_sits_on_it_and_undo_brings_all_back() {
    let mut script = Script::empty();
    script.keys("omm");
    let before = script.session.file_text();
    script.key("ArrowLeft").key("ArrowLeft").key("Delete");
    assert_eq!(
        script.outline(),
        ["s1 at 580 360", "s5 at 900 360", "motor2: motor on s1"]
    );
    assert!(script.session.selection().is_empty());
    script.act(Action::Undo);
    assert_eq!(script.session.file_text(), before);
    assert_eq!(script.announced(), "Undone: delete s3");
}

#[test]
fn esc_backs_out_of_one_thing_at_a_time() {
    let mut script = Script::empty();
    script
        .keys("m")
        .act(Action::Toggle(Panel::Ledger))
        .act(Action::Place(Kind::Worm));
    script.key("Escape");
    assert_eq!(
        (script.session.tool(), script.session.panel()),
        (Tool::Select, Some(Panel::Ledger))
    );
    script.key("Escape");
    assert_eq!((script.session.panel(), script.selected().len()), (None, 1));
    script.key("Escape");
    assert!(script.selected().is_empty());
}

#[test]
fn what_is_placed_by_key_comes_into_view() {
    let mut script = Script::empty();
    script.keys("mmmmmmmmmm");
    let scene = script.session.scene();
    let view = script.session.view();
    let last = view.to_screen(scene.shafts[10].at);
    assert!(
        last.x > 0.0 && last.x < 1000.0 && last.y > 0.0 && last.y < 700.0,
        "{last:?}"
    );
}

#[test]
fn nudging_moves_by_the_grid_as_one_change() {
    let mut script = Script::empty();
    script.place(Kind::Shaft, 200.0, 200.0);
    script.input(Input::Key(KeyPress::new("ArrowRight", false, false, true)));
    script.check(&["s1 at 220 200"]);
    script.act(Action::Undo).check(&["s1 at 200 200"]);
}

#[test]
fn a_cart_takes_all_selected_shafts_as_driven_wheels() {
    let mut script = Script::empty();
    script.place(Kind::Differential, 400.0, 300.0);
    script.input(Input::Select {
        targets: vec![Target::Shaft(Id::from("s1")), Target::Shaft(Id::from("s2"))],
        add: false,
        position: None,
    });
    script.key("v");
    assert_eq!(
        script.outline().last().map(String::as_str),
        Some("cart5: vehicle on s1 s2")
    );
}

#[test]
fn a_brake_above_its_shaft_has_its_frame_on_top() {
    let mut script = Script::empty();
    script.keys("mh");
    let angles: Vec<f64> = script
        .session
        .scene()
        .elements
        .iter()
        .map(|element| element.angle_deg)
        .collect();
    assert_eq!(angles, [0.0, 0.0]);
    let brake = script.session.scene().elements[1].at;
    script.drag(
        (brake.x, brake.y),
        (brake.x, brake.y - 2.0 * crate::scene::ONE_PORT_REACH),
    );
    assert_eq!(script.session.scene().elements[1].angle_deg, 180.0);
}

#[test]
fn arrows_select_and_leave_the_sheet_that_is_open() {
    let mut script = Script::demo("trail-cart-a");
    script.act(Action::Toggle(Panel::Choose));
    for key in ["ArrowRight", "ArrowRight", "ArrowDown", "ArrowLeft"] {
        script.key(key);
        assert_eq!(script.session.panel(), Some(Panel::Choose), "after {key}");
    }
    assert!(!script.session.selection().is_empty());
}

#[test]
fn colours_change_visibly_at_the_first_press() {
    let check = |is_dark: bool, expected: [Theme; 3]| {
        let mut script = Script::demo("trail-cart-a");
        script.input(Input::SystemIsDark(is_dark));
        let seen = expected.map(|_| {
            script.act(Action::ChangeTheme);
            script.session.theme()
        });
        assert_eq!(seen, expected);
    };
    check(false, [Theme::Slate, Theme::Paper, Theme::System]);
    check(true, [Theme::Paper, Theme::Slate, Theme::System]);
}
