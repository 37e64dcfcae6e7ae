//! Writes to the store one after the other, in the order in which the session asked, and tells it and other tabs what came
//! of it.
//!
//! Of what waits only the newest of a kind is written: keys come faster than a store.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::rc::Rc;

use layshaft_editor::shelf::Record;
use layshaft_editor::{Input, ShelfEffect, ShelfInput};
use wasm_bindgen_futures::spawn_local;
use yew::Callback;

use crate::browser::store;
use crate::browser::tabs::{self, Word};
use crate::browser::update;

/// From this revision on a record is worth asking the browser not to clear it away: some browsers ask the person, who
/// should have something to keep by then.
const WORTH_ASKING: u64 = 20;

/// Something to be written.
enum Job {
    Keep(Box<Record>),
    Forget(Rc<str>),
    Note(String),
    LoadUpdate,
}

thread_local! {
    static WAITING: RefCell<VecDeque<Job>> = RefCell::default();
    static AT_WORK: Cell<bool> = const { Cell::new(false) };
    static ASKED: Cell<bool> = const { Cell::new(false) };
}

/// Carries out what the session asks about the layouts kept.
pub fn carry_out(effect: ShelfEffect, back: &Callback<Input>) {
    add(
        match effect {
            ShelfEffect::Keep(record) => Job::Keep(record),
            ShelfEffect::Forget(id) => Job::Forget(id),
            ShelfEffect::LoadUpdate => Job::LoadUpdate,
        },
        back,
    );
}

/// Notes what lies on the bench.
pub fn note(text: String, back: &Callback<Input>) {
    store::note_for_tab(&text);
    add(Job::Note(text), back);
}

fn add(job: Job, back: &Callback<Input>) {
    WAITING.with_borrow_mut(|waiting| {
        waiting.retain(|other| !replaces(&job, other));
        waiting.push_back(job);
    });
    if !AT_WORK.replace(true) {
        let back = back.clone();
        spawn_local(async move {
            while let Some(job) = WAITING.with_borrow_mut(VecDeque::pop_front) {
                write(job, &back).await;
            }
            AT_WORK.set(false);
        });
    }
}

/// Whether a job leaves nothing to do for an earlier one.
fn replaces(job: &Job, earlier: &Job) -> bool {
    match (job, earlier) {
        (Job::Keep(new), Job::Keep(old)) => new.id == old.id,
        (Job::Forget(new), Job::Keep(old)) => *new == old.id,
        (Job::Note(_), Job::Note(_)) => true,
        _ => false,
    }
}

async fn write(job: Job, back: &Callback<Input>) {
    let answer = match job {
        Job::Keep(record) => store::keep(*record).await.map(|answer| {
            if let ShelfInput::Kept(record) = &answer {
                tabs::tell(Word::Kept, &record.id);
                if record.revision >= WORTH_ASKING && !ASKED.replace(true) {
                    store::ask_to_persist();
                }
            }
            Some(answer)
        }),
        Job::Forget(id) => store::forget(&id).await.map(|()| {
            tabs::tell(Word::Gone, &id);
            None
        }),
        Job::Note(text) => store::note(&text).await.map(|()| None),
        Job::LoadUpdate => {
            update::load();
            Ok(None)
        }
    };
    let answer = answer.unwrap_or(Some(ShelfInput::NoStore));
    if let Some(answer) = answer {
        back.emit(Input::Shelf(answer));
    }
}
