//! The sheet for choosing: its parts as tabs, what it waits for, and the part that is shown.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::choosing::{ChooseInput, ChooseSheet, Part, Tab, Waiting};
use yew::prelude::*;

use super::choose_compare::ChooseCompare;
use super::choose_gears::ChooseGears;
use super::choose_influence::ChooseInfluence;
use super::choose_sweep::ChooseSweep;
use super::choose_two_speeds::ChooseTwoSpeeds;
use crate::hooks::{use_bench, use_size};

/// Properties of [`ChoosePanel`].
#[derive(Properties, PartialEq)]
pub struct ChoosePanelProps {
    /// The sheet.
    pub sheet: Rc<ChooseSheet>,
}

/// Tabs, the question that the part answers, and the part.
#[component]
pub fn ChoosePanel(props: &ChoosePanelProps) -> Html {
    let bench = use_bench();
    let sheet = &props.sheet;
    let node = use_node_ref();
    use_size(&node, &bench, |size| {
        Input::Choose(ChooseInput::Width(size.width))
    });
    // The gears found may be many: how far the search is stands over them.
    let says_itself = matches!(sheet.part, Part::Gears(_));
    let tab = |tab: Tab| {
        let shown = tab == sheet.tab;
        html! {
            <button type="button" class="tab" role="tab" id={format!("choose-tab-{}", key(tab))} aria-selected={shown.to_string()}
                aria-controls="choose-part" tabindex={if shown { "0" } else { "-1" }}
                onclick={bench.on(Input::Choose(ChooseInput::Show(tab)))} onkeydown={on_key(&bench.0, tab)}>{ tab.name() }</button>
        }
    };
    html! {
        <div class="choose" ref={node}>
            <div class="tabs" role="tablist" aria-label="What to choose by">{ for Tab::ALL.into_iter().map(tab) }</div>
            <div class="choose-part" id="choose-part" role="tabpanel" aria-labelledby={format!("choose-tab-{}", key(sheet.tab))}>
                <p class="choose-question">{ sheet.tab.question() }</p>
                { part(sheet) }
                if let Some(fault) = &sheet.fault { <p class="choose-fault" role="alert">{ fault }</p> }
                if !says_itself {
                    if let Some(stopped) = sheet.stopped { <p class="quiet">{ stopped }</p> }
                    if let Some(waiting) = &sheet.waiting { { progress(&bench.0, waiting) } }
                }
            </div>
        </div>
    }
}

const fn key(tab: Tab) -> &'static str {
    match tab {
        Tab::Sweep => "sweep",
        Tab::Gears => "gears",
        Tab::TwoSpeeds => "two-speeds",
        Tab::Influence => "influence",
        Tab::Compare => "compare",
    }
}

fn part(sheet: &ChooseSheet) -> Html {
    match &sheet.part {
        Part::Sweep(sheet) => html! { <ChooseSweep sheet={sheet.clone()} /> },
        Part::Gears(gears) => html! { <ChooseGears sheet={gears.clone()} waiting={sheet.waiting.clone()} /> },
        Part::TwoSpeeds(sheet) => html! { <ChooseTwoSpeeds sheet={sheet.clone()} /> },
        Part::Influence(sheet) => html! { <ChooseInfluence sheet={sheet.clone()} /> },
        Part::Compare(sheet) => html! { <ChooseCompare sheet={sheet.clone()} /> },
    }
}

/// How far the work is, and a button that stops it. Short work is over before anybody could read this.
fn progress(send: &Callback<Input>, waiting: &Waiting) -> Html {
    let stop = send.reform(|_: MouseEvent| Input::Choose(ChooseInput::Stop));
    let (done, of) = waiting.progress.map_or((None, "1".to_owned()), |progress| {
        (Some(progress.done.to_string()), progress.of.to_string())
    });
    html! {
        <div class="choose-waiting">
            <progress value={done} max={of} aria-label="How far it is"></progress>
            <button type="button" class="button plain" onclick={stop}>{ "Stop" }</button>
        </div>
    }
}

/// Left and right go to the neighbouring tab.
fn on_key(send: &Callback<Input>, tab: Tab) -> Callback<KeyboardEvent> {
    let send = send.clone();
    Callback::from(move |event: KeyboardEvent| {
        let at = Tab::ALL.iter().position(|other| *other == tab).unwrap_or(0);
        let count = Tab::ALL.len();
        let to = match event.key().as_str() {
            "ArrowRight" => (at + 1) % count,
            "ArrowLeft" => (at + count - 1) % count,
            "Home" => 0,
            "End" => count - 1,
            _ => return,
        };
        event.prevent_default();
        send.emit(Input::Choose(ChooseInput::Show(Tab::ALL[to])));
        crate::browser::focus::on(&format!("choose-tab-{}", key(Tab::ALL[to])));
    })
}
