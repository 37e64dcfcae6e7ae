//! Journeys of a visitor through the page in a real browser, one file per kind of journey.
//!
//! `cargo xtask test` builds and serves the page, then runs these; they take no part in the quick gates. What the
//! editor does by itself is tested in its own crate by scripted sessions; here it is the browser that is in doubt:
//! focus, pointers, keys, addresses, storage, and whether a screen reader is told.

mod access;
mod colours;
mod compare;
mod demos;
mod edit;
mod fast;
mod first_visit;
mod gears;
mod groups;
mod handing_on;
mod hands;
mod influence;
mod kinds;
mod large;
mod long_work;
mod offline;
mod plan;
mod runs;
mod share;
mod sheets;
mod shelf;
mod skeleton;
mod sketch;
mod steps;
mod two_speeds;
mod units;
mod vary;
