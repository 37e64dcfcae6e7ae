//! Any sound layout can be drawn as a skeleton: each thing once, in finite lines, whatever is connected to whatever.

use layshaft_editor::{Action, Drawing, Input, Session};
use layshaft_layout::arbitrary::layout;
use proptest::prelude::*;

use crate::random::trying;

proptest! {
    #![proptest_config(trying(300))]

    #[test]
    fn any_layout_has_a_skeleton(layout in layout()) {
        let count = layout.shafts.len() + layout.elements.len();
        let mut session = Session::new(layout);
        session.handle(Input::Act(Action::Show(Drawing::Skeleton)));
        let picture = session.picture().expect("the skeleton is shown");
        prop_assert_eq!(picture.items.len(), count);
        for item in &picture.items {
            prop_assert!(item.at.x.is_finite() && item.at.y.is_finite(), "{}", item.key);
            for stroke in &item.strokes {
                prop_assert!(!stroke.path.contains("NaN") && !stroke.path.contains("inf"), "{}", stroke.path);
            }
        }
    }
}
