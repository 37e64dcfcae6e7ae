//! What the tests of the whole share. Tests of one crate live in that crate; here are those that need several, and
//! the harness that drives a real browser.

#[cfg(feature = "browser")]
pub mod browser;
pub mod compact;
pub mod digest;
pub mod large;
pub mod plain;
