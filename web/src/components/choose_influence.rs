//! Which inputs move a result, and how far it is known.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::choosing::influence::bars::Bar;
use layshaft_editor::choosing::influence::vary;
use layshaft_editor::choosing::{ChooseInput, InfluenceInput, InfluenceSheet};
use yew::prelude::*;

use super::choose_entry::ChooseList;
use super::choose_influence_known::ChooseKnown;
use crate::hooks::{Bench, use_bench};

/// Properties of [`ChooseInfluence`].
#[derive(Properties, PartialEq)]
pub struct ChooseInfluenceProps {
    /// What it shows.
    pub sheet: Rc<InfluenceSheet>,
}

/// Which inputs move a result, and how far it is known.
#[component]
pub fn ChooseInfluence(props: &ChooseInfluenceProps) -> Html {
    let bench = use_bench();
    let sheet = &props.sheet;
    if let Some(empty) = &sheet.empty {
        return html! { <p class="quiet">{ empty }</p> };
    }
    let ask = bench.0.reform(|path: String| input(InfluenceInput::Ask(path)));
    let place = bench
        .0
        .reform(|position: String| input(InfluenceInput::In(position)));
    html! {
        <div class="influence">
            <div class="choose-fields">
                <ChooseList choice={sheet.output.clone()} on_choose={ask} />
                if let Some(position) = &sheet.position { <ChooseList choice={position.clone()} on_choose={place} /> }
            </div>
            <p class="influence-head" aria-live="polite">{ &sheet.head }</p>
            if !sheet.bars.is_empty() {
                <p class="quiet influence-key">{ sheet.key }</p>
                <ol class="influence-bars" aria-label="What moves the result, the most important first">
                    { for sheet.bars.iter().map(|one| bar(one, &bench)) }
                </ol>
            }
            if !sheet.note.is_empty() { <p class="quiet">{ &sheet.note }</p> }
            if let Some((words, all)) = &sheet.more {
                <button type="button" class="button" onclick={bench.on(input(InfluenceInput::ShowAll(*all)))}>{ words }</button>
            }
            <ChooseKnown sheet={sheet.certainty.clone()} />
        </div>
    }
}

/// One input with its bar, and what can be done with it.
fn bar(bar: &Bar, bench: &Bench) -> Html {
    let varied = bench.on(Input::Choose(ChooseInput::Sweep(vary(&bar.input))));
    let doubted = bench.on(input(InfluenceInput::Doubt(bar.path.clone())));
    let place = format!("left: {:.2}%; width: {:.2}%", bar.start, bar.length);
    html! {
        <li key={bar.path.clone()} class="influence-bar">
            <span class="influence-name">{ name(bar, bench) }<span class="quiet">{ &bar.value }</span></span>
            <span class="influence-track" aria-hidden="true">
                <span class={classes!("influence-length", bar.rises.then_some("is-rising"))} style={place}></span>
            </span>
            <span class="influence-effect" aria-label={bar.spoken.clone()}>{ &bar.effect }</span>
            <span class="influence-acts">
                <button type="button" class="button plain" aria-label={format!("Vary {}", bar.name)} onclick={varied}>{ "Vary this" }</button>
                if !bar.doubted {
                    <button type="button" class="button plain" aria-label={format!("Take a range for {}", bar.name)} title="Take a range for it"
                        onclick={doubted}>{ "± Range" }</button>
                }
            </span>
        </li>
    }
}

/// Its name; pressed, its thing is selected on the drawing.
fn name(bar: &Bar, bench: &Bench) -> Html {
    let Some(target) = &bar.target else {
        return html! { { &bar.name } };
    };
    let selected = bench.on(Input::Select {
        targets: vec![target.clone()],
        add: false,
        position: None,
    });
    let lit = bench.on(Input::Light(vec![target.clone()]));
    let unlit = bench.on(Input::Light(Vec::new()));
    html! {
        <button type="button" class="link-like" title="Select it on the drawing" onclick={selected} onpointerenter={lit} onpointerleave={unlit}>
            { &bar.name }
        </button>
    }
}

/// An input of this part.
pub const fn input(input: InfluenceInput) -> Input {
    Input::Choose(ChooseInput::Influence(input))
}
