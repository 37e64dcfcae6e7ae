//! The worker's side: takes orders, goes on with the newest work slice by slice, and listens between slices.

use std::cell::RefCell;

use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{DedicatedWorkerGlobalScope, MessageChannel, MessageEvent, MessagePort};

use super::messages::{Order, Told, Word, read, written};
use super::piece::Piece;

/// All that a worker holds.
struct Bench {
    scope: DedicatedWorkerGlobalScope,
    /// A message to oneself comes after those that wait already, and sooner than any timer.
    to_self: MessagePort,
    /// Whether one is on its way.
    called: bool,
    /// What is under way, the newest last.
    pieces: Vec<Piece>,
}

thread_local! {
    static BENCH: RefCell<Option<Bench>> = const { RefCell::new(None) };
}

/// The worker's scope, where this program runs in one.
pub fn scope() -> Option<DedicatedWorkerGlobalScope> {
    js_sys::global().dyn_into().ok()
}

/// Begins to listen.
pub fn listen(scope: DedicatedWorkerGlobalScope) {
    std::panic::set_hook(Box::new(|info| {
        web_sys::console::warn_1(&JsValue::from_str(&info.to_string()))
    }));
    let Ok(channel) = MessageChannel::new() else {
        return;
    };
    let on_order = Closure::<dyn Fn(MessageEvent)>::new(|event: MessageEvent| {
        match event.data().as_string().as_deref().and_then(read) {
            Some(order) => with_bench(|bench| bench.take(order)),
            // The page hears of it as of any other fault, instead of waiting for ever.
            None => wasm_bindgen::throw_str("an order that can't be read"),
        }
    });
    let on_turn = Closure::<dyn Fn()>::new(|| with_bench(Bench::turn));
    scope.set_onmessage(Some(on_order.as_ref().unchecked_ref()));
    channel
        .port1()
        .set_onmessage(Some(on_turn.as_ref().unchecked_ref()));
    // Both are needed for the life of the worker.
    on_order.forget();
    on_turn.forget();
    let bench = Bench {
        scope,
        to_self: channel.port2(),
        called: false,
        pieces: Vec::new(),
    };
    bench.say(&Word::Ready);
    BENCH.set(Some(bench));
}

fn with_bench(act: impl FnOnce(&mut Bench)) {
    BENCH.with_borrow_mut(|bench| bench.as_mut().map(act));
}

impl Bench {
    fn take(&mut self, order: Order) {
        match order {
            Order::Begin { number, job } => match Piece::begin(number, &job) {
                Ok(piece) => self.pieces.push(piece),
                Err(fault) => self.say(&Word::Of(number, Told::Failed(fault))),
            },
            Order::Stop(number) => self.pieces.retain(|piece| piece.number != number),
            Order::Shown { number, took_ms } => {
                if let Some(piece) = self.pieces.iter_mut().find(|piece| piece.number == number) {
                    piece.shown(took_ms);
                }
            }
        }
        self.call();
    }

    /// Has itself called for a slice, where there is work.
    fn call(&mut self) {
        if !self.called && !self.pieces.is_empty() {
            self.called = self.to_self.post_message(&JsValue::NULL).is_ok();
        }
    }

    fn turn(&mut self) {
        self.called = false;
        let Some(mut piece) = self.pieces.pop() else {
            return;
        };
        let number = piece.number;
        if piece.go_on() {
            self.tell(number, piece.outcome());
        } else {
            if let Some(told) = piece.news() {
                self.tell(number, told);
            }
            self.pieces.push(piece);
        }
        self.call();
    }

    fn tell(&self, number: u64, told: Told) {
        self.say(&Word::Of(number, told));
    }

    fn say(&self, word: &Word) {
        // Refused only while the worker is being ended, when nobody listens.
        let _ = self.scope.post_message(&JsValue::from_str(&written(word)));
    }
}
