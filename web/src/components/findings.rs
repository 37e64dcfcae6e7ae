//! The findings under the headline, and the sentence of one of them.

use std::rc::Rc;

use layshaft_editor::{Input, Words};
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

/// What can be mended at once, and the other findings in a fold.
#[component]
pub fn Findings(props: &FindingsProps) -> Html {
    let bench = use_bench();
    let count = props.others.len();
    html! {
        <>
            if let Some(repair) = &props.first.repair {
                <button type="button" class="button repair" onclick={bench.on((*repair.input).clone())}>{ &repair.label }</button>
            }
            { for props.first.cautions.iter().map(|caution| html! { <p class="caution">{ *caution }</p> }) }
            if count > 0 {
                <details class="findings-fold">
                    <summary>{ if count == 1 { "1 more finding".to_owned() } else { format!("{count} more findings") } }</summary>
                    <ul class="findings">
                        { for props.others.iter().map(|words| html! {
                            <li class={classes!("finding", severity_class(words.severity))}>
                                <FindingText words={Rc::new(words.clone())} />
                                if !words.detail.is_empty() { <p class="quiet">{ &words.detail }</p> }
                                { for words.cautions.iter().map(|caution| html! { <p class="caution">{ *caution }</p> }) }
                            </li>
                        }) }
                    </ul>
                </details>
            }
        </>
    }
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
