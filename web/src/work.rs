//! Long work: carried out in a worker beside the page, told of as it goes, stopped when nobody waits.
//!
//! The worker runs the same program, which finds out where it is ([`inside`]). [`outside`] is the page's side of it,
//! [`piece`] the work itself in slices, [`here`] the same on the page for browsers that start no worker.

mod here;
pub mod inside;
mod messages;
mod outside;
mod piece;

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::choosing::{ChooseInput, Job, News, WorkNumber};
use yew::Callback;

use messages::Told;

/// Carries a job out and tells of it.
pub fn begin(number: WorkNumber, job: &Rc<Job>, back: &Callback<Input>) {
    if !outside::begin(number, job, back) {
        here::begin(number, job, back);
    }
}

/// Nobody waits for this any more.
pub fn stop(number: WorkNumber) {
    if !outside::stop(number) {
        here::stop(number);
    }
}

/// Tells the session.
fn tell(back: &Callback<Input>, number: WorkNumber, told: Told) {
    let say = |news| back.emit(Input::Choose(ChooseInput::News(number, news)));
    match told {
        Told::UnderWay(progress, so_far) => {
            say(News::Progress(progress));
            if let Some(answer) = so_far {
                say(News::SoFar(Rc::new(answer)));
            }
        }
        Told::Done(answer) => say(News::Done(Rc::new(answer))),
        Told::Failed(sentence) => say(News::Failed(sentence)),
    }
}
