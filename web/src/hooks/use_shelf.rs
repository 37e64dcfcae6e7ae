//! What the layouts kept hear of the browser: other tabs, coming back to this one, the time, a moment of quiet.

use std::rc::Rc;

use gloo::events::EventListener;
use gloo::timers::callback::{Interval, Timeout};
use layshaft_editor::shelf::Now;
use layshaft_editor::{Input, ShelfInput};
use wasm_bindgen_futures::spawn_local;
use web_sys::VisibilityState;
use yew::prelude::*;

use super::{Bench, use_bench};
use crate::browser::tabs::{self, Word};
use crate::browser::{document, now_ms, store, update};

/// How long nothing must change before a picture is drawn.
const SETTLE_MS: u32 = 800;
/// How often words like "5 minutes ago" are looked over.
const CLOCK_MS: u32 = 30_000;

/// Listens to other tabs and tells them what lies on this bench; `here` is its record, `picture_due` changes with every
/// change that no picture shows yet.
#[hook]
pub fn use_shelf(bench: &Bench, here: Option<Rc<str>>, picture_due: Option<u64>) {
    let mine = use_mut_ref(|| None::<Rc<str>>);
    mine.replace(here.clone());
    use_effect_with((), {
        let (bench, mine) = (bench.clone(), mine);
        move |()| {
            let tabs = {
                let (bench, mine) = (bench.clone(), mine.clone());
                tabs::listen(move |word, id| heard(word, id, mine.borrow().as_ref(), &bench))
            };
            let back = {
                let bench = bench.clone();
                EventListener::new(&document(), "visibilitychange", move |_| read_again(&bench))
            };
            let newer = update::on_ready(move || bench.send(Input::Shelf(ShelfInput::UpdateReady)));
            move || drop((tabs, back, newer))
        }
    });
    use_effect_with(here, |here| {
        if let Some(id) = here {
            tabs::tell(Word::On, id);
        }
    });
    use_effect_with(picture_due, {
        let bench = bench.clone();
        move |due| {
            let timer =
                due.map(|_| Timeout::new(SETTLE_MS, move || bench.send(Input::Shelf(ShelfInput::Settled))));
            move || drop(timer)
        }
    });
}

/// Tells the session what time it is, as long as it is asked for.
#[hook]
pub fn use_clock() {
    let bench = use_bench();
    use_effect_with((), move |()| {
        let tell = move || bench.send(Input::Shelf(ShelfInput::Time(now())));
        tell();
        let clock = Interval::new(CLOCK_MS, tell);
        move || drop(clock)
    });
}

fn now() -> Now {
    let ms = now_ms();
    Now {
        ms,
        ahead_minutes: -js_sys::Date::new(&ms.into()).get_timezone_offset(),
    }
}

fn heard(word: Word, id: &str, mine: Option<&Rc<str>>, bench: &Bench) {
    match word {
        Word::Kept => {
            let (id, bench) = (id.to_owned(), bench.clone());
            spawn_local(async move {
                if let Ok(Some(record)) = store::record(&id).await {
                    bench.send(Input::Shelf(ShelfInput::Changed(Box::new(record))));
                }
            });
        }
        Word::Gone => bench.send(Input::Shelf(ShelfInput::Gone(id.into()))),
        Word::On if mine.is_some_and(|mine| **mine == *id) => tabs::tell(Word::Here, id),
        Word::On => {}
        Word::Here => bench.send(Input::Shelf(ShelfInput::AlsoOpen(id.into()))),
    }
}

/// A tab that was out of sight may have been asleep and have heard nothing.
fn read_again(bench: &Bench) {
    if document().visibility_state() != VisibilityState::Visible {
        return;
    }
    let bench = bench.clone();
    spawn_local(async move {
        if let Ok(kept) = store::read().await {
            bench.send(Input::Shelf(ShelfInput::Read(kept.records)));
        }
    });
}
