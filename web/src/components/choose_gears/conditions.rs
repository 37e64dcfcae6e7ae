//! What can be built: pairs that must not meet, distances between shafts, input and output in line.

use layshaft_editor::choosing::{GearsChoice, GearsField, RulesSheet, Tick};
use yew::prelude::*;

use super::{choose, field, tick};
use crate::components::choose_entry::ChooseList;
use crate::hooks::use_bench;

/// Properties of [`GearsConditions`].
#[derive(Properties, PartialEq)]
pub struct GearsConditionsProps {
    /// The conditions.
    pub rules: RulesSheet,
    /// Whether idlers may turn the output round.
    pub idlers: Tick,
}

/// Conditions, folded as long as none is in force.
#[component]
pub fn GearsConditions(props: &GearsConditionsProps) -> Html {
    let bench = use_bench();
    let rules = &props.rules;
    html! {
        <details class="fold" open={rules.in_force || props.idlers.on}>
            <summary>{ "Idlers, distances and other conditions" }</summary>
            <div class="gears-ticks">
                { tick(&bench, &props.idlers) }
                { tick(&bench, &rules.coaxial) }
            </div>
            <div class="choose-fields">
                { field(&bench, GearsField::Excluded, &rules.excluded) }
                { field(&bench, GearsField::Module, &rules.module) }
                <ChooseList choice={rules.spacing.clone()} on_choose={choose(&bench, GearsChoice::Spacing)} />
                { for rules.lengths.iter().map(|(name, entry)| field(&bench, *name, entry)) }
            </div>
        </details>
    }
}
