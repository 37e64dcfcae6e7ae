//! The code that a phone reads: black on white in every theme, as large as wanted.

use layshaft_editor::qr::code;
use yew::prelude::*;

/// Room for it on the sheet, in pixels.
const ROOM: usize = 336;

/// Properties of [`QrView`].
#[derive(Properties, PartialEq)]
pub struct QrViewProps {
    /// What it says.
    pub link: AttrValue,
}

/// The code with a button that fills the screen with it, for a phone across the room; or why there is none.
#[component]
pub fn QrView(props: &QrViewProps) -> Html {
    let large = use_state_eq(|| false);
    let code = use_memo(props.link.clone(), |link| code(link));
    let toggle = {
        let large = large.clone();
        Callback::from(move |_: MouseEvent| large.set(!*large))
    };
    let onkeydown = {
        let large = large.clone();
        Callback::from(move |event: KeyboardEvent| {
            if *large && event.key() == "Escape" {
                event.stop_propagation();
                event.prevent_default();
                large.set(false);
            }
        })
    };
    match &*code {
        Ok(code) => html! {
            <button type="button" class={classes!("qr", large.then_some("is-large"))} aria-label={if *large { "Code of this link: make it small" } else { "Code of this link for a phone: make it fill the screen" }}
                aria-pressed={large.to_string()} onclick={toggle} {onkeydown}>
                <svg style={format!("width:{}px", code.pixels(ROOM))} viewBox={format!("0 0 {0} {0}", code.side)} shape-rendering="crispEdges" aria-hidden="true">
                    <rect width="100%" height="100%" fill="#fff" /><path fill="#000" d={code.path.clone()} />
                </svg>
            </button>
        },
        Err(_) => html! { <p class="quiet">{ layshaft_editor::wording::code_too_long() }</p> },
    }
}
