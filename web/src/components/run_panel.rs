//! The run sheet: what is asked of a run, and what came of it.

use std::cell::RefCell;
use std::rc::Rc;

use layshaft_editor::runs::{RunSheet, Subject};
use layshaft_editor::{Action, Input};
use web_sys::Element;
use yew::prelude::*;

use super::run_course::RunCourse;
use super::run_events::RunEvents;
use super::run_field::RunFieldRow;
use super::run_player::RunPlayer;
use super::run_plots::RunPlots;
use super::run_results::RunResults;
use super::run_table::RunTable;
use crate::hooks::{use_bench, use_run_clock, use_run_settled, use_run_stillness, use_run_width};

/// Properties of [`RunPanel`].
#[derive(Properties, PartialEq)]
pub struct RunPanelProps {
    /// The sheet.
    pub sheet: Rc<RunSheet>,
}

/// Course or lift, start and limit, the button that runs, and the results below it.
#[component]
pub fn RunPanel(props: &RunPanelProps) -> Html {
    let bench = use_bench();
    let sheet = &props.sheet;
    let node = use_node_ref();
    use_run_width(&node);
    use_run_stillness();
    let wanted = use_result_in_sight(&node, sheet.waiting);
    let playing = sheet
        .playhead
        .as_ref()
        .is_some_and(|playhead| playhead.playback.playing);
    use_run_clock(playing);
    use_run_settled(
        (
            sheet.course.clone(),
            sheet.settings.clone(),
            sheet.positions.clone(),
        ),
        sheet.stale,
    );
    let on_run = {
        let bench = bench.clone();
        Callback::from(move |_: MouseEvent| {
            *wanted.borrow_mut() = true;
            bench.send(Input::Act(Action::Run));
        })
    };
    let on_dot = sheet.playhead.as_ref().and_then(|playhead| playhead.on_profile);
    html! {
        <div class="run" ref={node}>
            <p class="run-intent">{ &sheet.intent }</p>
            if sheet.subject == Subject::Vehicle {
                <RunCourse rows={sheet.course.clone()} profile={sheet.profile.clone().map(Rc::new)} at={on_dot} />
            }
            <div class="run-settings">
                if !sheet.positions.is_empty() { { start_position(&bench.0, sheet) } }
                { for sheet.settings.iter().map(|entry| html! { <RunFieldRow key={entry.label.clone()} entry={entry.clone()} /> }) }
            </div>
            <div class="commands">
                <button type="button" class="button primary" onclick={on_run} disabled={sheet.waiting}>
                    { if sheet.waiting { "Running…" } else { "Start the run" } }
                </button>
                if sheet.stale && sheet.result.is_some() { <p class="quiet run-stale">{ "What is shown below is of the run before." }</p> }
            </div>
            if let Some(fault) = &sheet.fault { <p class="run-fault" role="alert">{ "This can't be run: " }{ fault }</p> }
            { outcome(sheet) }
        </div>
    }
}

/// Brings the result into sight once a run that was asked for by the button has come back.
#[hook]
fn use_result_in_sight(node: &NodeRef, waiting: bool) -> Rc<RefCell<bool>> {
    let wanted = use_mut_ref(|| false);
    use_effect_with(waiting, {
        let (node, wanted) = (node.clone(), wanted.clone());
        move |waiting| {
            if !*waiting && wanted.take() {
                let panel = node.cast::<Element>();
                let result = panel.and_then(|panel| panel.query_selector(".run-outcome").ok().flatten());
                if let Some(result) = result {
                    result.scroll_into_view();
                }
            }
        }
    });
    wanted
}

fn outcome(sheet: &Rc<RunSheet>) -> Html {
    if sheet.hides_answers {
        return html! { <p class="empty">{ "Answers are hidden, and what comes of a run with them." }</p> };
    }
    let Some(result) = &sheet.result else {
        return html! { <p class="empty">{ "Run it to see speed, current and power over time, and when it shifts, slips or stalls." }</p> };
    };
    html! {
        <section class={classes!("run-outcome", sheet.stale.then_some("is-stale"))} aria-label="What came of the run">
            <RunResults result={result.clone()} />
            if let (Some(plots), Some(playhead)) = (&sheet.plots, &sheet.playhead) {
                <div class="run-play">
                <RunPlayer playhead={playhead.clone()} along={sheet.along} has_way={sheet.has_way} still={sheet.still} />
                <RunPlots plots={plots.clone()} x={playhead.x} playing={playhead.playback.playing} dots={playhead.dots.clone()} />
                </div>
            }
            <RunEvents result={result.clone()} />
            if let Some(table) = &sheet.table { <RunTable table={table.clone()} /> }
        </section>
    }
}

fn start_position(send: &Callback<Input>, sheet: &RunSheet) -> Html {
    use layshaft_editor::runs::RunInput;
    use layshaft_layout::Id;
    use web_sys::HtmlSelectElement;
    let choose = send.reform(|event: Event| {
        let chosen = event.target_unchecked_into::<HtmlSelectElement>().value();
        Input::Run(RunInput::StartIn(Id::from(&chosen)))
    });
    html! {
        <div class="field">
            <label for="run-start">{ "Position at the start" }</label>
            <select id="run-start" class="entry" onchange={choose}>
                { for sheet.positions.iter().map(|(id, name, chosen)| html! {
                    <option value={id.as_str().to_owned()} selected={*chosen}>{ name }</option>
                }) }
            </select>
        </div>
    }
}
