//! Finds Chromium and its driver, or installs them where that is allowed: on Debian, as root or with sudo that asks
//! for no password. Elsewhere it says what to install.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, bail};

use crate::workspace;

/// The two programs a journey needs.
pub struct Programs {
    /// The browser.
    pub browser: PathBuf,
    /// What drives it, of the same version.
    pub driver: PathBuf,
}

/// Names of the browser, whose variable is `CHROMIUM`.
const BROWSERS: [&str; 4] = [
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
];

/// Names of the driver, whose variable is `CHROMEDRIVER`.
const DRIVERS: [&str; 1] = ["chromedriver"];

/// Debian's packages of both.
const PACKAGES: [&str; 2] = ["chromium", "chromium-driver"];

/// Finds both programs; failing that, installs them if it may.
pub fn find_or_install() -> anyhow::Result<Programs> {
    if let Some(programs) = find() {
        return Ok(programs);
    }
    install()?;
    find().context("Chromium is installed but not found; put the paths into CHROMIUM and CHROMEDRIVER")
}

fn find() -> Option<Programs> {
    Some(Programs {
        browser: program("CHROMIUM", &BROWSERS)?,
        driver: program("CHROMEDRIVER", &DRIVERS)?,
    })
}

/// Where the variable says, else the first of the names on the PATH.
fn program(variable: &str, names: &[&str]) -> Option<PathBuf> {
    if let Some(path) = std::env::var_os(variable) {
        return Some(path.into());
    }
    let path = std::env::var_os("PATH")?;
    let folders: Vec<PathBuf> = std::env::split_paths(&path).collect();
    let candidates = names
        .iter()
        .flat_map(|name| folders.iter().map(move |folder| folder.join(name)));
    candidates.into_iter().find(|candidate| candidate.is_file())
}

fn install() -> anyhow::Result<()> {
    let Some(prefix) = privileged() else {
        bail!(
            "the browser tests need Chromium and its driver of the same version; install them (on Debian: `sudo \
             apt-get install {}`), or put their paths into CHROMIUM and CHROMEDRIVER",
            PACKAGES.join(" ")
        );
    };
    eprintln!("  installing {}", PACKAGES.join(" and "));
    apt_get(&prefix, &["update", "-q"])?;
    apt_get(
        &prefix,
        &[
            "install",
            "-q",
            "-y",
            "--no-install-recommends",
            PACKAGES[0],
            PACKAGES[1],
        ],
    )
}

/// What to put before a command to be allowed to install packages: nothing for root, sudo if it does not ask; `None`
/// where this is not Debian or not allowed.
fn privileged() -> Option<Vec<&'static str>> {
    let release = std::fs::read_to_string("/etc/os-release").unwrap_or_default();
    if !release.lines().any(|line| line == "ID=debian") || !Path::new("/usr/bin/apt-get").exists() {
        return None;
    }
    if quietly(Command::new("test").args(["-w", "/var/lib/dpkg/status"])) {
        return Some(Vec::new());
    }
    quietly(Command::new("sudo").args(["-n", "true"])).then(|| vec!["sudo", "-n"])
}

fn quietly(command: &mut Command) -> bool {
    command
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

fn apt_get(prefix: &[&str], arguments: &[&str]) -> anyhow::Result<()> {
    let words = [prefix, &["apt-get"], arguments].concat();
    let mut command = Command::new(words[0]);
    workspace::run(command.args(&words[1..]).env("DEBIAN_FRONTEND", "noninteractive"))
        .context("installing Chromium did not work; install chromium and chromium-driver by hand")
}
