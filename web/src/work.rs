//! Long work: carried out in slices between which the page lives on, told of as it goes, stopped when nobody waits.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use gloo::timers::future::TimeoutFuture;
use layshaft_choose::task::Task;
use layshaft_editor::Input;
use layshaft_editor::choosing::{ChooseInput, Job, News, WorkNumber};
use wasm_bindgen_futures::spawn_local;
use yew::Callback;

use crate::browser::now_ms;

/// How long a slice takes, and how often it is told how far the work is.
const SLICE_MS: f64 = 12.0;
const TELL_MS: f64 = 100.0;

thread_local! {
    /// Work that nobody waits for any more.
    static STOPPED: RefCell<BTreeSet<WorkNumber>> = RefCell::default();
}

/// Nobody waits for this any more.
pub fn stop(number: WorkNumber) {
    STOPPED.with_borrow_mut(|stopped| stopped.insert(number));
}

/// Carries a job out and tells of it.
pub fn begin(number: WorkNumber, job: Rc<Job>, back: Callback<Input>) {
    spawn_local(async move {
        let tell = |news| back.emit(Input::Choose(ChooseInput::News(number, news)));
        TimeoutFuture::new(0).await;
        let mut task = match Task::begin(&job) {
            Ok(task) => task,
            Err(problem) => return tell(News::Failed(problem.to_string())),
        };
        let mut told = now_ms();
        loop {
            let start = now_ms();
            let mut done = false;
            while !done && now_ms() - start < SLICE_MS {
                done = task.advance();
            }
            if done {
                return tell(News::Done(Rc::new(task.answer())));
            }
            if now_ms() - told > TELL_MS {
                told = now_ms();
                tell(News::Progress(task.progress()));
                tell(News::SoFar(Rc::new(task.answer())));
            }
            TimeoutFuture::new(0).await;
            if STOPPED.with_borrow_mut(|stopped| stopped.remove(&number)) {
                return;
            }
        }
    });
}
