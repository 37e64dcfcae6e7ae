//! The one thing a plain Rust installation lacks: the standard library for WebAssembly.
//!
//! Looked for in the compiler's own folder, so that a Rust not managed by rustup works too.

use std::path::Path;
use std::process::Command;

use anyhow::{Context, bail};

use crate::workspace;

/// The target triple of the page.
pub const WASM: &str = "wasm32-unknown-unknown";

/// Makes sure that the compiler can build for WebAssembly, adding what is missing when rustup is there.
pub fn ensure_installed() -> anyhow::Result<()> {
    if is_installed()? {
        return Ok(());
    }
    eprintln!("Adding what Rust needs for WebAssembly: rustup target add {WASM}");
    let added = Command::new("rustup")
        .current_dir(workspace::root())
        .args(["target", "add", WASM])
        .status();
    match added {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => {
            bail!("Rust cannot build for WebAssembly yet; once you are online run `rustup target add {WASM}`")
        }
        Err(_) => bail!(
            "Rust cannot build for WebAssembly yet and rustup is not there to add it; install the Rust standard \
             library for {WASM} (with rustup: `rustup target add {WASM}`)"
        ),
    }
}

fn is_installed() -> anyhow::Result<bool> {
    let mut ask = Command::new("rustc");
    let sysroot = workspace::output_of(ask.current_dir(workspace::root()).args(["--print", "sysroot"]))
        .context("is Rust installed and on the PATH?")?;
    Ok(Path::new(sysroot.trim())
        .join("lib/rustlib")
        .join(WASM)
        .join("lib")
        .is_dir())
}
