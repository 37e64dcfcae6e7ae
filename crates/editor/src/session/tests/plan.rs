//! The plan under the hand: dragging in one step, Esc, layers, settings, saving outlines.

use super::*;
use crate::actions::PlanAct;
use crate::drawings::Drawing;
use crate::target::Target;

fn on_plan() -> Script {
    let mut script = Script::demo("granary-hoist-stages");
    script.act(Action::Show(Drawing::Plan));
    script
}

fn place(script: &Script, id: &str) -> (f64, f64) {
    let picture = script.session.picture().expect("the plan");
    let at = picture.place_of(&Target::Shaft(id.into())).expect("it is drawn");
    let at = script.session.view().to_screen(at);
    (at.x, at.y)
}

fn axis(script: &Script, id: &str) -> Option<[f64; 2]> {
    script
        .session
        .layout()
        .shaft(&id.into())
        .and_then(|shaft| shaft.axis_mm)
}

#[test]
fn a_shaft_dragged_near_its_mesh_snaps_and_is_one_step() {
    let mut script = on_plan();
    let (x, y) = place(&script, "drum");
    script.drag((x, y), (x - 6.0, y + 30.0));
    let (drum, mid) = (
        axis(&script, "drum").expect("placed"),
        axis(&script, "mid").expect("kept where it was"),
    );
    let apart = (drum[0] - mid[0]).hypot(drum[1] - mid[1]);
    assert!(
        (apart - 32.5).abs() < 1e-3,
        "13 and 52 teeth of module 1 need 32.5 mm, not {apart}"
    );
    script.act(Action::Undo);
    assert_eq!((axis(&script, "drum"), axis(&script, "mid")), (None, None));
}

#[test]
fn esc_puts_a_dragged_shaft_back() {
    let mut script = on_plan();
    let (x, y) = place(&script, "drum");
    script.pointer(Phase::Down, x, y);
    script.drag_on((x, y), (x, y + 60.0));
    assert!(axis(&script, "drum").is_some());
    script.key("Escape");
    assert_eq!((axis(&script, "drum"), script.session.undo_name()), (None, None));
}

#[test]
fn placing_anew_forgets_what_was_dragged() {
    let mut script = on_plan();
    let (x, y) = place(&script, "drum");
    script.drag((x, y), (x, y + 60.0));
    script.act(Action::Plan(PlanAct::PlaceAnew));
    assert_eq!(axis(&script, "drum"), None);
}

#[test]
fn settings_are_typed_into_the_details() {
    let mut script = on_plan();
    let module = FieldRef {
        target: Target::Layout,
        path: "plan.module_mm".to_owned(),
    };
    script.input(Input::Type {
        field: module,
        text: "1,5".to_owned(),
    });
    script.input(Input::EndEdit);
    assert_eq!(script.session.layout().plan.module_mm, Some(1.5));
    let layer = FieldRef::element(&"g2".into(), "plan.layer");
    script.input(Input::Type {
        field: layer,
        text: "3".to_owned(),
    });
    script.input(Input::EndEdit);
    assert_eq!(script.session.picture().expect("the plan").layers, 3);
}

#[test]
fn teeth_come_with_the_zoom() {
    let mut script = on_plan();
    let longest = |script: &Script| {
        let picture = script.session.picture().expect("the plan");
        let strokes = picture.items.iter().flat_map(|item| &item.strokes);
        strokes.map(|stroke| stroke.path.len()).max().unwrap_or(0)
    };
    script.input(Input::Zoom {
        at: Point::default(),
        by: 0.05,
    });
    assert!(longest(&script) < 400, "{}", longest(&script));
    script.input(Input::Zoom {
        at: Point::default(),
        by: 200.0,
    });
    assert!(longest(&script) > 4000, "{}", longest(&script));
}

#[test]
fn outlines_are_saved_as_a_file() {
    let mut script = on_plan();
    script.act(Action::Plan(PlanAct::SaveOutlines));
    let saved = script.effects.iter().any(|effect| {
        matches!(effect, Effect::Download { name, text } if name.ends_with("-gears.svg") && text.contains("class=\"gear\""))
    });
    assert!(saved);
}

#[test]
fn every_demo_draws_in_every_look() {
    for demo in crate::demos::DEMOS {
        let mut script = Script::demo(demo.id);
        script.act(Action::Show(Drawing::Plan));
        for act in [PlanAct::Lift, PlanAct::NextLayer, PlanAct::Slower, PlanAct::Stand] {
            script.act(Action::Plan(act));
            let picture = script.session.picture().expect("the plan");
            let strokes = picture.items.iter().flat_map(|item| &item.strokes);
            assert!(
                strokes
                    .clone()
                    .all(|stroke| !stroke.path.contains("NaN") && !stroke.path.contains("inf"))
            );
            assert!(picture.bounds.width > 0.0, "{}", demo.id);
        }
    }
}

#[test]
fn lifted_layers_stand_where_they_come_out_larger() {
    fn check(width: f64, height: f64, is_wide: bool) {
        let mut script = Script::demo("trail-cart-a");
        script.input(Input::Resize(Size { width, height }));
        script.act(Action::Show(Drawing::Plan));
        script.act(Action::Plan(PlanAct::Lift));
        let bounds = script.session.picture().expect("the plan").bounds;
        assert_eq!(bounds.width > bounds.height, is_wide, "{width} × {height}");
    }
    check(1370.0, 260.0, true);
    check(370.0, 330.0, false);
    check(790.0, 700.0, false);
}
