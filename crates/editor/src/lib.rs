//! Everything the page shows and does, as plain data and state machines; no browser, no clock.
//!
//! A page holds one [`Session`], hands it every gesture, key and field as an [`Input`] and carries out the
//! [`Effect`]s that come back. What is to be seen is read from the session: [`Session::scene`] for the drawing,
//! [`Session::headline`] and [`Session::findings`] for the words over it, [`Session::title_block`],
//! [`Session::ledger`], [`Session::comparison`], [`Session::details`] and [`Session::working`] for the sheets beside
//! it. All of it arrives formatted: whoever draws it does no arithmetic.
//!
//! Coordinates: the *bench* is the layout's own plane (x right, y down, one unit is one CSS pixel at zoom 1); the
//! *screen* is in CSS pixels from the top left corner of the drawing. [`View`] maps one to the other.

pub mod actions;
pub mod aligning;
pub mod arranging;
pub mod build_sheet;
pub mod catalogue;
pub mod chart;
pub mod choosing;
pub mod clipboard;
pub mod comparison;
pub mod demos;
pub mod drawings;
pub mod embed;
pub mod engagement;
pub mod explaining;
pub mod export;
pub mod fields;
pub mod geometry;
pub mod groups;
pub mod hit;
pub mod inserting;
pub mod keys;
pub mod ledger;
pub mod legend;
pub mod menu;
pub mod merging;
pub mod motor_map;
pub mod numbers;
pub mod opening;
pub mod parts;
pub mod placement;
pub mod placing;
pub mod plan;
pub mod qr;
pub mod runs;
pub mod scene;
pub mod search;
pub mod session;
pub mod shelf;
pub mod summary;
pub mod swapping;
pub mod table;
pub mod target;
pub mod title_block;
pub mod tools;
pub mod units;
pub mod wheel;
pub mod wording;
pub mod working;

pub use actions::{Action, ActionInfo, Direction, Panel};
pub use catalogue::{Entry, Group, Kind};
pub use drawings::Drawing;
pub use fields::{Details, Field, FieldKind};
pub use geometry::{Point, Rect, Size};
pub use keys::{Key, KeyPress};
pub use numbers::{Measure, RatioText};
pub use runs::{RunInput, RunSheet};
pub use scene::Scene;
pub use session::{Editing, Effect, Input, Selection, Session, Theme, View};
pub use shelf::{ShelfEffect, ShelfInput};
pub use table::{Cell, Table};
pub use target::{FieldRef, Target};
pub use tools::{Button, Modifiers, Phase, Pointer, PointerKind, Tool};
pub use units::Units;
pub use wheel::Wheel;
pub use wording::{Repair, Severity, Words};
pub use working::{Line, Piece, WorkingSheet};
