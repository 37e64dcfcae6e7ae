//! Words for states and limits.

use layshaft_report::{Limit, State};

/// A state in one or two words.
#[must_use]
pub const fn state_words(state: State) -> &'static str {
    match state {
        State::Jammed => "jammed",
        State::Undetermined => "undetermined",
        State::Ambiguous => "ambiguous",
        State::SelfLocking => "self-locking",
        State::Stalled => "stalled",
        State::Held => "at rest",
        State::Runs => "runs",
    }
}

/// What ends the pull, to follow "before": `the motor stalls`.
#[must_use]
pub const fn limit_words(limit: Limit) -> &'static str {
    match limit {
        Limit::Motor => "the motor stalls",
        Limit::Crank => "the crank's limit is reached",
        Limit::Traction => "the wheels slip",
        Limit::Tipping => "it tips over",
        Limit::SelfLocking => "it locks itself",
        Limit::Slip => "something slips",
        Limit::Tooth => "teeth give way",
    }
}
