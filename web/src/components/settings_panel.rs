//! Settings: the units that numbers are shown in, and the colours.

use layshaft_editor::units::{Switchable, Unit};
use layshaft_editor::{Action, Input, Theme, Units, wording};
use yew::prelude::*;

use crate::hooks::use_bench;

/// Properties of [`SettingsPanel`].
#[derive(Properties, PartialEq)]
pub struct SettingsPanelProps {
    /// The units chosen.
    pub units: Units,
    /// The colours chosen.
    pub theme: Theme,
}

/// A row of choices for each quantity, and the button for the colours.
#[component]
pub fn SettingsPanel(props: &SettingsPanelProps) -> Html {
    let bench = use_bench();
    html! {
        <div class="settings">
            <h3 class="details-title">{ "Units" }</h3>
            <p class="quiet">{ "Numbers are shown in these everywhere, and a bare number that you type is read in them. A unit typed behind a number is always understood: 2 kgf, 9,5 N·cm, 1/4 in. The layout's file stays as it is." }</p>
            { for Switchable::ALL.into_iter().map(|what| html! { <UnitChoice key={what.name()} {what} chosen={props.units.unit(what).symbol} /> }) }
            <h3 class="details-title">{ "Save and print" }</h3>
            <div class="commands">
                <button type="button" class="button" onclick={bench.act(Action::Toggle(layshaft_editor::Panel::Build))}>{ "Build sheet" }</button>
            </div>
            <h3 class="details-title">{ "Colours" }</h3>
            <p>{ wording::theme(props.theme) }</p>
            <div class="commands"><button type="button" class="button" onclick={bench.act(Action::ChangeTheme)}>{ "Change colours" }</button></div>
        </div>
    }
}

#[derive(Properties, PartialEq)]
struct UnitChoiceProps {
    what: Switchable,
    chosen: &'static str,
}

#[component]
fn UnitChoice(props: &UnitChoiceProps) -> Html {
    let bench = use_bench();
    let what = props.what;
    let choice = |unit: &Unit| {
        let symbol = unit.symbol;
        html! {
            <label class="unit-choice" key={symbol}>
                <input type="radio" name={what.name()} checked={symbol == props.chosen} aria-label={unit.spoken}
                    onchange={bench.on(Input::SetUnit(what, symbol))} />
                <span>{ symbol }</span>
            </label>
        }
    };
    html! {
        <fieldset class="unit-choices">
            <legend>{ what.name() }</legend>
            { for what.units().iter().map(choice) }
        </fieldset>
    }
}
