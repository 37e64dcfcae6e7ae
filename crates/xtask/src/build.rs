//! `cargo xtask build`: from the `layshaft-web` crate and `static/` to `dist/`, ready for any static host.
//!
//! cargo makes the WebAssembly, wasm-bindgen (as a library, so there is no tool to install) makes its JavaScript
//! half, and `page` lays both beside the static files under names that carry a hash of their contents.

use std::path::PathBuf;
use std::time::Instant;

use anyhow::Context;
use wasm_bindgen_cli_support::Bindgen;

use crate::wasm_target::{self, WASM};
use crate::{compress, page, workspace};

/// How much trouble to take over the page.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Profile {
    /// Small and compressed, as it is published.
    Web,
    /// Quick to build, with names and debug checks kept.
    Dev,
}

/// The WebAssembly and the JavaScript that loads it.
pub struct Program {
    /// JavaScript module; refers to the WebAssembly as `layshaft_bg.wasm`.
    pub js: String,
    /// The WebAssembly itself.
    pub wasm: Vec<u8>,
}

/// Builds the page into `dist/` and prints what it weighs.
pub fn build(profile: Profile) -> anyhow::Result<()> {
    let start = Instant::now();
    wasm_target::ensure_installed()?;
    let program = bind(profile)?;
    let files = page::lay_out(&program, profile)?;
    if profile == Profile::Web {
        compress::beside_originals(&files)?;
    }
    page::print_sizes(&files);
    eprintln!("dist/ is ready after {:.1} s", start.elapsed().as_secs_f64());
    Ok(())
}

/// Compiles the page's crate and lets wasm-bindgen write its JavaScript half.
fn bind(profile: Profile) -> anyhow::Result<Program> {
    let wasm = compile(profile)?;
    let out = workspace::target_dir().join("xtask/bindgen");
    if out.exists() {
        std::fs::remove_dir_all(&out)?;
    }
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(wasm)
        .out_name("layshaft")
        .typescript(false)
        .web(true)?;
    bindgen
        .omit_default_module_path(false)
        .remove_producers_section(true);
    if profile == Profile::Dev {
        bindgen.keep_debug(true);
    } else {
        bindgen.remove_name_section(true);
    }
    bindgen
        .generate(&out)
        .context("wasm-bindgen cannot read what the compiler made")?;
    Ok(Program {
        js: std::fs::read_to_string(out.join("layshaft.js"))?,
        wasm: std::fs::read(out.join("layshaft_bg.wasm"))?,
    })
}

/// Runs cargo for the page's crate and gives the path of the WebAssembly.
fn compile(profile: Profile) -> anyhow::Result<PathBuf> {
    let (name, folder) = match profile {
        Profile::Web => ("web", "web"),
        Profile::Dev => ("dev", "debug"),
    };
    workspace::run(&mut workspace::cargo(&[
        "build",
        "-p",
        "layshaft-web",
        "--target",
        WASM,
        "--profile",
        name,
    ]))?;
    Ok(workspace::target_dir()
        .join(WASM)
        .join(folder)
        .join("layshaft-web.wasm"))
}
