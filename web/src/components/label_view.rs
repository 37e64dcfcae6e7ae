//! A label of the drawing: a few short lines, each a row of pieces at the places that the editor gave them.

use layshaft_editor::RatioText;
use layshaft_editor::scene::{Emphasis, Label, LabelLine, Run, RunContent};
use yew::prelude::*;

use super::scene_view::emphasis_class;

/// Properties of [`LabelView`].
#[derive(Properties, PartialEq)]
pub struct LabelViewProps {
    /// The label.
    pub label: Label,
    /// How much what it belongs to stands out.
    pub emphasis: Emphasis,
}

/// Text with a thin leader to its thing where it had to move away.
#[component]
pub fn LabelView(props: &LabelViewProps) -> Html {
    let label = &props.label;
    html! {
        <g class={classes!("label", emphasis_class(props.emphasis))}>
            if let Some((from, to)) = label.leader {
                <path class="leader" d={format!("M{} {}L{} {}", from.x, from.y, to.x, to.y)} />
            }
            { for label.lines.iter().map(view_line) }
        </g>
    }
}

fn view_line(line: &LabelLine) -> Html {
    html! { <>{ for line.runs.iter().map(|run| view_run(run, line.baseline)) }</> }
}

fn view_run(run: &Run, baseline: f64) -> Html {
    let (x, y) = (run.x.to_string(), baseline.to_string());
    match &run.content {
        RunContent::Text(text) => html! { <text {x} {y}>{ text }</text> },
        RunContent::Name(text) => html! { <text {x} {y} class="name">{ text }</text> },
        RunContent::Quiet(text) => html! { <text {x} {y} class="quiet">{ text }</text> },
        RunContent::Ratio(ratio) => view_ratio(ratio, x, y),
        RunContent::Edit { field, text, spoken } => html! {
            <g class="edit" id={format!("on-drawing-{}", field.key())} role="button" tabindex="-1" aria-label={format!("{spoken}: {text}")}>
                <rect x={(run.x - 3.0).to_string()} y={(baseline - 13.0).to_string()} width={(run.width + 6.0).to_string()} height="18" rx="2" />
                <text {x} {y}>{ text }</text>
            </g>
        },
        RunContent::Blank => html! {
            <rect class="blank" {x} y={(baseline - 12.0).to_string()} width={run.width.to_string()} height="15"><title>{ "Hidden answer" }</title></rect>
        },
    }
}

/// Diagonal fractions are a feature of the face; they need the fraction on one line.
fn view_ratio(ratio: &RatioText, x: String, y: String) -> Html {
    let class = if ratio.is_long() || ratio.denominator.is_none() {
        "ratio"
    } else {
        "ratio is-fraction"
    };
    html! { <text {x} {y} {class}>{ ratio.text() }</text> }
}
