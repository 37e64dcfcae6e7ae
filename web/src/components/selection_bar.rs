//! What stands over the drawing while several things are selected: how many, and what can be done with them.

use std::rc::Rc;

use layshaft_editor::Action;
use layshaft_editor::actions::ActionInfo;
use layshaft_editor::aligning::{Alignment, Axis};
use layshaft_editor::session;
use yew::prelude::*;

use super::icon::{Icon, Picture};
use crate::hooks::{Bench, use_bench};

/// Properties of [`SelectionBar`].
#[derive(Properties, PartialEq)]
pub struct SelectionBarProps {
    /// What stands in it.
    pub bar: Rc<session::SelectionBar>,
}

/// The count, a button for each action, and one that lets go.
#[component]
pub fn SelectionBar(props: &SelectionBarProps) -> Html {
    let bench = use_bench();
    let bar = &props.bar;
    html! {
        <div class="selection-bar" role="toolbar" aria-label={format!("{}: what can be done", bar.text)}>
            <p class="selection-count" role="status">{ &bar.text }</p>
            <div class="selection-actions">
                { for bar.actions.iter().map(|info| button(&bench, info)) }
            </div>
            <button type="button" class="button plain" title="Let go (Esc)" aria-label="Let go of the selection"
                onclick={bench.on(layshaft_editor::Input::Select { targets: Vec::new(), add: false, position: None })}><Icon of={Picture::Close} /></button>
        </div>
    }
}

fn button(bench: &Bench, info: &ActionInfo) -> Html {
    let title = if info.key.is_empty() {
        format!("{}: {}", info.name, info.help)
    } else {
        format!("{} ({}): {}", info.name, info.key, info.help)
    };
    let drawn = match info.action {
        Action::Align(by) => Some(alignment(by)),
        Action::SpreadOut(along) => Some(spreading(along)),
        _ => None,
    };
    let short = short(info);
    html! {
        <button type="button" key={info.name.clone()} class="button plain" {title} aria-label={info.name.clone()} onclick={bench.act(info.action.clone())}>
            if let Some(path) = drawn {
                <svg class="icon" viewBox="0 0 20 20" aria-hidden="true"><path d={path} /></svg>
            } else { { short } }
        </button>
    }
}

/// Names that are too long for a button.
fn short(info: &ActionInfo) -> String {
    match info.action {
        Action::Fold => "Fold/open".to_owned(),
        _ => info.name.clone(),
    }
}

/// A line, and two bars brought to it.
const fn alignment(by: Alignment) -> &'static str {
    match by {
        Alignment::Left => "M3 3v14M6 5h11v3H6zM6 12h6v3H6z",
        Alignment::Centre => "M10 2v16M4 5h12v3H4zM7 12h6v3H7z",
        Alignment::Right => "M17 3v14M3 5h11v3H3zM8 12h6v3H8z",
        Alignment::Top => "M3 3h14M5 6v11h3V6zM12 6v6h3V6z",
        Alignment::Middle => "M2 10h16M5 4v12h3V4zM12 7v6h3V7z",
        Alignment::Bottom => "M3 17h14M5 3v11h3V3zM12 8v6h3V8z",
    }
}

/// Three bars with equal gaps.
const fn spreading(along: Axis) -> &'static str {
    match along {
        Axis::Across => "M3 5v10M10 5v10M17 5v10M5 10h3M12 10h3",
        Axis::Down => "M5 3h10M5 10h10M5 17h10M10 5v3M10 12v3",
    }
}
