//! Variants side by side.

use std::rc::Rc;

use layshaft_editor::choosing::CompareSheet;
use yew::prelude::*;

/// Properties of [`ChooseCompare`].
#[derive(Properties, PartialEq)]
pub struct ChooseCompareProps {
    /// What it shows.
    pub sheet: Rc<CompareSheet>,
}

/// Variants side by side.
#[component]
pub fn ChooseCompare(_props: &ChooseCompareProps) -> Html {
    html! {}
}
