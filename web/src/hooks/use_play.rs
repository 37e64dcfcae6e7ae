//! Plays through the shift positions: the one clock of the page that is not an animation of the style sheet.

use gloo::timers::callback::Interval;
use layshaft_editor::{Action, Input};
use yew::prelude::*;

use super::use_bench;

/// Long enough to read a headline.
const PERIOD_MS: u32 = 3500;

/// Whether the positions are being played, and the handler that starts and stops it.
#[hook]
pub fn use_play() -> (bool, Callback<MouseEvent>) {
    let bench = use_bench();
    let playing = use_state_eq(|| false);
    use_effect_with(*playing, move |playing| {
        let interval =
            playing.then(|| Interval::new(PERIOD_MS, move || bench.send(Input::Act(Action::NextPosition))));
        move || drop(interval)
    });
    let toggle = {
        let playing = playing.clone();
        Callback::from(move |_| playing.set(!*playing))
    };
    (*playing, toggle)
}
