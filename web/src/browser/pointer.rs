//! Events of pointers as the editor understands them.

use layshaft_editor::{Button, Input, Modifiers, Phase, Point, Pointer, PointerKind};
use wasm_bindgen::JsCast as _;
use web_sys::{Element, MouseEvent, PointerEvent};

use super::document;
use crate::components::drawing::DRAWING;

/// An input for a part of a gesture on the drawing.
pub fn input(phase: Phase, event: &PointerEvent) -> Input {
    Input::Pointer(Pointer {
        phase,
        id: event.pointer_id(),
        at: place_on_drawing(event),
        button: button(event),
        kind: kind(event),
        modifiers: modifiers(event),
    })
}

/// An input that asks for the menu where an event happened.
pub fn menu_input(event: &MouseEvent) -> Input {
    let kind = event.dyn_ref::<PointerEvent>().map_or(PointerKind::Mouse, kind);
    Input::OpenMenu(place_on_drawing(event), kind)
}

/// Where an event happened, from the top left corner of the drawing.
pub fn place_on_drawing(event: &MouseEvent) -> Point {
    Point::new(f64::from(event.client_x()), f64::from(event.client_y())) - corner_of_drawing()
}

/// Where the drawing's top left corner is in the window.
pub fn corner_of_drawing() -> Point {
    let drawing = document().get_element_by_id(DRAWING);
    drawing.map_or(Point::default(), |drawing| {
        let bounds = drawing.get_bounding_client_rect();
        Point::new(bounds.left(), bounds.top())
    })
}

/// How far from the left edge of the plot that it happened on an event happened, in pixels.
pub fn from_left(event: &MouseEvent) -> f64 {
    from_corner(event).x
}

/// How far from the top left corner of the plot that it happened on an event happened, in pixels.
pub fn from_corner(event: &MouseEvent) -> Point {
    let corner = plot_of(event).map_or(Point::default(), |plot| {
        let bounds = plot.get_bounding_client_rect();
        Point::new(bounds.left(), bounds.top())
    });
    Point::new(f64::from(event.client_x()), f64::from(event.client_y())) - corner
}

/// The plot that an event happened on. What hears an event is no help: the framework listens at the page's root.
pub fn plot_of(event: &MouseEvent) -> Option<Element> {
    let target: Element = event.target()?.dyn_into().ok()?;
    target.closest(".chart-frame, svg.plot").ok()?
}

/// Whether an event happened over the drawing.
pub fn is_over_drawing(event: &MouseEvent) -> bool {
    let (x, y) = (event.client_x() as f32, event.client_y() as f32);
    let found = document().element_from_point(x, y);
    found.is_some_and(|element| {
        element
            .closest(&format!("#{DRAWING}"))
            .is_ok_and(|drawing| drawing.is_some())
    })
}

fn button(event: &PointerEvent) -> Button {
    match event.button() {
        1 => Button::Middle,
        2 => Button::Secondary,
        _ => Button::Primary,
    }
}

fn kind(event: &PointerEvent) -> PointerKind {
    match event.pointer_type().as_str() {
        "touch" => PointerKind::Touch,
        "pen" => PointerKind::Pen,
        _ => PointerKind::Mouse,
    }
}

fn modifiers(event: &MouseEvent) -> Modifiers {
    Modifiers {
        shift: event.shift_key(),
        command: event.ctrl_key() || event.meta_key(),
        alt: event.alt_key(),
        space: false,
    }
}
