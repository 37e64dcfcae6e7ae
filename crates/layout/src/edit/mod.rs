//! Looking things up in a layout and changing it: commands, their inverses, undo, editing by path.

mod apply;
mod command;
mod elements;
mod field;
mod groups;
mod history;
mod ids;
mod lookup;
mod plan;
mod positions;
mod refusal;
mod shafts;
mod sound;
mod view;

pub use command::{Command, Owner};
pub use field::{set_path, takes_whole_numbers, value_at};
pub use history::History;
pub use ids::IdMaker;
pub use refusal::{Refusal, Unknown};
