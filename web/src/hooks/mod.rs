//! The browser's events as hooks with names, and the way to hand an input to the session.

mod use_bench;
mod use_clipboard;
mod use_effects;
mod use_files;
mod use_glide;
mod use_keys;
mod use_link_in_hash;
mod use_play;
mod use_run;
mod use_shelf;
mod use_size;
mod use_system_theme;
mod use_title;
mod use_tray_drag;
mod use_wheel;

pub use use_bench::{Bench, use_bench};
pub use use_clipboard::use_clipboard;
pub use use_effects::use_effects;
pub use use_files::{open as open_files, use_files};
pub use use_glide::use_glide;
pub use use_keys::{key_press, use_keys};
pub use use_link_in_hash::use_link_in_hash;
pub use use_play::use_play;
pub use use_run::{use_run_clock, use_run_settled, use_run_stillness, use_run_width};
pub use use_shelf::{use_clock, use_shelf};
pub use use_size::use_size;
pub use use_system_theme::use_system_theme;
pub use use_title::use_title;
pub use use_tray_drag::use_tray_drag;
pub use use_wheel::use_wheel;
