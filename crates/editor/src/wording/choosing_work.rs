//! Words about long work that did not come to its end.

/// A fault of the program's own ended it.
#[must_use]
pub const fn work_broke_off() -> &'static str {
    "This could not be computed because of a fault in Layshaft. Your layout is untouched; change something here to try again."
}

/// It was stopped by hand.
#[must_use]
pub const fn work_stopped() -> &'static str {
    "Stopped. What was computed until then is shown; change something to compute again."
}
