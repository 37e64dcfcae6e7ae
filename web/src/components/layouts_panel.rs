//! The layouts kept in this browser, demos, an empty bench, and files.

use std::rc::Rc;

use layshaft_editor::demos::DEMOS;
use layshaft_editor::shelf::ShelfSheet;
use layshaft_editor::{Action, Input, ShelfInput};
use web_sys::{HtmlElement, HtmlInputElement};
use yew::prelude::*;

use super::shelf_card::ShelfCard;
use crate::hooks::{open_files, use_bench, use_clock};

/// Properties of [`LayoutsPanel`].
#[derive(Properties, PartialEq)]
pub struct LayoutsPanelProps {
    /// The layouts kept.
    pub sheet: Rc<ShelfSheet>,
}

/// What can be put on the bench.
#[component]
pub fn LayoutsPanel(props: &LayoutsPanelProps) -> Html {
    let bench = use_bench();
    use_clock();
    let sheet = &props.sheet;
    let choose = {
        let bench = bench.clone();
        Callback::from(move |event: Event| {
            let field = event.target_unchecked_into::<HtmlInputElement>();
            if let Some(files) = field.files() {
                open_files(&files, &bench);
            }
            // The same file can be chosen again only if the field is empty.
            field.set_value("");
        })
    };
    let search = bench.0.reform(|event: InputEvent| {
        let text = event.target_unchecked_into::<HtmlInputElement>().value();
        Input::Shelf(ShelfInput::Search(text))
    });
    html! {
        <div class="layouts">
            <div class="commands">
                <button type="button" class="button primary" onclick={bench.act(Action::EmptyBench)}>{ "Empty bench" }</button>
                <label class="button file-button">{ "Open files…" }
                    <input type="file" class="out-of-sight" multiple=true accept=".json,application/json" onchange={choose} aria-label="Open layout files" />
                </label>
                <button type="button" class="button" onclick={bench.act(Action::Download)}>{ "Save as a file" }</button>
            </div>
            <h3 class="panel-heading">{ "Kept in this browser" }</h3>
            if sheet.has_search {
                <input type="search" class="entry" aria-label="Search your layouts" placeholder="Search your layouts" value={sheet.search.clone()} oninput={search} autocomplete="off" />
            }
            if let Some(deleted) = &sheet.deleted { <Deleted key={deleted.clone()} words={deleted.clone()} /> }
            if let Some(words) = &sheet.empty { <p class="quiet">{ words }</p> }
            <ul class="cards">
                { for sheet.cards.iter().map(|card| html! { <ShelfCard key={&*card.id} card={card.clone()} /> }) }
            </ul>
            if sheet.total > 0 {
                <div class="commands"><button type="button" class="button" onclick={bench.act(Action::DownloadAll)}>{ "Save all as one file" }</button></div>
            }
            <h3 class="panel-heading">{ "From the village workshop" }</h3>
            <ul class="demos">
                { for DEMOS.iter().map(|demo| html! {
                    <li>
                        <button type="button" class="demo" onclick={bench.act(Action::OpenDemo(demo.id))}>
                            <span class="demo-name">{ demo.name }</span><span class="demo-story">{ demo.story }</span>
                        </button>
                    </li>
                }) }
            </ul>
            <p class="quiet">{ "What you change is kept here by itself; opening another layout overwrites nothing. Files can be dropped anywhere on the page, and a card dragged out of it is a file." }</p>
        </div>
    }
}

/// Properties of [`Deleted`].
#[derive(Properties, PartialEq)]
struct DeletedProps {
    words: AttrValue,
}

/// What was deleted, with the way back. It takes the focus, which the deleted card has lost.
#[component]
fn Deleted(props: &DeletedProps) -> Html {
    let bench = use_bench();
    let node = use_node_ref();
    use_effect_with((), {
        let node = node.clone();
        move |()| {
            if let Some(button) = node.cast::<HtmlElement>() {
                // Focus is a help, not a promise.
                let _ = button.focus();
            }
        }
    });
    html! {
        <p class="deleted" role="status"><span>{ &props.words }</span>
            <button type="button" ref={node} class="button" aria-label={format!("Undo: {}", props.words)} onclick={bench.on(Input::Shelf(ShelfInput::BringBack))}>{ "Undo" }</button>
        </p>
    }
}
