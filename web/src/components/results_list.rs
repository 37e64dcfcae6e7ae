//! Results of what is selected, as a list of names and values.

use layshaft_editor::fields::{ResultRow, ResultValue};
use yew::prelude::*;

use super::cell_view::number;
use super::ratio_view::RatioView;

/// Properties of [`ResultsList`].
#[derive(Properties, PartialEq)]
pub struct ResultsListProps {
    /// The results.
    pub rows: Vec<ResultRow>,
}

/// Name at the left, value at the right, a leader between them.
#[component]
pub fn ResultsList(props: &ResultsListProps) -> Html {
    html! {
        <dl class="results">
            { for props.rows.iter().map(|row| html! {
                <div class={classes!("result", row.is_long().then_some("is-long"))}><dt>{ &row.label }</dt><dd>{ value(&row.value) }</dd></div>
            }) }
        </dl>
    }
}

fn value(value: &ResultValue) -> Html {
    match value {
        ResultValue::Number(measure) => number(measure),
        ResultValue::Ratio(ratio) => html! { <RatioView ratio={ratio.clone()} /> },
        ResultValue::Text(text) => html! { text },
        ResultValue::Blank => html! { <span class="blank-answer" role="img" aria-label="hidden answer" /> },
    }
}
