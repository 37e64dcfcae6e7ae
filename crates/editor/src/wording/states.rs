//! Words for states and limits.

use layshaft_quantity::Time;
use layshaft_report::{Limit, Mode, State};

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

/// How an element stands.
#[must_use]
pub const fn mode_words(mode: Mode) -> &'static str {
    match mode {
        Mode::Engaged => "on",
        Mode::Disengaged => "off",
        Mode::Held => "holds by its friction",
        Mode::Slipping => "slips at its limit",
        Mode::Overrunning => "overruns",
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

/// A stretch of time as people say it: `3 h 40 min`, `12 min`, `40 s`.
#[must_use]
pub fn duration(time: Time) -> String {
    let seconds = time.to_seconds();
    let minutes = libm::round(seconds / 60.0);
    if seconds < 100.0 {
        format!("{seconds:.0} s")
    } else if minutes < 120.0 {
        format!("{minutes:.0} min")
    } else if minutes < 6000.0 {
        let hours = libm::floor(minutes / 60.0);
        format!("{hours:.0} h {:.0} min", minutes - 60.0 * hours)
    } else {
        format!("{:.0} h", minutes / 60.0)
    }
}
