//! The positions side by side, and what is engaged in each.

use std::rc::Rc;

use layshaft_editor::engagement::Engagement as Plan;
use layshaft_editor::{Action, Input, Table};
use yew::prelude::*;

use super::engagement::Engagement;
use super::table_view::TableView;
use crate::hooks::{Bench, use_bench};

/// Properties of [`PositionsPanel`].
#[derive(Properties, PartialEq)]
pub struct PositionsPanelProps {
    /// Results of all positions.
    pub comparison: Rc<Table>,
    /// Other ways in which what can let go could stand in the position shown; none until they were looked for.
    pub others: Option<Vec<String>>,
    /// Whether anything can let go.
    pub can_let_go: bool,
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
            if props.can_let_go { { other_states(&bench, props.others.as_deref()) } }
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

/// Looked for when asked, since it takes a while.
fn other_states(bench: &Bench, others: Option<&[String]>) -> Html {
    let told = match others {
        None => html! {
            <button type="button" class="button" onclick={bench.on(Input::SeekOtherStates)}>{ "Look for other states that fit" }</button>
        },
        Some([]) => html! { <p class="quiet">{ "None: forces balance in the state shown only." }</p> },
        Some(others) => html! {
            <>
                <p class="quiet">{ "Forces balance also if:" }</p>
                <ul class="other-states">{ for others.iter().map(|other| html! { <li>{ other }</li> }) }</ul>
            </>
        },
    };
    html! { <><h3 class="panel-heading">{ "Other states in this position" }</h3>{ told }</> }
}
