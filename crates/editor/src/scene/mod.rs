//! A drawing as data: every shape with its path, every label with its place and its words, nothing left to compute.
//!
//! Items compare by value and sit in `Rc`, so that a page redraws only what changed. Path data is SVG's, in bench
//! coordinates unless it says otherwise. [`flow`] builds the flow drawing, [`skeleton`] and [`plan`] the two others, which are
//! [`picture`]s of plain strokes.

mod afloat;
mod crowd;
mod describe;
pub mod flow;
mod grouped;
mod items;
mod pace;
pub mod picture;
mod place;
pub mod plan;
mod ribbon;
pub mod skeleton;
mod spread;
mod text;
mod turning;

pub use afloat::Afloat;
pub use describe::{Shown, shortest, step_ratio};
pub use items::Standing;
pub use items::*;
pub use pace::Pace;
pub use picture::{Backdrop, LineType, Orbit, Picture, PictureItem, Reach, Remark, Stroke, Turn};
pub use place::{ONE_PORT_REACH, SHAFT_RADIUS, SYMBOL, element_places};
pub use plan::Look as PlanLook;
pub(crate) use ribbon::round_up;
pub use text::{FONT_SIZE, LINE_HEIGHT, Letters, text_width};
pub use turning::Turning;

#[cfg(test)]
mod tests;
