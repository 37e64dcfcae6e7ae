//! The way from any component to the session: one callback, the same for the life of the page.

use layshaft_editor::{Action, Input};
use yew::prelude::*;

/// Hands inputs to the session.
#[derive(Clone, PartialEq)]
pub struct Bench(pub Callback<Input>);

impl Bench {
    /// Hands over an input.
    pub fn send(&self, input: Input) {
        self.0.emit(input);
    }

    /// A handler that always does the same, whatever the event.
    pub fn on<E: 'static>(&self, input: Input) -> Callback<E> {
        self.0.reform(move |_| input.clone())
    }

    /// A handler that starts an action.
    pub fn act<E: 'static>(&self, action: Action) -> Callback<E> {
        self.on(Input::Act(action))
    }
}

/// The bench that the page's root provides.
#[hook]
pub fn use_bench() -> Bench {
    use_context::<Bench>().expect("every component stands below the page's root, which provides the bench")
}
