//! Lets a large drawing glide while its view is moved: the browser moves the picture that it has instead of laying all of
//! it out anew, and makes the picture of the new place when the view has come to rest.

use gloo::timers::callback::Timeout;
use layshaft_editor::View;
use yew::prelude::*;

/// How long the view must rest before the picture is made for its new place.
const REST_MS: u32 = 180;

/// The view that the picture is to be made for, and how it is to be moved from there. A drawing that is not `large` never
/// glides: it is laid out at once, and sharp at every moment.
#[hook]
pub fn use_glide(view: View, large: bool) -> (View, Option<AttrValue>) {
    let made_for = use_mut_ref(|| view);
    let again = use_force_update();
    let way = view.way_from(&made_for.borrow()).filter(|_| large);
    if way.is_none() {
        made_for.replace(view);
    }
    use_effect_with(view, {
        let made_for = made_for.clone();
        move |view| {
            let view = *view;
            let is_moved = *made_for.borrow() != view;
            let rests = is_moved.then(|| {
                Timeout::new(REST_MS, move || {
                    made_for.replace(view);
                    again.force_update();
                })
            });
            move || drop(rests)
        }
    });
    let made_for = *made_for.borrow();
    let moved = way.filter(|_| made_for != view);
    let style = moved.map(|way| AttrValue::from(format!("transform:translate({}px,{}px)", way.x, way.y)));
    (made_for, style)
}
