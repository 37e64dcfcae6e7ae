//! The bin: all gears in one field, and each tooth count with how many there are.

use layshaft_editor::choosing::{BinRow, BinSheet, GearsField, GearsInput};
use yew::prelude::*;

use super::{act, field};
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
            { field(&bench, GearsField::Bin, &bin.entry) }
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
