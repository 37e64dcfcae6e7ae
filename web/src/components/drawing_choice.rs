//! The row that says which drawing of the layout stands on the sheet, and changes it.

use layshaft_editor::{Action, Drawing, keys};
use yew::prelude::*;

use crate::hooks::use_bench;

/// Properties of [`DrawingChoice`].
#[derive(Properties, PartialEq)]
pub struct DrawingChoiceProps {
    /// The drawing on the sheet.
    pub drawing: Drawing,
}

/// One button for each drawing.
#[component]
pub fn DrawingChoice(props: &DrawingChoiceProps) -> Html {
    let bench = use_bench();
    html! {
        <div class="drawing-choice" role="group" aria-label="Drawing">
            { for Drawing::ALL.into_iter().map(|drawing| html! {
                <button type="button" class="drawing-tab" key={drawing.name()} aria-pressed={(props.drawing == drawing).to_string()}
                    title={format!("{} ({})", drawing.help(), keys::key_of(&Action::Show(drawing)))}
                    onclick={bench.act(Action::Show(drawing))}>{ drawing.name() }</button>
            }) }
        </div>
    }
}
