//! What can be made of the selected thing, under its fields: another kind in its place, something inserted, turned round.

use layshaft_editor::session::{KindChoice, Offer};
use layshaft_editor::{Action, Input};
use web_sys::HtmlSelectElement;
use yew::prelude::*;

use crate::hooks::{Bench, use_bench};

/// Properties of [`Rework`].
#[derive(Properties, PartialEq)]
pub struct ReworkProps {
    /// What can be done.
    pub offers: Vec<Offer>,
    /// Kinds that could stand in its place; empty: none.
    pub kinds: Vec<KindChoice>,
}

/// A choice and a row of buttons; nothing where nothing can be done.
#[component]
pub fn Rework(props: &ReworkProps) -> Html {
    let bench = use_bench();
    if props.offers.is_empty() && props.kinds.is_empty() {
        return html! {};
    }
    html! {
        <div class="rework">
            if !props.kinds.is_empty() { { kind_choice(&bench, &props.kinds) } }
            <div class="commands">
                { for props.offers.iter().map(|offer| html! {
                    <button type="button" class="button" key={offer.name} onclick={bench.act(offer.action.clone())}>{ offer.name }</button>
                }) }
            </div>
        </div>
    }
}

fn kind_choice(bench: &Bench, kinds: &[KindChoice]) -> Html {
    let known: Vec<_> = kinds.iter().map(|choice| choice.kind).collect();
    let choose = bench.0.reform(move |event: Event| {
        let index = event
            .target_unchecked_into::<HtmlSelectElement>()
            .selected_index();
        let kind = usize::try_from(index)
            .ok()
            .and_then(|index| known.get(index).copied());
        kind.map_or(Input::DismissMessage, |kind| Input::Act(Action::ChangeInto(kind)))
    });
    html! {
        <div class="field">
            <div class="field-head"><label for="field-kind">{ "Kind" }</label></div>
            <div class="field-entry">
                <select id="field-kind" class="entry" onchange={choose} aria-describedby="field-kind-hint">
                    { for kinds.iter().map(|choice| html! {
                        <option key={choice.name} selected={choice.chosen}>{ choice.name }</option>
                    }) }
                </select>
            </div>
            <p class="field-hint" id="field-kind-hint">{ "Another kind on the same shafts; what means the same is kept" }</p>
        </div>
    }
}
