//! Carries out what the session asks for, after the page has been drawn: focus needs its element to be there.

use yew::prelude::*;

use crate::effects::{Reports, carry_out};
use crate::store::Store;

/// Carries out all waiting effects after each drawing of the page.
#[hook]
pub fn use_effects(store: &UseReducerHandle<Store>, reports: Reports) {
    let store = store.clone();
    use_effect(move || {
        for effect in store.take_effects() {
            carry_out(effect, store.session(), &reports);
        }
    });
}
