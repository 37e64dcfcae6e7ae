//! Journeys that an engine can't be driven through because of its driver, or that measure what is the same in every engine,
//! each with the reason. They are counted and printed at the end of the tests; what fails because of the page does not
//! belong here.

use super::engine::Engine;

/// A journey's name, the engine, and what its driver lacks.
const UNDRIVEN: &[(&str, Engine, &str)] = &[
    ("forced colours", Engine::WebKit, "its driver forces no colours"),
    ("forced colours", Engine::Firefox, "its driver forces no colours"),
    ("rest a finger", Engine::WebKit, "its driver has no fingers"),
    ("rest a finger", Engine::Firefox, "its driver has no fingers"),
    (
        "shelf on a phone",
        Engine::WebKit,
        "its driver has no touch screen",
    ),
    ("build sheet", Engine::WebKit, "its driver prints nothing"),
    (
        "build sheet",
        Engine::Firefox,
        "the size of its pages is packed away in what it prints",
    ),
];

/// Journeys that go through every state of the page by the rules of axe-core and by measuring. Document, names and style
/// sheets are the same in every engine, and the tour takes minutes.
const MEASURED: &[&str] = &[
    "every sheet on paper",
    "every sheet on slate",
    "every sheet on a phone",
    "every sheet at 200 %",
    "every sheet on 320 pixels",
    "other states",
    "drawings on paper",
    "drawings on slate",
    "drawings on 320 pixels",
    "menus and sheets by key",
    "finished run",
    "embedded for everyone",
    "recovery page",
    "recovery page on 320 pixels",
    "unique names",
    "result is said",
    "found both ways",
];

/// Why this journey can't be driven in this engine, if so.
pub fn reason(journey: &str, engine: Engine) -> Option<&'static str> {
    if engine != Engine::Chromium && MEASURED.contains(&journey) {
        return Some("measured in Chromium, by rules that look at the document");
    }
    UNDRIVEN
        .iter()
        .find(|(name, within, _)| *name == journey && *within == engine)
        .map(|(_, _, reason)| *reason)
}
