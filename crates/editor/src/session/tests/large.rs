//! Large layouts: what a gesture or a choice leaves as it was, and that sparing work changes nothing that is seen.

use layshaft_layout::{Group, Layout, decode};

use super::*;
use crate::drawings::Drawing;
use crate::scene::{Afloat, Scene};
use crate::target::Target;

/// Shafts on a grid of ten columns, each meshing with one before it.
fn grid(meshes: usize) -> Layout {
    let shafts: Vec<String> = (0..=meshes)
        .map(|n| format!(r#"{{"id": "s{n}", "at": [{}, {}]}}"#, n % 10 * 180, n / 10 * 180))
        .collect();
    let mut parts = vec![
        r#"{"id": "m", "kind": "crank", "shaft": "s0", "speed_rpm": 60, "limit_nm": 1}"#.to_owned(),
        format!(r#"{{"id": "l", "kind": "load", "shaft": "s{meshes}", "torque_nm": 0.01}}"#),
    ];
    parts.extend((1..=meshes).map(|n| {
        let from = if n % 4 == 0 { n - (n - 1).min(9) - 1 } else { n - 1 };
        format!(
            r#"{{"id": "g{n}", "kind": "mesh", "a": "s{from}", "b": "s{n}", "teeth": [{}, {}]}}"#,
            12 + n % 7,
            14 + n % 5
        )
    }));
    let text = format!(
        r#"{{"layshaft": 1, "shafts": [{}], "elements": [{}]}}"#,
        shafts.join(", "),
        parts.join(", ")
    );
    decode(&text).expect("sound")
}

fn with_groups(mut layout: Layout) -> Layout {
    let group = |id: &str, members: &[&str], folded| Group {
        id: id.into(),
        name: id.to_owned(),
        members: members.iter().map(|id| (*id).into()).collect(),
        folded,
    };
    layout.groups.push(group("box", &["s2", "s3", "g3"], true));
    layout.groups.push(group("frame", &["s62", "s63", "g63"], false));
    layout
}

/// Takes hold of a shaft and moves it by some steps; gives the drawing in two after each.
fn dragged(script: &mut Script, shaft: &str, steps: u32) -> Vec<Rc<Afloat>> {
    let at = script.session.scene().place_of(&Target::Shaft(shaft.into()));
    let at = script.session.view().to_screen(at.expect("on the drawing"));
    script.pointer(Phase::Down, at.x, at.y);
    let moves = (1..=steps).map(|step| {
        script.pointer(Phase::Move, at.x + 9.0 * f64::from(step), at.y + 5.0);
        script.session.afloat().expect("something is dragged")
    });
    moves.collect()
}

/// How many items are others than before.
fn changed(before: &Scene, after: &Scene) -> usize {
    let shafts = before.shafts.iter().zip(&after.shafts);
    let elements = before.elements.iter().zip(&after.elements);
    let groups = before.groups.iter().zip(&after.groups);
    shafts.filter(|(one, other)| !Rc::ptr_eq(one, other)).count()
        + elements.filter(|(one, other)| !Rc::ptr_eq(one, other)).count()
        + groups.filter(|(one, other)| !Rc::ptr_eq(one, other)).count()
}

#[test]
fn what_stands_still_in_a_drag_is_left_alone() {
    for layout in [grid(120), with_groups(grid(120))] {
        let mut script = Script::of(layout);
        let steps = dragged(&mut script, "s55", 4);
        for pair in steps.windows(2) {
            assert!(Rc::ptr_eq(&pair[0].still, &pair[1].still), "drawn anew at a step");
        }
        let (last, whole) = (&steps[3], script.session.scene());
        let (moved, still) = (&last.moved, &last.still);
        let count = moved.shafts.len() + moved.elements.len() + moved.groups.len();
        assert!((2..12).contains(&count), "{count} items move");
        assert_eq!(
            still.shafts.iter().filter(|item| item.is_away).count(),
            moved.shafts.len()
        );
        for (item, now) in still.elements.iter().zip(&whole.elements) {
            assert!(item.is_away || item == now, "{} is not as it is now", item.key);
        }
        assert_eq!(moved.overlay, whole.overlay);
        script.pointer(Phase::Up, 700.0, 400.0);
        assert!(script.session.afloat().is_none());
        assert!(script.session.scene().shafts.iter().all(|item| !item.is_away));
    }
}

#[test]
fn a_small_layout_is_drawn_whole() {
    let mut script = Script::of(grid(20));
    let at = script
        .session
        .view()
        .to_screen(script.session.scene().shafts[5].at);
    script.pointer(Phase::Down, at.x, at.y);
    script.pointer(Phase::Move, at.x + 30.0, at.y);
    assert!(script.session.afloat().is_none());
}

#[test]
fn a_drag_beside_groups_changes_what_moves_alone() {
    let mut script = Script::of(with_groups(grid(120)));
    dragged(&mut script, "s55", 1);
    let before = script.session.scene();
    dragged(&mut script, "s55", 2);
    let changed = changed(&before, &script.session.scene());
    assert!((2..12).contains(&changed), "{changed} items changed");
}

#[test]
fn choosing_something_lays_no_plan_out_anew() {
    for drawing in [Drawing::Plan, Drawing::Skeleton] {
        let mut script = Script::of(grid(40));
        script.session.show_drawing(drawing, &mut Vec::new());
        let before = script.session.picture().expect("drawn");
        let laid = script.session.laid(script.session.layout());
        let chosen = Target::Element("g7".into());
        script.session.select(vec![chosen.clone()]);
        let after = script.session.picture().expect("drawn");
        let pairs = before.items.iter().zip(&after.items);
        let others: Vec<&Target> = pairs
            .filter(|(one, other)| !Rc::ptr_eq(one, other))
            .map(|(one, _)| &one.target)
            .collect();
        assert_eq!(others, [&chosen], "on the {}", drawing.name());
        assert_eq!(*after, script.session.draw_picture(drawing));
        assert!(Rc::ptr_eq(&laid, &script.session.laid(script.session.layout())));
    }
}

#[test]
fn a_place_on_the_bench_and_a_title_lay_no_plan_out_anew() {
    let mut script = Script::of(grid(40));
    let laid = script.session.laid(script.session.layout());
    let mut layout = (**script.session.layout()).clone();
    "other".clone_into(&mut layout.title);
    layout.shafts[3].at = [5.0, 5.0];
    let moved = Rc::new(layout.clone());
    assert!(Rc::ptr_eq(&laid, &script.session.laid(&moved)));
    layout.shafts[3].axis_mm = Some([5.0, 5.0]);
    let other = Rc::new(layout);
    assert!(!Rc::ptr_eq(&laid, &script.session.laid(&other)));
    script.session.redraw();
    assert!(Rc::ptr_eq(&laid, &script.session.laid(script.session.layout())));
}
