//! The skeleton under the hand: the same selection, numbers edited where they stand, things dragged along and across.

use super::*;
use crate::drawings::Drawing;
use crate::target::Target;

fn on_skeleton() -> Script {
    let mut script = Script::demo("granary-hoist-stages");
    script.act(Action::Show(Drawing::Skeleton));
    script
}

/// The place of a thing on the screen.
fn place(script: &Script, target: &Target) -> (f64, f64) {
    let picture = script.session.picture().expect("the skeleton");
    let at = picture.place_of(target).expect("it is drawn");
    let at = script.session.view().to_screen(at);
    (at.x, at.y)
}

#[test]
fn the_key_shows_it_and_keeps_what_is_selected() {
    let mut script = Script::demo("granary-hoist-stages");
    script.input(Input::Select {
        targets: vec![Target::Shaft("mid".into())],
        add: false,
        position: None,
    });
    script.input(Input::Key(KeyPress::new("2", false, false, true)));
    assert_eq!(script.session.drawing(), Drawing::Skeleton);
    assert_eq!(script.selected(), ["shaft-mid"]);
}

#[test]
fn an_axis_is_dragged_down_as_one_change() {
    let mut script = on_skeleton();
    let drum = Target::Shaft("drum".into());
    let (x, y) = place(&script, &drum);
    script.drag((x, y), (x, y + 60.0));
    assert_eq!(script.session.undo_name().as_deref(), Some("Undo move drum"));
    assert!(script.session.layout().carried.contains_key("view"));
    script.act(Action::Undo);
    assert!(!script.session.layout().carried.contains_key("view"));
}

#[test]
fn esc_puts_a_drag_back() {
    let mut script = on_skeleton();
    let drum = Target::Shaft("drum".into());
    let (x, y) = place(&script, &drum);
    script.pointer(Phase::Down, x, y);
    script.drag_on((x, y), (x, y + 60.0));
    assert!(script.session.layout().carried.contains_key("view"));
    script.key("Escape");
    assert!(!script.session.layout().carried.contains_key("view"));
    assert_eq!(script.session.undo_name(), None);
}

#[test]
fn alt_with_arrows_moves_an_element_along_and_setting_out_puts_it_back() {
    let mut script = on_skeleton();
    script.input(Input::Select {
        targets: vec![Target::Element("g1".into())],
        add: false,
        position: None,
    });
    script.input(Input::Key(KeyPress::new("ArrowRight", false, false, true)));
    assert!(script.session.layout().carried.contains_key("view"));
    script.act(Action::SetSkeletonOut);
    assert!(!script.session.layout().carried.contains_key("view"));
}

#[test]
fn enter_edits_a_tooth_count_where_it_stands() {
    let mut script = on_skeleton();
    script.input(Input::Select {
        targets: vec![Target::Element("g1".into())],
        add: false,
        position: None,
    });
    script.key("Enter");
    let editing = script.session.editing().cloned().expect("an editor");
    assert!(editing.place.is_some(), "on the drawing");
    script.input(Input::Type {
        field: editing.field,
        text: "15".to_owned(),
    });
    script.input(Input::EndEdit);
    assert_eq!(script.ratio("mid"), "−5/14");
}
