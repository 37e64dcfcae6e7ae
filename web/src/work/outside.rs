//! The page's side of its worker: started with the first work, kept, replaced after a fault of its own.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use gloo::timers::callback::Timeout;
use layshaft_editor::Input;
use layshaft_editor::choosing::{ChooseInput, Job, News, WorkNumber};
use layshaft_editor::wording::work_broke_off;
use wasm_bindgen::JsCast as _;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::Closure;
use web_sys::{Event, MessageEvent, Worker, WorkerOptions, WorkerType};
use yew::Callback;

use super::messages::{Order, Told, Word, read, written};
use super::{here, tell};
use crate::browser::now_ms;

/// What the worker runs; the page's own folder holds it.
const SCRIPT: &str = "worker.js";

/// Work that has not come back: the job, in case the worker can't start, and whom to tell.
type UnderWay = BTreeMap<WorkNumber, (Rc<Job>, Callback<Input>)>;

/// A worker that was started.
struct Started {
    worker: Worker,
    /// Whether it takes orders yet; until then they wait.
    ready: bool,
    orders: Vec<String>,
    under_way: UnderWay,
    _on_word: Closure<dyn Fn(MessageEvent)>,
    _on_error: Closure<dyn Fn(Event)>,
}

/// How the page stands with workers.
enum Standing {
    /// None was needed so far.
    NotYet,
    /// There is one.
    Started(Started),
    /// This browser starts none.
    Refused,
}

thread_local! {
    static STANDING: RefCell<Standing> = const { RefCell::new(Standing::NotYet) };
}

/// Has a job carried out; false where there is no worker.
pub fn begin(number: WorkNumber, job: &Rc<Job>, back: &Callback<Input>) -> bool {
    STANDING.with_borrow_mut(|standing| {
        if matches!(standing, Standing::NotYet) {
            *standing = start().map_or(Standing::Refused, Standing::Started);
        }
        let Standing::Started(started) = standing else {
            return false;
        };
        started.under_way.insert(number, (job.clone(), back.clone()));
        started.order(&Order::Begin {
            number: number.0,
            job: (**job).clone(),
        });
        true
    })
}

/// Nobody waits for this any more; false where the worker doesn't have it.
pub fn stop(number: WorkNumber) -> bool {
    STANDING.with_borrow_mut(|standing| {
        let Standing::Started(started) = standing else {
            return false;
        };
        let had = started.under_way.remove(&number).is_some();
        if had {
            started.order(&Order::Stop(number.0));
        }
        had
    })
}

/// Starts a worker. The program was compiled for the page already, so it only gets another memory.
fn start() -> Option<Started> {
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let worker = Worker::new_with_options(SCRIPT, &options).ok()?;
    let on_word = Closure::<dyn Fn(MessageEvent)>::new(|event: MessageEvent| {
        let arrived = now_ms();
        match event.data().as_string().as_deref().and_then(read) {
            Some(word) => take(word, arrived),
            None => give_up(),
        }
    });
    let on_error = Closure::<dyn Fn(Event)>::new(|event: Event| {
        event.prevent_default();
        give_up();
    });
    worker.set_onmessage(Some(on_word.as_ref().unchecked_ref()));
    worker.set_onerror(Some(on_error.as_ref().unchecked_ref()));
    // Without it, where a browser can't hand a program over, the worker fetches its own.
    let handed = worker.post_message(&wasm_bindgen::module());
    handed
        .or_else(|_| worker.post_message(&JsValue::UNDEFINED))
        .ok()?;
    Some(Started {
        worker,
        ready: false,
        orders: Vec::new(),
        under_way: UnderWay::new(),
        _on_word: on_word,
        _on_error: on_error,
    })
}

impl Started {
    fn order(&mut self, order: &Order) {
        let text = written(order);
        if self.ready {
            self.send(&text);
        } else {
            self.orders.push(text);
        }
    }

    fn send(&self, text: &str) {
        // A text can always be posted.
        let _ = self.worker.post_message(&JsValue::from_str(text));
    }

    fn get_ready(&mut self) {
        self.ready = true;
        for text in std::mem::take(&mut self.orders) {
            self.send(&text);
        }
    }
}

fn with_started<T>(act: impl FnOnce(&mut Started) -> T) -> Option<T> {
    STANDING.with_borrow_mut(|standing| match standing {
        Standing::Started(started) => Some(act(started)),
        _ => None,
    })
}

/// Takes what the worker says. Nothing is borrowed while the session hears of it.
fn take(word: Word, arrived: f64) {
    let (number, told) = match word {
        Word::Ready => {
            with_started(Started::get_ready);
            return;
        }
        Word::Of(number, told) => (WorkNumber(number), told),
    };
    let over = matches!(told, Told::Done(_) | Told::Failed(_));
    let back = with_started(|started| {
        if over {
            started.under_way.remove(&number).map(|(_, back)| back)
        } else {
            started.under_way.get(&number).map(|(_, back)| back.clone())
        }
    });
    let Some(back) = back.flatten() else {
        return;
    };
    tell(&back, number, told);
    if !over {
        // The page draws itself before this comes.
        Timeout::new(0, move || {
            let took_ms = now_ms() - arrived;
            let number = number.0;
            with_started(|started| started.order(&Order::Shown { number, took_ms }));
        })
        .forget();
    }
}

/// After an error of the worker: the page goes on. One that never took orders is not tried again.
fn give_up() {
    let left = STANDING.with_borrow_mut(|standing| {
        let Standing::Started(started) = std::mem::replace(standing, Standing::NotYet) else {
            return None;
        };
        started.worker.terminate();
        if !started.ready {
            *standing = Standing::Refused;
        }
        Some(started)
    });
    let Some(started) = left else {
        return;
    };
    for (number, (job, back)) in &started.under_way {
        if started.ready {
            let news = News::Failed(work_broke_off().to_owned());
            back.emit(Input::Choose(ChooseInput::News(*number, news)));
        } else {
            here::begin(*number, job, back);
        }
    }
    // Its closures may be running: they are let go later.
    Timeout::new(0, move || drop(started)).forget();
}
