//! The symbol of a kind, in its box of 48 × 32, with the line types of the sheet.

use layshaft_editor::scene::Symbol;
use yew::prelude::*;

/// Properties of [`SymbolView`].
#[derive(Properties, PartialEq)]
pub struct SymbolViewProps {
    /// The lines.
    pub symbol: Symbol,
}

/// Thick outlines, thin lines, chain lines and the frame's hatching; only what there is.
#[component]
pub fn SymbolView(props: &SymbolViewProps) -> Html {
    let Symbol {
        thick,
        thin,
        chain,
        hatching,
        ..
    } = props.symbol;
    let lines = [
        ("chain", chain),
        ("hatching", hatching),
        ("thin", thin),
        ("thick", thick),
    ];
    html! {
        <g class="symbol">
            { for lines.into_iter().filter(|(_, path)| !path.is_empty()).map(|(class, path)| html! {
                <path {class} d={path} />
            }) }
        </g>
    }
}
