//! Any sound layout can be drawn as a plan: finite places, every wheel in a layer, whatever is connected to whatever.

use layshaft_editor::plan::{Plan, check, cut};
use layshaft_editor::{Action, Drawing, Input, Session};
use layshaft_layout::arbitrary::layout;
use proptest::prelude::*;

use crate::random::trying;

proptest! {
    #![proptest_config(trying(100))]

    #[test]
    fn any_layout_has_a_plan(layout in layout()) {
        let plan = Plan::of(&layout);
        for (wheel, at) in plan.wheels.iter().map(|wheel| (wheel, plan.centre(wheel))) {
            prop_assert!(at.x.is_finite() && at.y.is_finite() && wheel.phase.is_finite(), "{wheel:?}");
            prop_assert!((1..=plan.layer_count()).contains(&wheel.layer), "{wheel:?}");
        }
        let _ = check::faults(&layout, &plan);
        let outlines = cut::svg(&layout, &plan).unwrap_or_default();
        prop_assert!(!outlines.contains("NaN") && !outlines.contains("inf"));
        let mut session = Session::new(layout);
        session.handle(Input::Act(Action::Show(Drawing::Plan)));
        let picture = session.picture().expect("the plan is shown");
        for stroke in picture.items.iter().flat_map(|item| &item.strokes) {
            prop_assert!(!stroke.path.contains("NaN") && !stroke.path.contains("inf"), "{}", stroke.path);
        }
    }
}
