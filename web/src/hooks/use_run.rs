//! What the run sheet hears of the browser: time that passes, how wide it is, whether things may move.

use gloo::timers::callback::{Interval, Timeout};
use layshaft_editor::Input;
use layshaft_editor::runs::RunInput;
use yew::prelude::*;

use super::{use_bench, use_size};
use crate::browser::{now_ms, wants_stillness};

/// Time between two pictures of a run that is played.
const FRAME_MS: u32 = 40;
/// Longest time that counts as passed: a page in the background is called seldom.
const LONGEST_S: f64 = 0.25;
/// How long nothing must change before a run is repeated.
const SETTLE_MS: u32 = 250;

/// Tells the session how much time passes while a run is played.
#[hook]
pub fn use_run_clock(playing: bool) {
    let bench = use_bench();
    use_effect_with(playing, move |playing| {
        let clock = playing.then(|| {
            let mut before = now_ms();
            Interval::new(FRAME_MS, move || {
                let now = now_ms();
                let passed = ((now - before) / 1000.0).min(LONGEST_S);
                before = now;
                bench.send(Input::Run(RunInput::Tick(passed)));
            })
        });
        move || drop(clock)
    });
}

/// Tells the session once what is asked for has not changed for a while; `state` changes with what is asked for.
#[hook]
pub fn use_run_settled<T: PartialEq + 'static>(state: T, stale: bool) {
    let bench = use_bench();
    use_effect_with((state, stale), move |(_, stale)| {
        let timer = stale.then(|| Timeout::new(SETTLE_MS, move || bench.send(Input::Run(RunInput::Settled))));
        move || drop(timer)
    });
}

/// Tells the session whether the person wants nothing to move.
#[hook]
pub fn use_run_stillness() {
    let bench = use_bench();
    use_effect_with((), move |()| {
        bench.send(Input::Run(RunInput::Still(wants_stillness())))
    });
}

/// Tells the session how wide the sheet is.
#[hook]
pub fn use_run_width(node: &NodeRef) {
    let bench = use_bench();
    use_size(node, &bench, |size| Input::Run(RunInput::Width(size.width)));
}
