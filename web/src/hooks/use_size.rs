//! Tells the session how large a part of the page is on the screen.

use std::cell::RefCell;

use gloo::render::{AnimationFrame, request_animation_frame};
use js_sys::Array;
use layshaft_editor::{Input, Size};
use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, ResizeObserver, ResizeObserverEntry};
use yew::prelude::*;

use super::Bench;

/// Watches the size of an element without padding; `told` makes of it what the session is told. The first size is told at
/// once, or the drawing would be seen in another place first. Others are told with the next frame: what the session
/// answers may change sizes again, which browsers complain of while they are still telling them.
#[hook]
pub fn use_size(node: &NodeRef, bench: &Bench, told: fn(Size) -> Input) {
    let bench = bench.clone();
    use_effect_with(node.clone(), move |node| {
        let watched = node.cast::<Element>();
        if let Some(box_of) = watched.as_ref().map(Element::get_bounding_client_rect)
            && box_of.width() > 0.0
        {
            bench.send(told(Size {
                width: box_of.width(),
                height: box_of.height(),
            }));
        }
        let waiting = RefCell::new(None::<AnimationFrame>);
        let on_change = Closure::<dyn Fn(Array)>::new(move |entries: Array| {
            let last: ResizeObserverEntry = entries.get(entries.length() - 1).unchecked_into();
            let content = last.content_rect();
            let input = told(Size {
                width: content.width(),
                height: content.height(),
            });
            let bench = bench.clone();
            // A frame that is still waited for is given up by being dropped.
            waiting.replace(Some(request_animation_frame(move |_| bench.send(input))));
        });
        let observer = ResizeObserver::new(on_change.as_ref().unchecked_ref()).ok();
        if let (Some(observer), Some(watched)) = (&observer, &watched) {
            observer.observe(watched);
        }
        move || {
            if let Some(observer) = observer {
                observer.disconnect();
            }
            drop(on_change);
        }
    });
}
