//! A plot: values under the pointer and by key, the mark of the present value to be carried, numbers and files below.

use std::rc::Rc;

use layshaft_editor::Point;
use layshaft_editor::chart::{Carry, Chart, Reading, ReadingMove};
use yew::prelude::*;

use super::chart_numbers::ChartNumbers;
use super::chart_shapes::ChartShapes;
use crate::browser::pointer::{from_corner, from_left, plot_of};

/// Properties of [`ChartView`].
#[derive(Properties, PartialEq)]
pub struct ChartViewProps {
    /// The plot.
    pub chart: Rc<Chart>,
    /// What its files are called, without an ending; unique on the page.
    pub name: AttrValue,
    /// Carries the mark of the present value; without this it stays where it is.
    #[prop_or_default]
    pub on_carry: Option<Callback<Carry>>,
    /// What the mark is, for its control: `Ratio of wg, now 0.0833`.
    #[prop_or_default]
    pub carried: AttrValue,
    /// Values at the mark while other values are tried: shown as long as nothing else is read.
    #[prop_or_default]
    pub tried: Option<Reading>,
}

/// What a pointer on the plot is about.
#[derive(Clone, Copy, PartialEq)]
enum Hold {
    /// It reads, or there is none.
    Nothing,
    /// A finger is down on the mark, and may yet want to scroll: where it came down.
    Perhaps(Point),
    /// It carries the mark.
    Carries,
}

/// How far a finger goes before it is clear whether it scrolls or carries.
const CLEAR: f64 = 8.0;

