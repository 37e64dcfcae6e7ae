//! An exact ratio set as a fraction.

use layshaft_editor::RatioText;
use layshaft_editor::numbers::MINUS;
use yew::prelude::*;

/// Properties of [`RatioView`].
#[derive(Properties, PartialEq)]
pub struct RatioViewProps {
    /// The ratio.
    pub ratio: RatioText,
}

/// The fraction, or its decimal where the fraction is too long to be read.
#[component]
pub fn RatioView(props: &RatioViewProps) -> Html {
    let ratio = &props.ratio;
    let spoken = html! { <span class="out-of-sight">{ ratio.spoken() }</span> };
    let shown = match &ratio.denominator {
        Some(denominator) if !ratio.is_long() => html! {
            <>
                { ratio.minus.then_some(MINUS) }
                <span class="fraction"><span>{ &ratio.numerator }</span><span>{ denominator }</span></span>
            </>
        },
        _ => html! { ratio.text() },
    };
    html! {
        <span class="ratio" title={ratio.exact()}><span aria-hidden="true">{ shown }</span>{ spoken }</span>
    }
}
