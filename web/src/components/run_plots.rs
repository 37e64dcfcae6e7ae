//! The plots of a run, and the playhead over them.

use std::rc::Rc;

use layshaft_editor::runs::{Band, EventMark, Plot, PlotSheet, RunInput};
use layshaft_editor::{Input, Point};
use yew::prelude::*;

use crate::hooks::{Bench, use_bench};

/// Properties of [`RunPlots`].
#[derive(Properties, PartialEq)]
pub struct RunPlotsProps {
    /// The plots.
    pub plots: Rc<PlotSheet>,
    /// Place of the playhead.
    pub x: f64,
    /// Whether the playhead moves by itself.
    pub playing: bool,
    /// A dot on each plot with the value there.
    pub dots: Vec<(Point, String)>,
}

/// The plots stay as they are while the playhead moves over them.
#[component]
pub fn RunPlots(props: &RunPlotsProps) -> Html {
    let bench = use_bench();
    let plots = &props.plots;
    let (width, height) = (plots.size.width, plots.size.height);
    let field = plots.field;
    html! {
        <svg class="plot" viewBox={format!("0 0 {width} {height}")} width={width.to_string()} height={height.to_string()}
            role="img" aria-label="Plots of the run; all numbers are in the table below"
            onpointerdown={point(&bench, true, false)} onpointermove={point(&bench, false, !props.playing)}>
            <Lines plots={plots.clone()} />
            <g class="playhead">
                <path d={format!("M{:.1} {:.1}V{:.1}", props.x, field.y, field.y + field.height)} />
                { for props.dots.iter().zip(&plots.plots).map(|((at, text), plot)| html! {
                    <>
                        <circle class="plot-dot" cx={at.x.to_string()} cy={at.y.to_string()} r="4" />
                        <text class="plot-text is-strong" x={(plot.area.x + plot.area.width).to_string()} y={(plot.area.y - 6.0).to_string()} text-anchor="end">{ text }</text>
                    </>
                }) }
            </g>
        </svg>
    }
}

/// A mouse that hovers moves the playhead, unless it moves by itself; a finger or pen has to be down.
fn point(bench: &Bench, pressed: bool, hovers: bool) -> Callback<PointerEvent> {
    let bench = bench.clone();
    Callback::from(move |event: PointerEvent| {
        if pressed || hovers && event.pointer_type() == "mouse" || event.buttons() > 0 {
            bench.send(Input::Run(RunInput::PointAt(crate::browser::pointer::from_left(
                &event,
            ))));
        }
    })
}

#[derive(Properties, PartialEq)]
struct LinesProps {
    plots: Rc<PlotSheet>,
}

#[component]
fn Lines(props: &LinesProps) -> Html {
    let plots = &props.plots;
    let field = plots.field;
    let low = field.y + field.height;
    html! {
        <>
            { for plots.bands.iter().map(|band| shown_band(band, plots)) }
            { for plots.ticks.iter().map(|tick| html! {
                <>
                    <path class="plot-grid" d={format!("M{:.1} {:.1}V{:.1}", tick.at, field.y, low + 5.0)} />
                    <text class="plot-text" x={tick.at.to_string()} y={(low + 19.0).to_string()} text-anchor="middle">{ &tick.text }</text>
                </>
            }) }
            <text class="plot-text" x={(field.x + field.width).to_string()} y={(low + 36.0).to_string()} text-anchor="end">{ plots.axis }</text>
            { for plots.events.iter().map(|event| mark(event, plots)) }
            { for plots.plots.iter().map(plot) }
        </>
    }
}

fn shown_band(band: &Band, plots: &PlotSheet) -> Html {
    let field = plots.field;
    let class = if band.shaded {
        "band-ground is-shaded"
    } else {
        "band-ground"
    };
    let middle = (band.from + band.to) / 2.0;
    html! {
        <>
            <rect {class} x={band.from.to_string()} y={(field.y - 18.0).to_string()} width={(band.to - band.from).to_string()} height={(field.height + 18.0).to_string()} />
            <text class="plot-text" x={middle.to_string()} y={(field.y - 5.0).to_string()} text-anchor="middle">{ &band.name }</text>
        </>
    }
}

fn plot(plot: &Plot) -> Html {
    let area = plot.area;
    let right = area.x + area.width;
    html! {
        <g>
            <text class="plot-text" x={area.x.to_string()} y={(area.y - 6.0).to_string()}>{ &plot.title }</text>
            { for plot.ticks.iter().map(|tick| html! {
                <>
                    <path class="plot-grid" d={format!("M{:.1} {:.1}H{right:.1}", area.x - 4.0, tick.at)} />
                    <text class="plot-text" x={(area.x - 8.0).to_string()} y={(tick.at + 4.5).to_string()} text-anchor="end">{ &tick.text }</text>
                </>
            }) }
            <path class="plot-thin" d={format!("M{:.1} {:.1}V{:.1}M{:.1} {:.1}H{right:.1}", area.x, area.y, area.y + area.height, area.x, plot.zero)} />
            { for plot.lines.iter().map(|line| html! { <path class={if line.main { "plot-line" } else { "plot-line is-beside" }} d={line.path.clone()} /> }) }
        </g>
    }
}

fn mark(event: &EventMark, plots: &PlotSheet) -> Html {
    let field = plots.field;
    html! {
        <>
            <path class="plot-event" d={format!("M{:.1} {:.1}V{:.1}", event.at, field.y - 18.0, field.y + field.height)} />
            if !event.text.is_empty() {
                <circle class="plot-number" cx={event.at.to_string()} cy={(field.y - 28.0).to_string()} r="9" />
                <text class="plot-text" x={event.at.to_string()} y={(field.y - 23.500).to_string()} text-anchor="middle">{ &event.text }</text>
            }
        </>
    }
}
