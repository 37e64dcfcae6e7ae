//! The positions side by side, and what is engaged in each.

use std::rc::Rc;

use layshaft_editor::engagement::Engagement as Plan;
use layshaft_editor::{Action, Table};
use yew::prelude::*;

use super::engagement::Engagement;
use super::table_view::TableView;
use crate::hooks::use_bench;

/// Properties of [`PositionsPanel`].
#[derive(Properties, PartialEq)]
pub struct PositionsPanelProps {
    /// Results of all positions.
    pub comparison: Rc<Table>,
    /// Other ways in which what can let go could stand in the position shown.
    pub others: Vec<String>,
    /// What is engaged where.
    pub plan: Rc<Plan>,
}

/// The comparison first; under it the switches.
#[component]
pub fn PositionsPanel(props: &PositionsPanelProps) -> Html {
    let bench = use_bench();
    let has_switches = !props.plan.elements.is_empty();
    html! {
        <>
            <TableView table={props.comparison.clone()} />
            if !props.others.is_empty() {
                <h3 class="panel-heading">{ "Other states that fit" }</h3>
                <p class="quiet">{ "In the position shown, forces also balance if:" }</p>
                <ul class="other-states">{ for props.others.iter().map(|other| html! { <li>{ other }</li> }) }</ul>
            }
            <h3 class="panel-heading">{ "Engaged in each position" }</h3>
            if !has_switches {
                <p class="quiet">{ "There is no clutch and no brake on the bench. Place one, and each position says whether it is engaged." }</p>
            }
            <Engagement plan={props.plan.clone()} />
            <div class="commands">
                <button type="button" class="button" onclick={bench.act(Action::AddPosition)}>{ "Add a position" }</button>
                <button type="button" class="button" onclick={bench.act(Action::RemovePosition)}>{ "Remove the position shown" }</button>
            </div>
        </>
    }
}
