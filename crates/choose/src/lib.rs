//! Which ratio, which arrangement, from which gears: many layouts computed to choose one.
//!
//! [`sweep`] varies one input, [`map`] two; [`gears`] finds trains of gears for a ratio; [`alternatives`] sizes the
//! standard two-speed arrangements; [`sensitivity`] and [`uncertainty`] say which inputs move a result and how far.
//! What is varied is an [`Input`], what is looked at an [`Output`].
//!
//! Nothing here knows a screen, a clock or a thread. Long work is a [`task::Task`] that goes on portion by portion, so that
//! a page can show its progress and stop it; where there are threads, the portions can be had by themselves.

pub mod alternatives;
mod branch;
pub mod gears;
mod input;
pub mod map;
mod materials;
mod output;
pub mod sensitivity;
mod study;
pub mod sweep;
pub mod task;
pub mod uncertainty;

pub use input::{Input, InputProblem, Varied, has_ratio};
pub use materials::pairs_in_use;
pub use output::{ElementPart, Output, OutputProblem, PullPart, ShaftPart, VehiclePart};
pub use study::{Sample, Study};
