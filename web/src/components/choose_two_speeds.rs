//! What two speeds are wanted, and the arrangements found.

use std::rc::Rc;

use layshaft_editor::choosing::TwoSpeedsSheet;
use yew::prelude::*;

/// Properties of [`ChooseTwoSpeeds`].
#[derive(Properties, PartialEq)]
pub struct ChooseTwoSpeedsProps {
    /// What it shows.
    pub sheet: Rc<TwoSpeedsSheet>,
}

/// What two speeds are wanted, and the arrangements found.
#[component]
pub fn ChooseTwoSpeeds(_props: &ChooseTwoSpeedsProps) -> Html {
    html! {}
}
