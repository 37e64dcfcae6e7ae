//! Playing a run: play and pause, the time to be moved by hand, the pace, and what stands at that time.

use layshaft_editor::runs::{Along, Playhead, RunInput};
use layshaft_editor::{Action, Input};
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

use super::cell_view::number;
use super::icon::{Icon, Picture};
use crate::hooks::{Bench, use_bench};

/// Properties of [`RunPlayer`].
#[derive(Properties, PartialEq)]
pub struct RunPlayerProps {
    /// The playhead.
    pub playhead: Playhead,
    /// What lies along the plots.
    pub along: Along,
    /// Whether there is a way to plot over.
    pub has_way: bool,
    /// Whether nothing is to move by itself.
    pub still: bool,
}

/// The controls over the plots, and the values at the playhead.
#[component]
pub fn RunPlayer(props: &RunPlayerProps) -> Html {
    let bench = use_bench();
    let playhead = &props.playhead;
    let (name, picture) = if playhead.playback.playing {
        ("Pause", Picture::Pause)
    } else {
        ("Play", Picture::Play)
    };
    html! {
        <div class="run-player">
            <div class="run-controls">
                <button type="button" class="button" aria-label={format!("{name} the run")} title={format!("{name} (Space)")} disabled={props.still}
                    onclick={bench.act(Action::PlayRun)}><Icon of={picture} /></button>
                <input type="range" class="run-time" aria-label="Time in the run" aria-valuetext={playhead.spoken.clone()} min="0" max={playhead.end.to_string()}
                    step={(playhead.end / 400.0).to_string()} value={playhead.playback.time.to_string()} oninput={seek(&bench)} />
                <select class="entry run-pace" aria-label="Pace" onchange={pace(&bench)}>
                    { for playhead.paces.iter().map(|(pace, text)| html! {
                        <option value={pace.to_string()} selected={*pace == playhead.playback.pace}>{ text }</option>
                    }) }
                </select>
            </div>
            if props.still { <p class="quiet">{ "Movement is reduced on this device: move the time by hand." }</p> }
            <dl class="run-values" aria-label="At this moment">
                if let Some(position) = &playhead.position {
                    <div><dt>{ "Position" }</dt><dd>{ position }</dd></div>
                }
                { for playhead.values.iter().map(|(name, value)| html! { <div key={*name}><dt>{ *name }</dt><dd>{ number(value) }</dd></div> }) }
            </dl>
            if props.has_way { { along(&bench, props.along) } }
        </div>
    }
}

fn seek(bench: &Bench) -> Callback<InputEvent> {
    let bench = bench.clone();
    Callback::from(move |event: InputEvent| {
        let time = event
            .target_unchecked_into::<HtmlInputElement>()
            .value_as_number();
        bench.send(Input::Run(RunInput::Seek(time)));
    })
}

fn pace(bench: &Bench) -> Callback<Event> {
    let bench = bench.clone();
    Callback::from(move |event: Event| {
        let text = event.target_unchecked_into::<HtmlSelectElement>().value();
        if let Ok(pace) = text.parse() {
            bench.send(Input::Run(RunInput::Pace(pace)));
        }
    })
}

/// The switch between time and way.
fn along(bench: &Bench, current: Along) -> Html {
    let button = |along: Along, name: &'static str| {
        html! {
            <button type="button" class="button" aria-pressed={(along == current).to_string()}
                onclick={bench.on(Input::Run(RunInput::Along(along)))}>{ name }</button>
        }
    };
    html! {
        <div class="run-along" role="group" aria-label="Plots over">
            { button(Along::Time, "Over time") }
            { button(Along::Way, "Over distance") }
        </div>
    }
}
