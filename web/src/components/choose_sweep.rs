//! What is varied, what is looked at, the plot and its marks.

use std::rc::Rc;

use layshaft_editor::choosing::SweepSheet;
use yew::prelude::*;

/// Properties of [`ChooseSweep`].
#[derive(Properties, PartialEq)]
pub struct ChooseSweepProps {
    /// What it shows.
    pub sheet: Rc<SweepSheet>,
}

/// What is varied, what is looked at, the plot and its marks.
#[component]
pub fn ChooseSweep(_props: &ChooseSweepProps) -> Html {
    html! {}
}
