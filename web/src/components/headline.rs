//! The headline: the most important finding in the largest type of the page.

use std::rc::Rc;

use layshaft_editor::{Severity, Words};
use yew::prelude::*;

use super::findings::{FindingText, Findings};

/// Properties of [`Headline`].
#[derive(Properties, PartialEq)]
pub struct HeadlineProps {
    /// The most important finding, or the plain result.
    pub words: Rc<Words>,
    /// The other findings.
    pub others: Rc<Vec<Words>>,
}

/// One sentence, heard by screen readers as it changes, and the other findings folded under it.
#[component]
pub fn Headline(props: &HeadlineProps) -> Html {
    let class = classes!("headline", severity_class(props.words.severity));
    html! {
        <section {class} aria-label="Findings">
            <h2 class="headline-text" aria-live="polite"><FindingText words={props.words.clone()} /></h2>
            if !props.words.detail.is_empty() { <p class={classes!("headline-detail", props.words.is_long().then_some("where-wide"))}>{ &props.words.detail }</p> }
            <Findings first={props.words.clone()} others={props.others.clone()} />
        </section>
    }
}

/// The class that sets the mark of a severity.
pub fn severity_class(severity: Severity) -> &'static str {
    match severity {
        Severity::Fault => "is-fault",
        Severity::Warning => "is-warning",
        Severity::Note => "is-note",
        Severity::Result => "is-result",
    }
}
