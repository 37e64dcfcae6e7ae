//! The proof of the engine: samples, published cases, properties, and a second road to speeds and power flow.

mod any_layout;
mod any_plan;
mod any_skeleton;
mod cases;
mod laws;
mod long_chains;
mod properties;
mod random;
mod runs;
mod samples;
mod second_road;
