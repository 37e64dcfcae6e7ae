//! Which inputs move a result, and how far it is known.

use std::rc::Rc;

use layshaft_editor::choosing::InfluenceSheet;
use yew::prelude::*;

/// Properties of [`ChooseInfluence`].
#[derive(Properties, PartialEq)]
pub struct ChooseInfluenceProps {
    /// What it shows.
    pub sheet: Rc<InfluenceSheet>,
}

/// Which inputs move a result, and how far it is known.
#[component]
pub fn ChooseInfluence(_props: &ChooseInfluenceProps) -> Html {
    html! {}
}
