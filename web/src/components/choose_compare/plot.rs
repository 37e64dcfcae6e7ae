//! The plot of all variants with the fields that say what it shows.

use layshaft_editor::choosing::CompareInput;
use layshaft_editor::choosing::compare::ComparePlot;
use yew::prelude::*;

use super::send;
use crate::components::chart_view::ChartView;
use crate::components::choose_entry::{ChooseEntry, ChooseList};
use crate::hooks::{Bench, use_bench};

/// Properties of [`PlotOfAll`].
#[derive(Properties, PartialEq)]
pub struct PlotOfAllProps {
    /// What it shows.
    pub plot: ComparePlot,
}

/// Fields over the plot.
#[component]
pub fn PlotOfAll(props: &PlotOfAllProps) -> Html {
    let bench = use_bench();
    let plot = &props.plot;
    let [from, to] = plot.ends.clone();
    html! {
        <section class="compare-plot" aria-label="Plot of all variants">
            <div class="choose-fields">
                <ChooseList choice={plot.seen.clone()} on_choose={hand(&bench, CompareInput::Show)} />
                <ChooseList choice={plot.over.clone()} on_choose={hand(&bench, CompareInput::Over)} />
                <ChooseEntry entry={from} on_type={hand(&bench, |text| CompareInput::End(0, text))} />
                <ChooseEntry entry={to} on_type={hand(&bench, |text| CompareInput::End(1, text))} />
            </div>
            if let Some(chart) = &plot.chart { <ChartView chart={chart.clone()} name="variants" /> }
        </section>
    }
}

/// Hands a text to the session as an input.
fn hand(bench: &Bench, input: impl Fn(String) -> CompareInput + 'static) -> Callback<String> {
    let bench = bench.clone();
    Callback::from(move |text| send(&bench, input(text)))
}
