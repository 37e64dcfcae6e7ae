//! Which journeys were driven in which engine, one line each, for whoever started the tests to count.

use std::fs::OpenOptions;
use std::io::Write;

use super::engine::Engine;

/// Names the variable that holds the file; without it nothing is kept.
const FILE: &str = "LAYSHAFT_JOURNEYS";

/// A journey came to its end.
pub fn driven(name: &str, engine: Engine) {
    line(&format!("{}\tdriven\t{name}\n", engine.name()));
}

/// A journey that this engine's driver can't make.
pub fn left_out(name: &str, engine: Engine, reason: &str) {
    eprintln!("{name} is not driven in {}: {reason}", engine.name());
    line(&format!("{}\tleft out\t{name}: {reason}\n", engine.name()));
}

fn line(text: &str) {
    let Some(file) = std::env::var_os(FILE) else {
        return;
    };
    // One write to a file open for appending is not torn by that of another thread.
    let written = OpenOptions::new()
        .create(true)
        .append(true)
        .open(file)
        .and_then(|mut file| file.write_all(text.as_bytes()));
    written.expect("the file of journeys can be written");
}
