//! Looking things up in a layout and changing it: commands, their inverses, undo, editing by path.

mod ids;
mod lookup;

pub use ids::IdMaker;