/// The plot with its reading line.
#[component]
pub fn ChartView(props: &ChartViewProps) -> Html {
    let chart = &props.chart;
    let at = use_state_eq(|| None::<usize>);
    let hold = use_mut_ref(|| Hold::Nothing);
    let reading = at.and_then(|at| chart.reading(at));
    let (width, height) = (chart.size.width.to_string(), chart.size.height.to_string());
    let about = format!("{}-about", props.name);

    let onpointerdown = {
        let (chart, at, hold) = (chart.clone(), at.clone(), hold.clone());
        let can_carry = props.on_carry.is_some();
        Callback::from(move |event: PointerEvent| {
            let (x, mouse) = (from_left(&event), event.pointer_type() == "mouse");
            if !can_carry || !chart.grabs(x, !mouse) {
                at.set(Some(chart.nearest(x)));
                return;
            }
            at.set(None);
            *hold.borrow_mut() = if mouse {
                keep_pointer(&event);
                Hold::Carries
            } else {
                Hold::Perhaps(from_corner(&event))
            };
        })
    };
    let onpointermove = {
        let (chart, at, hold) = (chart.clone(), at.clone(), hold.clone());
        let carry = props.on_carry.clone();
        Callback::from(move |event: PointerEvent| {
            let x = from_left(&event);
            let held = *hold.borrow();
            if let Hold::Perhaps(from) = held {
                let by = from_corner(&event) - from;
                if by.x.abs().max(by.y.abs()) < CLEAR {
                    return;
                }
                let carries = by.x.abs() > by.y.abs();
                *hold.borrow_mut() = if carries { Hold::Carries } else { Hold::Nothing };
                if carries {
                    keep_pointer(&event);
                }
            }
            if *hold.borrow() == Hold::Carries {
                if let Some(carry) = &carry {
                    carry.emit(Carry::To(chart.value_at(x)));
                }
            } else if event.pointer_type() == "mouse" || held == Hold::Nothing && event.buttons() > 0 {
                at.set(Some(chart.nearest(x)));
            }
        })
    };
    let let_go = |how: Carry| {
        let (hold, carry) = (hold.clone(), props.on_carry.clone());
        Callback::from(move |_: PointerEvent| {
            if hold.replace(Hold::Nothing) == Hold::Carries
                && let Some(carry) = &carry
            {
                carry.emit(how);
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
            <figcaption class="out-of-sight" id={about.clone()}>{ chart.spoken() }</figcaption>
            <p class="chart-reading" aria-hidden="true">{ told(reading.as_ref().or(props.tried.as_ref())) }</p>
            <div class="chart-frame" {onpointerdown} {onpointermove} {onpointerleave}
                onpointerup={let_go(Carry::Keep)} onpointercancel={let_go(Carry::Back)}>
                <div class="chart-field" tabindex="0" role="slider" aria-label={format!("Read {}", chart.spec.title)} aria-describedby={about}
                    aria-valuemin="0" aria-valuemax={chart.readings().saturating_sub(1).to_string()} aria-valuenow={at.unwrap_or(0).to_string()}
                    aria-valuetext={reading.as_ref().map_or_else(|| "Arrow keys read values".to_owned(), |reading| reading.spoken.clone())}
                    onkeydown={read_by_key(chart, &at)}>
                    <svg class="plot" viewBox={format!("0 0 {width} {height}")} {width} {height} aria-hidden="true">
                        <ChartShapes shapes={chart.shapes.clone()} />
                        if let Some(reading) = &reading { <ChartShapes shapes={reading.shapes.clone()} /> }
                    </svg>
                </div>
                { handle(props) }
            </div>
            <ChartNumbers file={props.name.clone()} csv={make(chart, Chart::csv)} svg={make(chart, Chart::svg)} table={make(chart, Chart::table)} />
        </figure>
    }
}

/// A closure that makes something of the plot when it is asked for.
fn make<T: 'static>(chart: &Rc<Chart>, of: fn(&Chart) -> T) -> Callback<(), T> {
    let chart = chart.clone();
    Callback::from(move |()| of(&chart))
}

/// Values where the reading line is, or what to do to see some.
fn told(reading: Option<&Reading>) -> Html {
    let Some(reading) = reading else {
        return html! { <span class="quiet chart-how">{ "Point at the plot to read values, or use the arrow keys." }</span> };
    };
    html! {
        <>
            <span>{ "At " }<b>{ &reading.at }</b>{ ":" }</span>
            { for reading.values.iter().map(|(name, value)| html! { <span>{ name }{ " " }<b>{ value }</b></span> }) }
        </>
    }
}

fn read_by_key(chart: &Rc<Chart>, at: &UseStateHandle<Option<usize>>) -> Callback<KeyboardEvent> {
    let (chart, at) = (chart.clone(), at.clone());
    Callback::from(move |event: KeyboardEvent| {
        let by = match event.key().as_str() {
            "ArrowRight" | "ArrowUp" => ReadingMove::By(1),
            "ArrowLeft" | "ArrowDown" => ReadingMove::By(-1),
            "PageUp" => ReadingMove::By(10),
            "PageDown" => ReadingMove::By(-10),
            "Home" => ReadingMove::First,
            "End" => ReadingMove::Last,
            "Escape" if at.is_some() => {
                event.prevent_default();
                return at.set(None);
            }
            _ => return,
        };
        event.prevent_default();
        at.set(Some(chart.moved(*at, by)));
    })
}

/// The mark of the present value as a control: arrow keys move it, Esc puts it back, leaving it keeps what it says.
fn handle(props: &ChartViewProps) -> Html {
    let (Some(carry), Some(at)) = (&props.on_carry, props.chart.present) else {
        return html! {};
    };
    let onkeydown = {
        let carry = carry.clone();
        Callback::from(move |event: KeyboardEvent| {
            let step = match event.key().as_str() {
                "ArrowRight" | "ArrowUp" => Carry::By(1),
                "ArrowLeft" | "ArrowDown" => Carry::By(-1),
                "PageUp" => Carry::By(5),
                "PageDown" => Carry::By(-5),
                "Enter" | " " => Carry::Keep,
                "Escape" => Carry::Back,
                _ => return,
            };
            event.prevent_default();
            carry.emit(step);
        })
    };
    html! {
        <button type="button" class="chart-handle" role="slider" style={format!("left:{:.1}px;top:{:.1}px", at.x, at.y)}
            aria-label={props.carried.clone()} aria-valuetext={props.carried.clone()} aria-valuenow="0" title="Drag to try other values"
            {onkeydown} onblur={carry.reform(|_| Carry::Keep)}></button>
    }
}

/// The browser keeps this pointer for the plot until it is let go.
fn keep_pointer(event: &PointerEvent) {
    if let Some(plot) = plot_of(event) {
        // Refused once the pointer is gone, and then there is nothing to keep.
        let _ = plot.set_pointer_capture(event.pointer_id());
    }
}
