//! Turning parts in step with one another.

use js_sys::{Array, Function, Reflect};
use wasm_bindgen::{JsCast, JsValue};

/// The animation of the style sheet that turns parts.
const TURN: &str = "turn";

/// Has all turning parts turn as if they had begun at the same moment, the page's beginning. A browser that does not tell
/// of its animations leaves each with its own beginning.
pub fn turn_in_step() {
    for animation in animations().into_iter().flatten() {
        let name = Reflect::get(&animation, &"animationName".into()).ok();
        if name.and_then(|name| name.as_string()).as_deref() == Some(TURN) {
            // Refused only where the animation has gone by now, and then nothing turns out of step.
            let _ = Reflect::set(&animation, &"startTime".into(), &JsValue::from_f64(0.0));
        }
    }
}

fn animations() -> Option<Array> {
    let document = super::document();
    let tell = Reflect::get(&document, &"getAnimations".into()).ok()?;
    let tell: Function = tell.dyn_into().ok()?;
    tell.call0(&document).ok()?.dyn_into().ok()
}
