//! The menu over the drawing: lines that arrow keys walk through, with the keys that do the same without it.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::menu::{Menu, MenuEntry};
use yew::prelude::*;

use crate::browser::{focus, pointer};
use crate::hooks::{Bench, use_bench};

/// The id of a line.
fn line_id(number: usize) -> String {
    format!("menu-line-{number}")
}

/// Properties of [`ContextMenu`].
#[derive(Properties, PartialEq)]
pub struct ContextMenuProps {
    /// What stands in it.
    pub menu: Rc<Menu>,
}

/// It takes the focus when it opens and gives it back through the session when it closes.
#[component]
pub fn ContextMenu(props: &ContextMenuProps) -> Html {
    let bench = use_bench();
    let menu = &props.menu;
    // Whoever opens a menu wants to walk through it.
    use_effect_with(menu.clone(), |_| focus::on(&line_id(0)));
    let on_key = {
        let (bench, names) = (bench.clone(), names(menu));
        Callback::from(move |event: KeyboardEvent| walk(&event, &bench, &names))
    };
    let corner = corner(menu);
    let keep_focus = Callback::from(|event: MouseEvent| event.prevent_default());
    let on_leave = {
        let bench = bench.clone();
        Callback::from(move |event: FocusEvent| {
            if !focus::goes_to(&event, ".menu") {
                bench.send(Input::LeaveMenu);
            }
        })
    };
    html! {
        <div class="menu" role="menu" aria-label={menu.title.clone()} style={corner} onkeydown={on_key} onmousedown={keep_focus} onfocusout={on_leave} oncontextmenu={Callback::from(|event: MouseEvent| event.prevent_default())}>
            <p class="menu-title" aria-hidden="true">{ &menu.title }</p>
            { for menu.entries.iter().enumerate().map(|(number, entry)| view_entry(&bench, number, entry)) }
        </div>
    }
}

/// Where the drawing is and where in it the menu belongs; the style sheet keeps it in the window.
fn corner(menu: &Menu) -> String {
    let drawing = pointer::corner_of_drawing();
    format!(
        "--left:{}px;--top:{}px;--x:{}px;--y:{}px;--lines:{}",
        drawing.x,
        drawing.y,
        menu.at.x,
        menu.at.y,
        menu.entries.len()
    )
}

fn names(menu: &Menu) -> Vec<String> {
    menu.entries
        .iter()
        .map(|entry| entry.name.to_lowercase())
        .collect()
}

fn view_entry(bench: &Bench, number: usize, entry: &MenuEntry) -> Html {
    html! {
        <>
            if entry.begins { <hr role="separator" /> }
            <button type="button" role="menuitem" class="menu-line" id={line_id(number)} tabindex="-1" onclick={bench.on(Input::ChooseFromMenu(number))}>
                <span>{ &entry.name }</span>if !entry.key.is_empty() { <kbd aria-hidden="true">{ &entry.key }</kbd> }
            </button>
        </>
    }
}

/// Arrow keys, first letters, Esc and Tab; Enter and the space bar press the line by themselves.
fn walk(event: &KeyboardEvent, bench: &Bench, names: &[String]) {
    let key = event.key();
    let here = focus::number_in("menu-line-").unwrap_or(0);
    let count = names.len();
    let next = match key.as_str() {
        "Enter" | " " => return event.stop_propagation(),
        "Escape" | "Tab" => {
            event.prevent_default();
            event.stop_propagation();
            return bench.send(Input::CloseMenu);
        }
        "ArrowDown" => Some((here + 1) % count.max(1)),
        "ArrowUp" => Some((here + count.max(1) - 1) % count.max(1)),
        "Home" => Some(0),
        "End" => count.checked_sub(1),
        letter => {
            let letter = letter.to_lowercase();
            let mut order = (here + 1..count).chain(0..count);
            order.find(|number| names[*number].starts_with(&letter))
        }
    };
    event.prevent_default();
    event.stop_propagation();
    if let Some(number) = next {
        focus::on(&line_id(number));
    }
}
