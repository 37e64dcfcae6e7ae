//! What is said under the skeleton and the plan.

use layshaft_layout::Id;

/// A shaft had to be drawn in two places.
#[must_use]
pub fn drawn_twice(shaft: &Id, element: &Id) -> String {
    format!("{shaft} is drawn twice, joined by a chain line: {element} joins two shafts of one axis")
}

/// Two shafts cross though nothing of the kind happens in the train.
#[must_use]
pub fn runs_through(one: &Id, other: &Id) -> String {
    format!("{one} and what sits on {other} cross on the drawing only; drag one of them to part them")
}
