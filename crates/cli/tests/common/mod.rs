//! Starting the command as a person would, from the project's folder.

use std::path::Path;
use std::process::{Command, Output};

/// What comes of these words.
pub fn layshaft(words: &[&str]) -> Output {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    Command::new(env!("CARGO_BIN_EXE_layshaft"))
        .current_dir(root)
        .args(words)
        .output()
        .expect("it starts")
}
