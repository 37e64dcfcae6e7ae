//! Fields and results of what is selected.

use std::rc::Rc;

use layshaft_editor::motor_map::MotorMap;
use layshaft_editor::{Action, Details, Input, Target};
use layshaft_layout::{Id, Layout};
use yew::prelude::*;

use super::field_row::FieldRow;
use super::measured_points::MeasuredPoints;
use super::motor_map::MotorMapView;
use super::results_list::ResultsList;
use crate::hooks::{Bench, use_bench};

/// Properties of [`DetailsPanel`].
#[derive(Properties, PartialEq)]
pub struct DetailsPanelProps {
    /// What is shown; none on a bench without anything.
    pub details: Option<Rc<Details>>,
    /// The layout that they are of.
    pub layout: Rc<Layout>,
    /// The efficiency map of a motor.
    pub map: Option<Rc<MotorMap>>,
}

/// Results first, since they are what one looks for; then what can be changed.
#[component]
pub fn DetailsPanel(props: &DetailsPanelProps) -> Html {
    let bench = use_bench();
    let Some(details) = &props.details else {
        return html! { <p class="empty">{ "Press a shaft or a part on the drawing to see its numbers and change them." }</p> };
    };
    html! {
        <div class="details" key={details.target.key()}>
            <h3 class="details-title">{ &details.title }</h3>
            if !details.help.is_empty() { <p class="quiet">{ details.help }</p> }
            if !details.results.is_empty() { <ResultsList rows={details.results.clone()} /> }
            if let Some(map) = &props.map { <MotorMapView map={map.clone()} /> }
            { for details.workings.iter().map(|shaft| working_button(&bench, shaft)) }
            <div class="fields">
                { for details.fields.iter().map(|field| html! { <FieldRow key={field.field.key()} field={field.clone()} /> }) }
            </div>
            if let Some(motor) = &details.measured { <MeasuredPoints key={motor.as_str()} motor={motor.clone()} units={details.units} layout={props.layout.clone()} /> }
            if !details.seldom.is_empty() { { seldom(details) } }
            { for details.cautions.iter().map(|caution| html! { <p class="caution">{ *caution }</p> }) }
            { commands(&bench, &details.target) }
        </div>
    }
}

/// Fields that most builders leave as they are.
fn seldom(details: &Details) -> Html {
    html! {
        <details class="fold">
            <summary>{ "More fields" }</summary>
            <div class="fields">
                { for details.seldom.iter().map(|field| html! { <FieldRow key={field.field.key()} field={field.clone()} /> }) }
            </div>
        </details>
    }
}

fn working_button(bench: &Bench, shaft: &Id) -> Html {
    html! {
        <button type="button" class="button" key={shaft.as_str()} onclick={bench.on(Input::Working(shaft.clone()))}>
            { format!("Show the working of {shaft}") }
        </button>
    }
}

fn commands(bench: &Bench, target: &Target) -> Html {
    let button = |name: &str, action| html! { <button type="button" class="button" onclick={bench.act(action)}>{ name }</button> };
    let shaft =
        matches!(target, Target::Shaft(_)).then(|| button("Refer ratios to this shaft", Action::MakeDrive));
    match target {
        Target::Shaft(_) | Target::Element(_) => html! {
            <div class="commands">{ shaft }{ button("Duplicate", Action::Duplicate) }{ button("Delete", Action::Delete) }</div>
        },
        Target::Group(_) => html! {
            <div class="commands">{ button("Fold or open", Action::Fold) }{ button("Ungroup", Action::Ungroup) }{ button("Duplicate", Action::Duplicate) }{ button("Delete", Action::Delete) }</div>
        },
        Target::Position(_) | Target::Layout => html! {},
    }
}
