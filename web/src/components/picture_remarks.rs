//! What is wrong, assumed or left out on the skeleton or the plan: quiet sentences under it, each selects what it speaks of.

use std::rc::Rc;

use layshaft_editor::Input;
use layshaft_editor::scene::Picture;
use yew::prelude::*;

use crate::hooks::use_bench;

/// Properties of [`PictureRemarks`].
#[derive(Properties, PartialEq)]
pub struct PictureRemarksProps {
    /// The drawing.
    pub picture: Rc<Picture>,
}

/// A row of sentences; nothing where there is nothing to say.
#[component]
pub fn PictureRemarks(props: &PictureRemarksProps) -> Html {
    let bench = use_bench();
    let remarks = &props.picture.remarks;
    if remarks.is_empty() {
        return html! {};
    }
    html! {
        <ul class="remarks" aria-label="About this drawing">
            { for remarks.iter().map(|remark| {
                let class = classes!("remark", remark.is_wrong.then_some("is-wrong"));
                if remark.targets.is_empty() {
                    return html! { <li {class}>{ &remark.text }</li> };
                }
                let select = Input::Select { targets: remark.targets.clone(), add: false, position: None };
                let light = Input::Light(remark.targets.clone());
                let dark = Input::Light(Vec::new());
                html! {
                    <li {class}>
                        <button type="button" class="link-like" onclick={bench.on(select)} onmouseenter={bench.on(light.clone())}
                            onmouseleave={bench.on(dark.clone())} onfocus={bench.on(light)} onblur={bench.on(dark)}>{ &remark.text }</button>
                    </li>
                }
            }) }
        </ul>
    }
}
