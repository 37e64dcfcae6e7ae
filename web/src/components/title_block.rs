//! The title block in the corner of the sheet: whose sheet it is, and what comes out.

use std::rc::Rc;

use layshaft_editor::title_block::{BlockRow, TitleBlock as Block};
use layshaft_editor::{FieldRef, Input, Target};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use super::cell_view::CellView;
use crate::hooks::use_bench;

/// Properties of [`TitleBlock`].
#[derive(Properties, PartialEq)]
pub struct TitleBlockProps {
    /// What it says.
    pub block: Rc<Block>,
    /// Whether the name can only be read.
    #[prop_or_default]
    pub fixed: bool,
}

/// The layout's name, to be edited where it stands, the position, and the results in cells.
#[component]
pub fn TitleBlock(props: &TitleBlockProps) -> Html {
    let bench = use_bench();
    let all = use_state_eq(|| false);
    let toggle = {
        let all = all.clone();
        Callback::from(move |_: MouseEvent| all.set(!*all))
    };
    let has_more = props.block.rows.iter().any(|row| !row.is_chief());
    let field = FieldRef {
        target: Target::Layout,
        path: "title".to_owned(),
    };
    let on_input = {
        let bench = bench.clone();
        Callback::from(move |event: InputEvent| {
            let text = event.target_unchecked_into::<HtmlInputElement>().value();
            bench.send(Input::Type {
                field: field.clone(),
                text,
            });
        })
    };
    html! {
        <section class={classes!("title-block", all.then_some("is-whole"))} aria-label="Title block">
            <div class="title-row">
                <input class="title-name" readonly={props.fixed} aria-label="Name of the layout" value={props.block.title.clone()}
                    oninput={on_input} onchange={bench.on(Input::EndEdit)} spellcheck="false" autocomplete="off" />
                <p class="title-position"><span>{ "Position" }</span>{ &props.block.position }</p>
                // A phone shows the chief results until all are asked for.
                if has_more {
                    <button type="button" class="button plain title-more" aria-expanded={all.to_string()} onclick={toggle}>{ "All results" }</button>
                }
            </div>
            <dl class="title-cells">{ for props.block.rows.iter().map(cell) }</dl>
        </section>
    }
}

fn cell(row: &BlockRow) -> Html {
    html! {
        <div class={classes!("title-cell", row.is_chief().then_some("is-chief"))} key={row.label}>
            <dt>{ row.label }</dt>
            <dd><CellView cell={row.value.clone()} />if !row.also.is_empty() { <small>{ &row.also }</small> }</dd>
        </div>
    }
}
