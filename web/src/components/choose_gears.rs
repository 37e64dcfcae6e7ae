//! The bin, what is wanted, and the trains found.

use std::rc::Rc;

use layshaft_editor::choosing::GearsSheet;
use yew::prelude::*;

/// Properties of [`ChooseGears`].
#[derive(Properties, PartialEq)]
pub struct ChooseGearsProps {
    /// What it shows.
    pub sheet: Rc<GearsSheet>,
}

/// The bin, what is wanted, and the trains found.
#[component]
pub fn ChooseGears(_props: &ChooseGearsProps) -> Html {
    html! {}
}
