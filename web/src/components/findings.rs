//! The findings under the headline, and the sentence of one of them.

use std::rc::Rc;

use layshaft_editor::{Input, Repair, Severity, Words};
use yew::prelude::*;

use super::headline::severity_class;
use crate::hooks::use_bench;

/// Properties of [`Findings`].
#[derive(Properties, PartialEq)]
pub struct FindingsProps {
    /// The finding that stands as headline; its cautions and its repair stand here.
    pub first: Rc<Words>,
    /// The other findings.
    pub others: Rc<Vec<Words>>,
}

/// Cautions, what can be mended at once, and the other findings in a fold. On a phone what the headline says at length
/// lies in the fold as well: height is for the drawing.
#[component]
pub fn Findings(props: &FindingsProps) -> Html {
    let count = props.others.len();
    let detail = &props.first.detail;
    let why = props.first.is_long();
    html! {
        <>
            { for props.first.cautions.iter().map(|caution| html! { <p class="caution">{ *caution }</p> }) }
            if let Some(repair) = &props.first.repair { <RepairButton repair={Rc::new(repair.clone())} /> }
            if count > 0 || why {
                <details class={classes!("findings-fold", (count == 0).then_some("only-why"))}>
                    <summary>
                        <span class={classes!(why.then_some("where-wide"))}>{ more(count) }</span>
                        if why { <span class="where-narrow">{ why_and_more(props.first.severity, count) }</span> }
                    </summary>
                    if why { <p class="headline-detail where-narrow">{ detail }</p> }
                    <ul class="findings">
                        { for props.others.iter().map(|words| html! {
                            <li class={classes!("finding", severity_class(words.severity))}>
                                <p class="finding-says"><FindingText words={Rc::new(words.clone())} /></p>
                                if !words.detail.is_empty() { <p class="quiet">{ &words.detail }</p> }
                                if let Some(repair) = &words.repair { <RepairButton repair={Rc::new(repair.clone())} /> }
                                { for words.cautions.iter().map(|caution| html! { <p class="caution">{ *caution }</p> }) }
                            </li>
                        }) }
                    </ul>
                </details>
            }
        </>
    }
}

fn more(count: usize) -> String {
    match count {
        1 => "1 more finding".to_owned(),
        _ => format!("{count} more findings"),
    }
}

fn why_and_more(severity: Severity, count: usize) -> String {
    let first = match severity {
        Severity::Fault | Severity::Warning => "Why",
        Severity::Note | Severity::Result => "More on this",
    };
    match count {
        0 => first.to_owned(),
        _ => format!("{first}, and {count} more"),
    }
}

/// Properties of [`RepairButton`].
#[derive(Properties, PartialEq)]
pub struct RepairButtonProps {
    /// What it does.
    pub repair: Rc<Repair>,
}

/// Mends what a finding found, as one step of undo.
#[component]
pub fn RepairButton(props: &RepairButtonProps) -> Html {
    let bench = use_bench();
    let Repair { label, input } = &*props.repair;
    html! { <button type="button" class="button repair" onclick={bench.on((**input).clone())}>{ label }</button> }
}

/// Properties of [`FindingText`].
#[derive(Properties, PartialEq)]
pub struct FindingTextProps {
    /// The finding.
    pub words: Rc<Words>,
}

/// The sentence of a finding: lights up its places while pointed at, selects them when pressed.
#[component]
pub fn FindingText(props: &FindingTextProps) -> Html {
    let bench = use_bench();
    let words = &props.words;
    if words.places.is_empty() {
        return html! { &words.headline };
    }
    let select = Input::Select {
        targets: words.places.clone(),
        add: false,
        position: words.position.clone(),
    };
    let light = Input::Light(words.places.clone());
    let dark = Input::Light(Vec::new());
    html! {
        <button type="button" class="link-like" onclick={bench.on(select)} onmouseenter={bench.on(light.clone())}
            onmouseleave={bench.on(dark.clone())} onfocus={bench.on(light)} onblur={bench.on(dark)}>
            { &words.headline }
        </button>
    }
}
