//! Journeys of a visitor through the page in a real browser, one file per kind of journey.
//!
//! `cargo xtask test` builds and serves the page, then runs these; they take no part in the quick gates.

mod first_visit;
