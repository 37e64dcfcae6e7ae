//! Marks along the frame of the sheet that divide it into fields, numbered and lettered as on any drawing sheet.

use yew::prelude::*;

const COLUMNS: [&str; 8] = ["1", "2", "3", "4", "5", "6", "7", "8"];
const ROWS: [&str; 4] = ["A", "B", "C", "D"];

/// Decoration only; narrow screens leave it out.
#[component]
pub fn FrameMarks() -> Html {
    let edge = |side: &'static str, marks: &'static [&'static str]| {
        html! { <div class={classes!("frame-edge", side)}>{ for marks.iter().map(|mark| html! { <span>{ *mark }</span> }) }</div> }
    };
    html! {
        <div class="frame-marks" aria-hidden="true">
            { edge("is-top", &COLUMNS) }
            { edge("is-bottom", &COLUMNS) }
            { edge("is-left", &ROWS) }
            { edge("is-right", &ROWS) }
        </div>
    }
}
