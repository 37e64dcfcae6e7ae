//! Words of the run sheet: what a run does as things stand, and what to do first.

use layshaft_layout::{Id, Layout};
use layshaft_report::RunEnd;

use crate::fields::sentence_case;
use crate::runs::{Subject, subject_name};

/// What a run does as things stand.
#[must_use]
pub fn run_intent(subject: &Subject, of: Option<&Id>, layout: &Layout, lift: Option<f64>) -> String {
    let name = sentence_case(&subject_name(of, layout));
    match subject {
        Subject::Vehicle if layout.course.is_empty() => format!(
            "{name} has no course yet: it drives up its own slope until the time is up. Add a stretch to lay one out."
        ),
        Subject::Vehicle => format!("{name} drives this course once, from left to right."),
        Subject::Winch if lift.is_none() => {
            format!("{name} winds until the time is up. Say how high it lifts to see how long that takes.")
        }
        Subject::Winch => format!("{name} lifts this high and stops."),
        Subject::Shafts if layout.elements.is_empty() => {
            "There is nothing to run yet. Place a motor and a vehicle or a winch on the bench; a course or a lift is asked for here."
                .to_owned()
        }
        Subject::Shafts => {
            "Shafts run up until the time is up. Put a vehicle on the bench to drive a course, or a winch to lift."
                .to_owned()
        }
    }
}

/// What the drawing shows at a moment of a run.
#[must_use]
pub fn run_hint(time: f64) -> String {
    format!("The run after {time:.2}\u{202F}s: speeds of this moment, without power.")
}

/// What is announced once a run has come back.
#[must_use]
pub fn run_announcement(headline: &str, events: usize, end: &RunEnd) -> String {
    match (end, events) {
        (RunEnd::Failed(_), _) | (_, 0 | 1) => headline.to_owned(),
        (_, events) => format!("{headline} {events} events are listed."),
    }
}
