//! A field of values: its lines and shades, the value under the pointer and by key, numbers and files below.

use std::rc::Rc;

use layshaft_editor::chart::field::{FieldMap, FieldMove, Place};
use yew::prelude::*;

use super::chart_numbers::ChartNumbers;
use super::chart_shapes::ChartShapes;
use crate::browser::pointer::from_corner;

/// Properties of [`MapView`].
#[derive(Properties, PartialEq)]
pub struct MapViewProps {
    /// The map.
    pub map: Rc<FieldMap>,
    /// What its files are called, without an ending; unique on the page.
    pub name: AttrValue,
}

/// The map with the place that is read.
#[component]
pub fn MapView(props: &MapViewProps) -> Html {
    let map = &props.map;
    let at = use_state_eq(|| None::<Place>);
    let reading = at.and_then(|at| map.reading(at));
    let (width, height) = (map.size.width.to_string(), map.size.height.to_string());
    let about = format!("{}-about", props.name);
    let point = {
        let (map, at) = (map.clone(), at.clone());
        Callback::from(move |event: PointerEvent| {
            if event.pointer_type() == "mouse" || event.buttons() > 0 {
                at.set(Some(map.nearest(from_corner(&event))));
            }
        })
    };
    let onpointerleave = {
        let at = at.clone();
        Callback::from(move |event: PointerEvent| {
            if event.pointer_type() == "mouse" {
                at.set(None);
            }
        })
    };
    html! {
        <figure class="chart">
            <figcaption class="out-of-sight" id={about.clone()}>{ map.spoken() }</figcaption>
            <p class="chart-reading" aria-hidden="true">
                if let Some(reading) = &reading {
                    <span>{ &reading.at }{ ":" }</span>
                    { for reading.values.iter().map(|(name, value)| html! { <span>{ name }{ " " }<b>{ value }</b></span> }) }
                } else {
                    <span class="quiet chart-how">{ "Point at the map to read values, or use the arrow keys." }</span>
                }
            </p>
            <div class="chart-frame" onpointerdown={point.clone()} onpointermove={point} {onpointerleave}>
                <div class="chart-field" tabindex="0" role="application" aria-roledescription="map" aria-label={format!("Read {}", map.spec.title)} aria-describedby={about}
                    onkeydown={read_by_key(map, &at)}>
                    <svg class="plot" viewBox={format!("0 0 {width} {height}")} {width} {height} aria-hidden="true">
                        <ChartShapes shapes={map.shapes.clone()} />
                        if let Some(reading) = &reading { <ChartShapes shapes={reading.shapes.clone()} /> }
                    </svg>
                </div>
                <p class="out-of-sight" role="status">{ reading.as_ref().map_or("", |reading| reading.spoken.as_str()) }</p>
            </div>
            <ChartNumbers file={props.name.clone()} csv={make(map, FieldMap::csv)} svg={make(map, FieldMap::svg)} table={make(map, FieldMap::table)} />
        </figure>
    }
}

fn make<T: 'static>(map: &Rc<FieldMap>, of: fn(&FieldMap) -> T) -> Callback<(), T> {
    let map = map.clone();
    Callback::from(move |()| of(&map))
}

fn read_by_key(map: &Rc<FieldMap>, at: &UseStateHandle<Option<Place>>) -> Callback<KeyboardEvent> {
    let (map, at) = (map.clone(), at.clone());
    Callback::from(move |event: KeyboardEvent| {
        let by = match event.key().as_str() {
            "ArrowRight" => FieldMove::Right(1),
            "ArrowLeft" => FieldMove::Right(-1),
            "ArrowUp" => FieldMove::Up(1),
            "ArrowDown" => FieldMove::Up(-1),
            "PageUp" => FieldMove::Up(5),
            "PageDown" => FieldMove::Up(-5),
            "Home" => FieldMove::First,
            "End" => FieldMove::Last,
            "Escape" if at.is_some() => {
                event.prevent_default();
                return at.set(None);
            }
            _ => return,
        };
        event.prevent_default();
        at.set(Some(map.moved(*at, by)));
    })
}
