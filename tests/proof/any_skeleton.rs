//! Any sound layout can be drawn as a skeleton: each thing once, in finite lines, whatever is connected to whatever.

use std::rc::Rc;

use layshaft_editor::scene::PictureItem;
use layshaft_editor::{Action, Drawing, Input, Session, Target};
use layshaft_layout::arbitrary::layout;
use proptest::prelude::*;

use crate::random::trying;

proptest! {
    #![proptest_config(trying(300))]

    #[test]
    fn any_layout_has_a_skeleton(layout in layout()) {
        let count = layout.shafts.len() + layout.elements.len();
        let folded = layout.groups.iter().filter(|group| group.folded).count();
        let mut session = Session::new(layout);
        session.handle(Input::Act(Action::Show(Drawing::Skeleton)));
        let picture = session.picture().expect("the skeleton is shown");
        // Beside things of the layout there are frames round folded groups.
        let is_frame = |item: &&Rc<PictureItem>| matches!(item.target, Target::Group(_));
        let frames = picture.items.iter().filter(is_frame).count();
        prop_assert!(frames <= folded);
        prop_assert_eq!(picture.items.len(), count + frames);
        for item in &picture.items {
            prop_assert!(item.at.x.is_finite() && item.at.y.is_finite(), "{}", item.key);
            for stroke in &item.strokes {
                prop_assert!(!stroke.path.contains("NaN") && !stroke.path.contains("inf"), "{}", stroke.path);
            }
        }
    }
}
