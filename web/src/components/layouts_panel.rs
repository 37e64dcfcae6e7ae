//! Demos, an empty bench, and layout files.

use layshaft_editor::Action;
use layshaft_editor::demos::DEMOS;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::hooks::{open_file, use_bench};

/// What can be put on the bench. Undo brings back what lay there.
#[component]
pub fn LayoutsPanel() -> Html {
    let bench = use_bench();
    let choose = {
        let bench = bench.clone();
        Callback::from(move |event: Event| {
            let field = event.target_unchecked_into::<HtmlInputElement>();
            if let Some(file) = field.files().and_then(|files| files.get(0)) {
                open_file(file, &bench);
            }
            // The same file can be chosen again only if the field is empty.
            field.set_value("");
        })
    };
    html! {
        <div class="layouts">
            <p class="quiet">{ "Opening one replaces what is on the bench; undo brings it back." }</p>
            <ul class="demos">
                { for DEMOS.iter().map(|demo| html! {
                    <li>
                        <button type="button" class="demo" onclick={bench.act(Action::OpenDemo(demo.id))}>
                            <span class="demo-name">{ demo.name }</span><span class="demo-story">{ demo.story }</span>
                        </button>
                    </li>
                }) }
            </ul>
            <div class="commands">
                <button type="button" class="button primary" onclick={bench.act(Action::EmptyBench)}>{ "Empty bench" }</button>
                <label class="button file-button">{ "Open a file…" }
                    <input type="file" class="out-of-sight" accept=".json,application/json" onchange={choose} aria-label="Open a layout file" />
                </label>
                <button type="button" class="button" onclick={bench.act(Action::Download)}>{ "Save as a file" }</button>
            </div>
            <p class="quiet">{ "A layout file can also be dropped anywhere on the page. What is on the bench is kept in this browser by itself." }</p>
        </div>
    }
}
