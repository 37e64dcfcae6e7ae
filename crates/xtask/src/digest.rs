//! Native and wasm must give the same bits: one fixed scene, solved natively by an ordinary test and in wasm here,
//! both compared with the digest that is committed.
//!
//! The wasm is the program `digest` of the tests, which imports nothing from a browser; a test runs it in an
//! interpreter.

use crate::stage::Log;
use crate::wasm_target::{self, WASM};
use crate::workspace::{self, cargo, cargo_native, run};

/// Builds the scene for wasm as the page is built, and has the test run it.
pub fn same_in_wasm(log: &mut Log) -> anyhow::Result<()> {
    wasm_target::ensure_installed()?;
    run(&mut cargo(&[
        "build",
        "-p",
        "layshaft-tests",
        "--bin",
        "digest",
        "--target",
        WASM,
        "--profile",
        "web",
    ]))?;
    let program = workspace::target_dir().join(WASM).join("web/digest.wasm");
    let mut test = cargo_native("test");
    test.args(["--features", "layshaft-tests/wasm", "--test", "wasm"]);
    log.run_tests(test.env("LAYSHAFT_DIGEST_WASM", program))
}
