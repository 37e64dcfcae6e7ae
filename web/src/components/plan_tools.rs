//! The row under the plan: how fast it turns, which layers show, placing anew, saving outlines.

use layshaft_editor::actions::PlanAct;
use layshaft_editor::scene::PlanLook;
use layshaft_editor::{Action, Input};
use yew::prelude::*;

use crate::hooks::use_bench;

/// Properties of [`PlanTools`].
#[derive(Properties, PartialEq)]
pub struct PlanToolsProps {
    /// How the plan is looked at.
    pub look: PlanLook,
    /// How many layers it has.
    pub layers: u32,
}

/// Buttons in groups with names.
#[component]
pub fn PlanTools(props: &PlanToolsProps) -> Html {
    let bench = use_bench();
    let button = |words: String, act: PlanAct, pressed: Option<bool>| {
        let pressed = pressed.map(|pressed| pressed.to_string());
        html! {
            <button type="button" class="button" aria-pressed={pressed} onclick={bench.on(Input::Act(Action::Plan(act)))}>{ words }</button>
        }
    };
    let look = &props.look;
    let layer = |n: u32| {
        button(
            n.to_string(),
            PlanAct::Layer(Some(n)),
            Some(look.layer == Some(n)),
        )
    };
    html! {
        <div class="plan-tools" role="toolbar" aria-label="Plan">
            <div class="plan-group" role="group" aria-label="Turning">
                <span class="plan-group-name" aria-hidden="true">{ "Turning" }</span>
                { button("Slower".to_owned(), PlanAct::Slower, None) }
                { button("Faster".to_owned(), PlanAct::Faster, None) }
                { button("Stop".to_owned(), PlanAct::Stand, Some(look.slower.is_none())) }
            </div>
            if props.layers > 1 {
                <div class="plan-group" role="group" aria-label="Layers">
                    <span class="plan-group-name" aria-hidden="true">{ "Layers" }</span>
                    { button("All".to_owned(), PlanAct::Layer(None), Some(look.layer.is_none())) }
                    { for (1..=props.layers.min(8)).map(layer) }
                    { button("Lift apart".to_owned(), PlanAct::Lift, Some(look.lifted)) }
                </div>
            }
            <div class="plan-group" role="group" aria-label="Shafts and gears">
                { button("Place from tooth counts anew".to_owned(), PlanAct::PlaceAnew, None) }
                { button("Save gear outlines".to_owned(), PlanAct::SaveOutlines, None) }
            </div>
        </div>
    }
}
