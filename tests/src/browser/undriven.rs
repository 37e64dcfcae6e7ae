//! Journeys that an engine can't be driven through because of its driver, each with the reason. They are counted and
//! printed at the end of the tests; what fails because of the page does not belong here.

use super::engine::Engine;

/// A journey's name, the engine, and what its driver lacks.
const UNDRIVEN: &[(&str, Engine, &str)] = &[
    ("forced colours", Engine::WebKit, "its driver forces no colours"),
    ("forced colours", Engine::Firefox, "its driver forces no colours"),
];

/// Why this journey can't be driven in this engine, if so.
pub fn reason(journey: &str, engine: Engine) -> Option<&'static str> {
    UNDRIVEN
        .iter()
        .find(|(name, within, _)| *name == journey && *within == engine)
        .map(|(_, _, reason)| *reason)
}
