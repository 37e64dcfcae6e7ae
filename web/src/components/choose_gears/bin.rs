//! The bin: all gears in one field, and each tooth count with how many there are.

use layshaft_editor::choosing::{BinRow, BinSheet, Entry, GearsField, GearsInput};
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

use super::{act, send};
use crate::hooks::{Bench, use_bench};

/// Properties of [`GearsBin`].
#[derive(Properties, PartialEq)]
pub struct GearsBinProps {
    /// The gears at hand.
    pub bin: BinSheet,
}

/// The gears at hand.
#[component]
pub fn GearsBin(props: &GearsBinProps) -> Html {
    let bench = use_bench();
    let bin = &props.bin;
    let offer = |(offered, name): &(_, String)| {
        html! { <button type="button" class="button" onclick={act(&bench, GearsInput::TakeBin(*offered))}>{ name }</button> }
    };
    html! {
        <div class="gears-bin">
            { all(&bench, &bin.entry) }
            if !bin.offers.is_empty() { <div class="gears-offers">{ for bin.offers.iter().map(offer) }</div> }
            if !bin.rows.is_empty() {
                <details class="fold">
                    <summary>{ format!("How many of each ({})", bin.summary) }</summary>
                    <table class="gears-counts">
                        <caption class="out-of-sight">{ "The bin" }</caption>
                        <thead><tr><th scope="col">{ "Teeth" }</th><th scope="col">{ "How many" }</th><th scope="col"><span class="out-of-sight">{ "Change" }</span></th></tr></thead>
                        <tbody>{ for bin.rows.iter().map(|row| counted(&bench, row)) }</tbody>
                    </table>
                </details>
            }
        </div>
    }
}

/// All gears in one field of several lines, since a bin is seldom a short one.
fn all(bench: &Bench, entry: &Entry) -> Html {
    let hint = format!("{}-hint", entry.key);
    let on_type = {
        let bench = bench.clone();
        Callback::from(move |event: InputEvent| {
            let text = event.target_unchecked_into::<HtmlTextAreaElement>().value();
            send(&bench, GearsInput::Type(GearsField::Bin, text));
        })
    };
    let keep = {
        let bench = bench.clone();
        Callback::from(move |()| send(&bench, GearsInput::Keep(GearsField::Bin)))
    };
    let on_key = {
        let keep = keep.clone();
        Callback::from(move |event: KeyboardEvent| {
            if event.key() == "Enter" {
                event.prevent_default();
                keep.emit(());
            }
        })
    };
    html! {
        <div class="field">
            <label for={entry.key.clone()}>{ &entry.label }</label>
            <textarea id={entry.key.clone()} class="entry gears-all" rows="2" autocomplete="off" spellcheck="false" value={entry.text.clone()}
                aria-invalid={entry.problem.is_some().then_some("true")} aria-describedby={hint.clone()}
                oninput={on_type} onkeydown={on_key} onblur={keep.reform(|_: FocusEvent| ())} />
            if let Some(problem) = &entry.problem { <p class="field-problem" role="alert">{ problem }</p> }
            <p class="field-hint" id={hint}>{ &entry.hint }</p>
        </div>
    }
}

fn counted(bench: &Bench, row: &BinRow) -> Html {
    let teeth = row.teeth;
    let press = |name: &'static str, said: String, input: GearsInput, off: bool| {
        html! { <button type="button" class="button" aria-label={said} disabled={off} onclick={act(bench, input)}>{ name }</button> }
    };
    html! {
        <tr key={teeth}>
            <th scope="row">{ teeth }if !row.material.is_empty() { <span class="quiet">{ format!(" {}", row.material) }</span> }</th>
            <td>{ &row.count }</td>
            <td class="gears-change">
                { press("−", format!("One gear of {teeth} teeth less"), GearsInput::Less(teeth), row.any) }
                { press("+", format!("One gear of {teeth} teeth more"), GearsInput::More(teeth), row.any) }
                <button type="button" class="button" aria-label={format!("Any number of {teeth} teeth")} aria-pressed={row.any.to_string()}
                    onclick={act(bench, GearsInput::AnyNumber(teeth, !row.any))}>{ "any" }</button>
            </td>
        </tr>
    }
}
