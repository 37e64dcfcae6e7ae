//! `cargo xtask shots`: pictures of the page at three sizes, light and dark, to look at.
//!
//! Builds and serves; the pictures are taken by the `shots` program of the tests, which has the browser.

use crate::{Arguments, build, serve, workspace};

/// Builds if asked to, then hands over to the program that takes the pictures.
pub fn shots(arguments: &Arguments) -> anyhow::Result<()> {
    if arguments.build_first {
        build::build(arguments.profile)?;
    }
    let address = serve::in_background()?;
    let mut shots = workspace::cargo(&[
        "run",
        "-q",
        "-p",
        "layshaft-tests",
        "--features",
        "browser",
        "--bin",
        "shots",
    ]);
    shots.args(["--", "--url", &address]).args(&arguments.rest);
    workspace::run(&mut shots)
}
