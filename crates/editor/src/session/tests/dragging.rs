//! What a drag redraws: what moves, and nothing beside it until it is let go.

use super::*;
use crate::scene::Scene;

fn labels(scene: &Scene) -> Vec<(String, crate::geometry::Rect)> {
    let shafts = scene.shafts.iter().map(|item| &item.label);
    let elements = scene.elements.iter().filter_map(|item| item.label.as_ref());
    shafts
        .chain(elements)
        .map(|label| (label.key.clone(), label.bounds))
        .collect()
}

/// Ids of all that is another item than before.
fn redrawn(before: &Scene, after: &Scene) -> Vec<String> {
    let shafts = before.shafts.iter().zip(&after.shafts);
    let shafts = shafts
        .filter(|(one, other)| !Rc::ptr_eq(one, other))
        .map(|(one, _)| one.key.clone());
    let elements = before.elements.iter().zip(&after.elements);
    let elements = elements
        .filter(|(one, other)| !Rc::ptr_eq(one, other))
        .map(|(one, _)| one.key.clone());
    shafts.chain(elements).collect()
}

fn point(script: &mut Script, phase: Phase, at: Point) {
    script.pointer(phase, at.x, at.y);
}

/// The middle shaft of the clock, as it lies on the screen.
fn middle_shaft(script: &Script) -> (Id, Point) {
    let scene = script.session.scene();
    let item = &scene.shafts[scene.shafts.len() / 2];
    (item.id.clone(), script.session.view().to_screen(item.at))
}

#[test]
fn a_drag_redraws_what_stands_on_the_shaft_alone() {
    let mut script = Script::demo("clock-train");
    let (id, at) = middle_shaft(&script);
    point(&mut script, Phase::Down, at);
    point(&mut script, Phase::Move, at + Point::new(30.0, 20.0));
    let before = script.session.scene();
    point(&mut script, Phase::Move, at + Point::new(40.0, 30.0));
    let after = script.session.scene();
    let on_it: Vec<String> = script
        .session
        .layout()
        .elements
        .iter()
        .filter(|element| {
            crate::parts::ports(&element.kind)
                .iter()
                .any(|port| *port.shaft == id)
        })
        .map(|element| format!("element-{}", element.id))
        .collect();
    let redrawn = redrawn(&before, &after);
    assert!(redrawn.contains(&format!("shaft-{id}")), "{redrawn:?}");
    for key in redrawn.iter().filter(|key| **key != format!("shaft-{id}")) {
        assert!(on_it.contains(key), "{key} is redrawn, {on_it:?} stand on {id}");
    }
}

#[test]
fn what_is_let_go_is_drawn_as_if_it_had_always_stood_there() {
    let mut script = Script::demo("clock-train");
    let (_, at) = middle_shaft(&script);
    point(&mut script, Phase::Down, at);
    for step in 1..6 {
        point(
            &mut script,
            Phase::Move,
            at + Point::new(12.0, 17.0) * f64::from(step),
        );
        drop(script.session.scene());
    }
    point(&mut script, Phase::Up, at + Point::new(60.0, 85.0));
    let moved = script.session.scene();
    let mut fresh = Session::new((**script.session.layout()).clone());
    fresh.view = script.session.view();
    fresh.redraw();
    fresh.drawn.replace(None);
    assert_eq!(labels(&moved), labels(&fresh.scene()));
}

#[test]
fn a_drag_that_is_given_up_leaves_the_drawing_as_it_was() {
    let mut script = Script::demo("clock-train");
    let (_, at) = middle_shaft(&script);
    let before = labels(&script.session.scene());
    point(&mut script, Phase::Down, at);
    point(&mut script, Phase::Move, at + Point::new(50.0, 60.0));
    drop(script.session.scene());
    script.key("Escape");
    assert_eq!(labels(&script.session.scene()), before);
}

#[test]
fn selecting_something_redraws_it_alone() {
    let mut script = Script::demo("clock-train");
    let (id, _) = middle_shaft(&script);
    let before = script.session.scene();
    script.input(Input::Focus(Target::Shaft(id.clone())));
    let redrawn = redrawn(&before, &script.session.scene());
    assert_eq!(redrawn, [format!("shaft-{id}")]);
}
