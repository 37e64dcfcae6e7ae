//! Which clutches and brakes are engaged in which position, as a table of switches.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::engagement::{Engagement as Plan, PositionPlan};
use layshaft_editor::{FieldRef, Target};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::hooks::{Bench, use_bench};

/// Properties of [`Engagement`].
#[derive(Properties, PartialEq)]
pub struct EngagementProps {
    /// The positions and what can be engaged.
    pub plan: Rc<Plan>,
}

/// A row for each position: its name, to be edited, and a switch for each clutch and brake.
#[component]
pub fn Engagement(props: &EngagementProps) -> Html {
    let bench = use_bench();
    let plan = &props.plan;
    html! {
        <div class="table-frame" role="region" aria-label="What is engaged" tabindex="0">
            <table class="engagement">
                <thead>
                    <tr>
                        <th scope="col">{ "Position" }</th>
                        { for plan.elements.iter().map(|(id, name)| html! { <th scope="col" key={id.as_str()}>{ name }</th> }) }
                    </tr>
                </thead>
                <tbody>{ for plan.positions.iter().map(|position| row(&bench, plan, position)) }</tbody>
            </table>
        </div>
    }
}

fn row(bench: &Bench, plan: &Plan, position: &PositionPlan) -> Html {
    html! {
        <tr key={position.id.as_str()} aria-current={position.current.then_some("true")}>
            <th scope="row">{ name_field(bench, position) }</th>
            { for plan.elements.iter().zip(&position.engaged).map(|((element, name), on)| {
                let input = Input::SetEngaged { position: position.id.clone(), element: element.clone(), on: !on };
                html! {
                    <td key={element.as_str()}>
                        <label class="engage">
                            <input type="checkbox" checked={*on} onchange={bench.on(input)} aria-label={format!("{name} engaged in {}", position.name)} />
                        </label>
                    </td>
                }
            }) }
        </tr>
    }
}

fn name_field(bench: &Bench, position: &PositionPlan) -> Html {
    let field = FieldRef {
        target: Target::Position(position.id.clone()),
        path: "name".to_owned(),
    };
    let typed = bench.0.reform(move |event: InputEvent| Input::Type {
        field: field.clone(),
        text: event.target_unchecked_into::<HtmlInputElement>().value(),
    });
    html! {
        <input class="entry" aria-label={format!("Name of position {}", position.name)} value={position.name.clone()} autocomplete="off"
            oninput={typed} onblur={bench.on(Input::EndEdit)} />
    }
}
