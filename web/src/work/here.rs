//! Long work on the page itself, in slices between which the page lives on: for browsers that start no worker.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use gloo::timers::future::TimeoutFuture;
use layshaft_editor::Input;
use layshaft_editor::choosing::{Job, WorkNumber};
use wasm_bindgen_futures::spawn_local;
use yew::Callback;

use super::messages::Told;
use super::piece::Piece;
use super::tell;
use crate::browser::now_ms;

thread_local! {
    /// Work that somebody waits for.
    static WAITED_FOR: RefCell<BTreeSet<WorkNumber>> = RefCell::default();
}

/// Nobody waits for this any more.
pub fn stop(number: WorkNumber) {
    WAITED_FOR.with_borrow_mut(|waited| waited.remove(&number));
}

/// Carries a job out and tells of it.
pub fn begin(number: WorkNumber, job: &Rc<Job>, back: &Callback<Input>) {
    WAITED_FOR.with_borrow_mut(|waited| waited.insert(number));
    let (job, back) = (job.clone(), back.clone());
    spawn_local(async move {
        // What has just been asked for is drawn first.
        TimeoutFuture::new(0).await;
        let outcome = match Piece::begin(number.0, &job) {
            Ok(piece) => go_on(number, piece, &back).await,
            Err(fault) => Some(Told::Failed(fault)),
        };
        stop(number);
        if let Some(told) = outcome {
            tell(&back, number, told);
        }
    });
}

/// Goes on to the end, or until nobody waits for it.
async fn go_on(number: WorkNumber, mut piece: Piece, back: &Callback<Input>) -> Option<Told> {
    while WAITED_FOR.with_borrow(|waited| waited.contains(&number)) {
        if piece.go_on() {
            return Some(piece.outcome());
        }
        let start = now_ms();
        let news = piece.news();
        let told = news.is_some();
        if let Some(news) = news {
            tell(back, number, news);
        }
        // The page draws itself, and hears what waits.
        TimeoutFuture::new(0).await;
        if told {
            piece.shown(now_ms() - start);
        }
    }
    None
}
