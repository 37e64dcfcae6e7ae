//! Runs in time: how a train starts, drives along a course or lifts a weight, shifts, slips and comes to rest.
//!
//! [`run`] integrates the independent speeds of a [`layshaft_powerflow::Model`]; what each moment's accelerations are is
//! `powerflow::dynamics`'s. Instants at which something begins to slip, sticks, shifts or ends are found in time and
//! named as typed [`Event`]s; their words are elsewhere. Nothing here knows of files or screens.

mod drive;
mod guards;
mod linear;
mod machine;
mod options;
mod record;
mod result;
mod rosenbrock;
mod run;
mod scales;
mod settle;
mod track;

pub use options::{Course, Ground, RunOptions, Stretch, Switch, Task};
pub use result::{End, Energy, Event, EventKind, Failure, Run, Sample, SourceSample};
pub use run::run;
