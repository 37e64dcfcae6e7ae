//! The page: Yew components over the data of `layshaft-editor`, and the browser they run in.
//!
//! Nothing is computed or decided here. Numbers arrive formatted from the editor; a handler turns an event of the
//! browser into an [`layshaft_editor::Input`] and stops there. [`store`] holds the session, [`effects`] carries out
//! what it asks for, [`work`] has done what takes long, in a worker that runs this same program; [`browser`] is the only
//! other place that talks to browser interfaces.

mod browser;
mod components;
mod effects;
mod hooks;
mod opening;
mod shelf;
mod store;
mod work;

use components::app::{App, AppProps};

/// Where `static/index.html` wants the page.
const PLACE: &str = "page";

fn main() {
    if let Some(scope) = work::inside::scope() {
        return work::inside::listen(scope);
    }
    browser::recovery::install();
    browser::store::end_with_the_page();
    wasm_bindgen_futures::spawn_local(async {
        let (session, effects) = opening::session().await;
        let place = browser::document()
            .get_element_by_id(PLACE)
            .expect("static/index.html has a place for the page");
        yew::Renderer::<App>::with_root_and_props(place, AppProps { session, effects }).render();
    });
}
