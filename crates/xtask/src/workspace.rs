//! Where things are, and how cargo is called: always from the top of the workspace, always the cargo that runs us.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::LazyLock;

use anyhow::{Context, ensure};

/// The folder that holds the workspace's `Cargo.toml`.
pub fn root() -> &'static Path {
    static ROOT: LazyLock<PathBuf> = LazyLock::new(|| {
        // cargo says where this crate is now; where it was compiled serves for a program started by hand.
        let here =
            std::env::var_os("CARGO_MANIFEST_DIR").unwrap_or_else(|| env!("CARGO_MANIFEST_DIR").into());
        Path::new(&here)
            .ancestors()
            .nth(2)
            .expect("this crate lives two folders below the top")
            .to_owned()
    });
    &ROOT
}

/// The folder that the static files of the page are written to.
pub fn dist() -> PathBuf {
    root().join("dist")
}

/// The folder cargo builds into: `CARGO_TARGET_DIR`, or `target` at the top.
pub fn target_dir() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), |dir| root().join(dir))
}

/// A call of cargo at the top of the workspace.
pub fn cargo(arguments: &[&str]) -> Command {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command.current_dir(root()).args(arguments);
    command
}

/// A call of cargo for all that is checked natively: not the page, which is checked for wasm, and not the benches, whose
/// yardsticks take longer to compile than everything else.
pub fn cargo_native(command: &str) -> Command {
    cargo(&[
        command,
        "--workspace",
        "--exclude",
        "layshaft-web",
        "--exclude",
        "layshaft-bench",
    ])
}

/// Runs to the end and asks for success.
pub fn run(command: &mut Command) -> anyhow::Result<()> {
    let status = command
        .status()
        .with_context(|| format!("cannot start {}", shown(command)))?;
    ensure!(status.success(), "{} failed ({status})", shown(command));
    Ok(())
}

/// Runs to the end, asks for success and gives what was printed on standard output.
pub fn output_of(command: &mut Command) -> anyhow::Result<String> {
    let output = command
        .stderr(Stdio::inherit())
        .output()
        .with_context(|| format!("cannot start {}", shown(command)))?;
    ensure!(
        output.status.success(),
        "{} failed ({})",
        shown(command),
        output.status
    );
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}

/// The command as one would type it.
fn shown(command: &Command) -> String {
    let program = Path::new(command.get_program())
        .file_name()
        .unwrap_or(command.get_program());
    let words = std::iter::once(program).chain(command.get_args());
    let line = words
        .map(|word| word.to_string_lossy())
        .collect::<Vec<_>>()
        .join(" ");
    format!("`{line}`")
}
