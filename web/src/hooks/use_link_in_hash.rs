//! Opens a link that is pasted into the address of the open page.

use layshaft_editor::Input;
use yew::prelude::*;

use super::Bench;
use crate::browser::address;

/// Hands a new fragment of the address to the session, and drops it from the address once it is read.
#[hook]
pub fn use_link_in_hash(bench: &Bench) {
    let bench = bench.clone();
    use_effect_with((), move |()| {
        let listener = address::on_fragment(move |fragment| {
            if !fragment.is_empty() {
                bench.send(Input::OpenLink(fragment));
                address::clear();
            }
        });
        move || drop(listener)
    });
}
