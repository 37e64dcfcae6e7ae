//! A motor's efficiency map, folded below its results.

use std::rc::Rc;

use layshaft_editor::motor_map::{Axis, Contour, Mark, MarkKind, MotorMap, PointRow, Values};
use yew::prelude::*;

/// Properties of [`MotorMapView`].
#[derive(Properties, PartialEq)]
pub struct MotorMapViewProps {
    /// The map.
    pub map: Rc<MotorMap>,
}

/// The map, what its lines are, and its numbers as tables.
#[component]
pub fn MotorMapView(props: &MotorMapViewProps) -> Html {
    let map = &props.map;
    html! {
        <details class="fold motor-map">
            <summary>{ "Efficiency map" }</summary>
            { drawing(map) }
            <p class="quiet">{ &map.supply_note }</p>
            { points(&map.points) }
            <details class="fold">
                <summary>{ "The map as a table" }</summary>
                { values(&map.values) }
            </details>
        </details>
    }
}

fn drawing(map: &MotorMap) -> Html {
    let (width, height) = (map.size.width, map.size.height);
    let [stall, no_load] = map.supply;
    html! {
        <svg class="plot map" viewBox={format!("0 0 {width} {height}")} role="img" aria-label={map.spoken.clone()}>
            { axes(map) }
            { for map.contours.iter().map(|line| html! { <path class="map-line" d={line.path.clone()} /> }) }
            <path class="map-supply" d={format!("M{:.1} {:.1}L{:.1} {:.1}", stall.x, stall.y, no_load.x, no_load.y)} />
            { for map.contours.iter().map(level) }
            { for map.marks.iter().map(mark) }
        </svg>
    }
}

fn axes(map: &MotorMap) -> Html {
    let area = map.area;
    let (right, low) = (area.x + area.width, area.y + area.height);
    let Axis { title, ticks } = &map.speed;
    html! {
        <>
            { for ticks.iter().map(|tick| html! {
                <>
                    <path class="plot-grid" d={format!("M{:.1} {:.1}V{:.1}", tick.at, area.y, low + 4.0)} />
                    <text class="plot-text" x={tick.at.to_string()} y={(low + 18.0).to_string()} text-anchor="middle">{ &tick.text }</text>
                </>
            }) }
            { for map.torque.ticks.iter().map(|tick| html! {
                <>
                    <path class="plot-grid" d={format!("M{:.1} {:.1}H{right:.1}", area.x - 4.0, tick.at)} />
                    <text class="plot-text" x={(area.x - 8.0).to_string()} y={(tick.at + 4.5).to_string()} text-anchor="end">{ &tick.text }</text>
                </>
            }) }
            <path class="plot-thin" d={format!("M{:.1} {:.1}V{low:.1}H{right:.1}", area.x, area.y)} />
            <text class="plot-text" x={right.to_string()} y={(low + 37.0).to_string()} text-anchor="end">{ title }</text>
            <text class="plot-text" x="0" y="14">{ &map.torque.title }</text>
        </>
    }
}

fn level(line: &Contour) -> Html {
    html! { <text class="plot-text" x={line.label.x.to_string()} y={(line.label.y + 4.5).to_string()} text-anchor="middle">{ &line.text }</text> }
}

/// A diamond where it works best, a full dot for the position shown, rings for the others.
fn mark(mark: &Mark) -> Html {
    let (x, y) = (mark.at.x, mark.at.y);
    let text_class = if mark.kind == MarkKind::Current {
        "plot-text is-strong"
    } else {
        "plot-text"
    };
    html! {
        <>
            if !mark.leader.is_empty() { <path class="plot-thin" d={mark.leader.clone()} /> }
            { match mark.kind {
                MarkKind::Best => html! { <path class="map-best" d={format!("M{x:.1} {:.1}l6 6l-6 6l-6 -6Z", y - 6.0)} /> },
                MarkKind::Current => html! { <circle class="map-point is-current" cx={x.to_string()} cy={y.to_string()} r="5" /> },
                MarkKind::Other => html! { <circle class="map-point" cx={x.to_string()} cy={y.to_string()} r="4.5" /> },
            } }
            if let Some(at) = mark.label {
                <text class={text_class} x={at.x.to_string()} y={at.y.to_string()}>{ &mark.text }</text>
            }
        </>
    }
}

fn points(rows: &[PointRow]) -> Html {
    html! {
        <div class="table-frame" role="region" aria-label="Points on the efficiency map" tabindex="0">
            <table class="map-table">
                <caption class="out-of-sight">{ "Points on the efficiency map" }</caption>
                <thead><tr><th scope="col">{ "Point" }</th>{ for ["Speed", "Torque", "Efficiency"].map(|title| html! { <th scope="col" class="number">{ title }</th> }) }</tr></thead>
                <tbody>
                    { for rows.iter().map(|row| html! {
                        <tr aria-current={row.current.then_some("true")}>
                            <th scope="row">{ &row.name }</th>
                            { for row.values.iter().map(|text| html! { <td class="number">{ text }</td> }) }
                        </tr>
                    }) }
                </tbody>
            </table>
        </div>
    }
}

fn values(values: &Values) -> Html {
    html! {
        <div class="table-frame" role="region" aria-label="The efficiency map as a table" tabindex="0">
            <table class="map-table">
                <caption>{ &values.caption }</caption>
                <thead><tr><th scope="col">{ values.unit }</th>{ for values.speeds.iter().map(|speed| html! { <th scope="col" class="number">{ speed }</th> }) }</tr></thead>
                <tbody>
                    { for values.rows.iter().map(|row| html! {
                        <tr>
                            <th scope="row">{ &row.torque }</th>
                            { for row.efficiencies.iter().map(|text| html! { <td class="number">{ text }</td> }) }
                        </tr>
                    }) }
                </tbody>
            </table>
        </div>
    }
}
