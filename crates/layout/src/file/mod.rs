//! The layout file: text to document and back.
//!
//! Reading goes text → JSON value ([`json`]) → newest version ([`migrate`]) → checked against the field table
//! ([`check`], [`relations`]) → document ([`read`]). Writing goes the other way ([`write`], [`text`]).

pub(crate) mod check;
mod decode;
pub(crate) mod fields;
mod groups;
mod json;
pub(crate) mod kinds;
mod migrate;
pub(crate) mod nearest;
pub(crate) mod place;
pub(crate) mod plan;
pub(crate) mod read;
mod relations;
mod schema;
#[cfg(test)]
mod schema_tests;
pub(crate) mod tables;
mod text;
pub(crate) mod write;

pub use decode::{decode, decode_bytes};
pub use fields::{Either, Field, Kind, Need, Rule, Table};
pub use kinds::{KINDS, kind_named};
pub use nearest::nearest_name;
pub use schema::schema;
pub use tables::{
    GROUP, MOST_BYTES, MOST_DIGITS, MOST_ERRORS, MOST_LEVELS, MOST_STRETCHES, MOST_THINGS, MOST_VALUES,
    POSITION, SHAFT, STRETCH, TOP, VERSION,
};
pub use text::{encode, encode_compact};
