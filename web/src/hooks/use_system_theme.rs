//! The system's wish for light or dark colours, which can change while the page is open.

use gloo::events::EventListener;
use layshaft_editor::Input;
use yew::prelude::*;

use super::Bench;
use crate::browser::theme;

/// Tells the session what the system asks for whenever that changes.
#[hook]
pub fn use_system_theme(bench: &Bench) {
    let bench = bench.clone();
    use_effect_with((), move |()| {
        let listener = theme::system_query().map(|query| {
            EventListener::new(&query, "change", move |_| {
                bench.send(Input::SystemIsDark(theme::system_is_dark()));
            })
        });
        move || drop(listener)
    });
}
