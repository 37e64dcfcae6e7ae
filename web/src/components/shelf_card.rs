//! A layout kept in the browser: its picture, its title, and what can be done with it.

use std::rc::Rc;

use layshaft_editor::shelf::Card;
use layshaft_editor::{Input, ShelfInput};
use wasm_bindgen::JsCast as _;
use web_sys::{HtmlElement, HtmlInputElement};
use yew::prelude::*;

use super::thumbnail_view::ThumbnailView;
use crate::browser::file;
use crate::hooks::use_bench;

/// Properties of [`ShelfCard`].
#[derive(Properties, PartialEq)]
pub struct ShelfCardProps {
    /// The layout.
    pub card: Rc<Card>,
}

/// Pressed, it opens; dragged out of the page, it is a file.
#[component]
pub fn ShelfCard(props: &ShelfCardProps) -> Html {
    let bench = use_bench();
    let renaming = use_state_eq(|| false);
    let card = &props.card;
    let input = |make: fn(Rc<str>) -> ShelfInput| bench.on(Input::Shelf(make(card.id.clone())));
    let ondragstart = {
        let card = card.clone();
        Callback::from(move |event: DragEvent| {
            if let Some(carried) = event.data_transfer() {
                file::carry(&carried, &card.file.0, &card.file.1);
            }
        })
    };
    let begin = {
        let renaming = renaming.clone();
        Callback::from(move |_: MouseEvent| renaming.set(true))
    };
    let named = |what: &str| format!("{what} {}", card.title);
    html! {
        <li class={classes!("card", card.is_here.then_some("is-here"))}>
            <button type="button" class="card-open" draggable="true" {ondragstart} onclick={input(ShelfInput::Open)}
                aria-label={format!("Open {}, {}{}", card.title, card.changed, if card.is_here { ", on the bench" } else { "" })}
                aria-current={card.is_here.then_some("true")}>
                <ThumbnailView picture={card.picture.clone()} />
            </button>
            <div class="card-words">
                if *renaming { <Rename card={card.clone()} done={renaming.setter()} /> }
                else { <p class="card-title">{ &card.title }</p> }
                <p class="quiet">{ &card.changed }if card.is_here { <span class="here">{ "on the bench" }</span> }</p>
                <div class="card-tools">
                    <button type="button" class="button plain" aria-label={named("Rename")} onclick={begin}>{ "Rename" }</button>
                    <button type="button" class="button plain" aria-label={named("Copy")} onclick={input(ShelfInput::Duplicate)}>{ "Copy" }</button>
                    <button type="button" class="button plain" aria-label={named("Save as a file:")} onclick={input(ShelfInput::Export)}>{ "File" }</button>
                    <button type="button" class="button plain" aria-label={named("Delete")} onclick={input(ShelfInput::Delete)}>{ "Delete" }</button>
                </div>
            </div>
        </li>
    }
}

/// Properties of [`Rename`].
#[derive(Properties, PartialEq)]
struct RenameProps {
    card: Rc<Card>,
    done: UseStateSetter<bool>,
}

/// The title as a field: Enter and leaving it keep, Esc takes back.
#[component]
fn Rename(props: &RenameProps) -> Html {
    let bench = use_bench();
    let node = use_node_ref();
    // What is typed is kept here: the card is drawn anew whenever the shelf is read, and would take it away.
    let text = use_state_eq(|| props.card.title.clone());
    let oninput = {
        let text = text.setter();
        Callback::from(move |event: InputEvent| {
            text.set(event.target_unchecked_into::<HtmlInputElement>().value())
        })
    };
    use_effect_with((), {
        let node = node.clone();
        move |()| {
            if let Some(field) = node.cast::<HtmlInputElement>() {
                // Focus is a help, not a promise.
                let _ = field.focus();
                field.select();
            }
        }
    });
    let onblur = {
        let (done, id) = (props.done.clone(), props.card.id.clone());
        Callback::from(move |event: FocusEvent| {
            let title = event.target_unchecked_into::<HtmlInputElement>().value();
            done.set(false);
            bench.send(Input::Shelf(ShelfInput::Rename {
                id: id.clone(),
                title,
            }));
        })
    };
    let onkeydown = {
        let before = props.card.title.clone();
        Callback::from(move |event: KeyboardEvent| {
            let field = event.target_unchecked_into::<HtmlInputElement>();
            match event.key().as_str() {
                "Escape" => field.set_value(&before),
                "Enter" => {}
                _ => return,
            }
            event.prevent_default();
            event.stop_propagation();
            let _ = field.unchecked_ref::<HtmlElement>().blur();
        })
    };
    html! {
        <input ref={node} class="entry" aria-label={format!("New title of {}", props.card.title)} value={(*text).clone()}
            autocomplete="off" spellcheck="false" {oninput} {onblur} {onkeydown} />
    }
}
