//! `cargo xtask ci`: the quick gates, without a browser. `cargo xtask test` runs them too and then the browser.
//!
//! Quick stages first. All share one target folder and one profile, so that little compiles twice: the native build
//! of the commands serves the tests, what clippy checks serves the documentation.

use anyhow::ensure;

use crate::layers::Packages;
use crate::stage::{Log, Stage};
use crate::wasm_target::{self, WASM};
use crate::workspace::{cargo, cargo_native, run};
use crate::{build, digest, page, tidy, workspace};

/// What the page's WebAssembly may weigh, bytes, unpacked.
const SIZE_BUDGET: u64 = 4_800_000;

/// The quick gates in their order.
pub const STAGES: [Stage; 9] = [
    ("format", format),
    ("tidy", |_| tidy::tidy()),
    ("clippy", clippy),
    ("clippy-wasm", clippy_wasm),
    ("tests", tests),
    ("doc-tests", doc_tests),
    ("docs", docs),
    ("page", page_in_budget),
    ("digest", digest::same_in_wasm),
];

fn format(_: &mut Log) -> anyhow::Result<()> {
    run(&mut cargo(&["fmt", "--all", "--check"]))
}

/// All that runs natively, tests and benches too, with warnings denied.
fn clippy(_: &mut Log) -> anyhow::Result<()> {
    run(cargo_native("clippy").args(["--all-targets", "--all-features", "--", "-D", "warnings"]))
}

/// All that ends up in the page, as the browser gets it; clocks and threads are refused there.
fn clippy_wasm(_: &mut Log) -> anyhow::Result<()> {
    wasm_target::ensure_installed()?;
    let mut clippy = cargo(&["clippy", "--target", WASM]);
    for package in Packages::read()?.of_ours_below("layshaft-web") {
        clippy.args(["-p", &package]);
    }
    clippy.env(
        "CLIPPY_CONF_DIR",
        workspace::root().join("crates/xtask/wasm-lints"),
    );
    run(clippy.args(["--", "-D", "warnings"]))
}

fn tests(log: &mut Log) -> anyhow::Result<()> {
    log.run_tests(cargo_native("test").args(["--no-fail-fast", "--lib", "--bins", "--tests"]))
}

fn doc_tests(log: &mut Log) -> anyhow::Result<()> {
    log.run_tests(cargo_native("test").args(["--no-fail-fast", "--doc"]))
}

/// The documentation of everything, with warnings (broken links above all) denied.
fn docs(_: &mut Log) -> anyhow::Result<()> {
    run(cargo_native("doc")
        .args(["--no-deps", "--all-features"])
        .env("RUSTDOCFLAGS", "-D warnings"))?;
    let page = [
        "doc",
        "--no-deps",
        "-p",
        "layshaft-web",
        "--target",
        WASM,
        "--document-private-items",
    ];
    run(cargo(&page).env("RUSTDOCFLAGS", "-D warnings"))
}

/// Builds the page as it is published and weighs it.
fn page_in_budget(_: &mut Log) -> anyhow::Result<()> {
    build::build(build::Profile::Web)?;
    let size = page::wasm_size()?;
    ensure!(
        size <= SIZE_BUDGET,
        "the page's WebAssembly weighs {size} bytes, more than its budget of {SIZE_BUDGET}; find out what came in \
         before raising SIZE_BUDGET"
    );
    eprintln!("  WebAssembly: {size} bytes of {SIZE_BUDGET}");
    Ok(())
}
