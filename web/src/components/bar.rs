//! Buttons that open the further sheets: in the strip on wide screens, along the lower edge on a phone.

use layshaft_editor::{Action, Panel};
use yew::prelude::*;

use crate::hooks::use_bench;

/// The further sheets that have a button of their own.
const SHEETS: [(Panel, &str); 6] = [
    (Panel::Details, "Details"),
    (Panel::Positions, "Positions"),
    (Panel::Ledger, "Ledger"),
    (Panel::Working, "Working"),
    (Panel::Run, "Run"),
    (Panel::Choose, "Choose"),
];

/// Properties of [`SheetButtons`].
#[derive(Properties, PartialEq)]
pub struct SheetButtonsProps {
    /// The sheet that is open.
    pub panel: Option<Panel>,
}

/// A button for each further sheet.
#[component]
pub fn SheetButtons(props: &SheetButtonsProps) -> Html {
    let bench = use_bench();
    html! {
        <>
            { for SHEETS.into_iter().map(|(panel, name)| html! {
                <button type="button" class="button plain" key={name} aria-expanded={(props.panel == Some(panel)).to_string()}
                    onclick={bench.act(Action::Toggle(panel))}>{ name }</button>
            }) }
        </>
    }
}

/// Properties of [`Bar`].
#[derive(Properties, PartialEq)]
pub struct BarProps {
    /// The sheet that is open.
    pub panel: Option<Panel>,
    /// Whether the parts tray is pulled up.
    pub tray_open: bool,
    /// Pulls the tray up or pushes it back.
    pub on_tray: Callback<MouseEvent>,
}

/// The bar along the lower edge of a phone.
#[component]
pub fn Bar(props: &BarProps) -> Html {
    html! {
        <nav class="bar" aria-label="Parts and sheets">
            <button type="button" class="button plain" aria-expanded={props.tray_open.to_string()} aria-controls="tray" onclick={props.on_tray.clone()}>{ "Parts" }</button>
            <SheetButtons panel={props.panel} />
        </nav>
    }
}
