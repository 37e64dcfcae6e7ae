//! What two speeds are wanted, and the arrangements found.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::choosing::two_speeds::{TwoSpeedsField, WantedBy};
use layshaft_editor::choosing::{ChooseInput, Entry, Tab, TwoSpeedsInput, TwoSpeedsSheet};
use yew::prelude::*;

use super::choose_entry::{ChooseEntry, ChooseList};
use super::choose_two_speeds_found::ChooseTwoSpeedsFound;
use crate::hooks::use_bench;

/// Properties of [`ChooseTwoSpeeds`].
#[derive(Properties, PartialEq)]
pub struct ChooseTwoSpeedsProps {
    /// What it shows.
    pub sheet: Rc<TwoSpeedsSheet>,
}

/// What two speeds are wanted, and the arrangements found.
#[component]
pub fn ChooseTwoSpeeds(props: &ChooseTwoSpeedsProps) -> Html {
    let bench = use_bench();
    let sheet = &props.sheet;
    if let Some(empty) = &sheet.empty {
        return html! { <p class="quiet">{ empty }</p> };
    }
    let on_by = bench.0.reform(|value: String| {
        let by = if value == "pull" {
            WantedBy::PullAndSpeed
        } else {
            WantedBy::Ratios
        };
        input(TwoSpeedsInput::By(by))
    });
    html! {
        <div class="two-speeds">
            <div class="choose-fields">
                <ChooseList choice={sheet.by.clone()} on_choose={on_by} />
                { for sheet.wanted.iter().map(|field| entry(&bench.0, field)) }
            </div>
            <details class="two-speeds-reckoned">
                <summary>{ "What is reckoned with" }</summary>
                <div class="choose-fields">{ for sheet.reckoned.iter().map(|field| entry(&bench.0, field)) }</div>
                <p class="quiet">{ &sheet.gears }</p>
                <p class="quiet">{ sheet.left_out }</p>
                <button type="button" class="button plain" onclick={bench.on(Input::Choose(ChooseInput::Show(Tab::Gears)))}>
                    { "See the gears at hand" }
                </button>
                if sheet.can_reset {
                    <button type="button" class="button plain" onclick={bench.on(input(TwoSpeedsInput::AsNow))}>
                        { "All as the layout has it" }
                    </button>
                }
            </details>
            if let Some(found) = &sheet.found {
                <ChooseTwoSpeedsFound found={found.clone()} on_bench={sheet.on_bench} />
            }
        </div>
    }
}

/// One field.
fn entry(send: &Callback<Input>, (field, entry): &(TwoSpeedsField, Entry)) -> Html {
    let field = *field;
    let typed = send.reform(move |text: String| input(TwoSpeedsInput::Type(field, text)));
    html! { <ChooseEntry key={entry.key.clone()} entry={entry.clone()} on_type={typed} /> }
}

/// An input of this part.
pub const fn input(input: TwoSpeedsInput) -> Input {
    Input::Choose(ChooseInput::TwoSpeeds(input))
}
