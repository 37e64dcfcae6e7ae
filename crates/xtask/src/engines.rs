//! What each browser engine needs for the journeys, found or, where that is allowed, installed: on Debian, as root or
//! with sudo that asks for no password. Elsewhere it says what to install.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, ensure};

use crate::workspace;

/// A browser engine and the programs that drive it.
pub struct Engine {
    /// What the tests call it.
    pub name: &'static str,
    needs: &'static [Need],
}

/// A program: the variable that says where it is, the names it goes by, and where else it may lie.
struct Need {
    variable: &'static str,
    names: &'static [&'static str],
    /// Debian's package of it; none for what cargo installs.
    package: Option<&'static str>,
}

/// Chromium, which every journey is made in.
pub const CHROMIUM: Engine = Engine {
    name: "Chromium",
    needs: &[
        Need {
            variable: "CHROMIUM",
            names: &[
                "chromium",
                "chromium-browser",
                "google-chrome",
                "google-chrome-stable",
            ],
            package: Some("chromium"),
        },
        Need {
            variable: "CHROMEDRIVER",
            names: &["chromedriver"],
            package: Some("chromium-driver"),
        },
    ],
};

/// WebKitGTK, with a screen in memory to draw on.
pub const WEBKIT: Engine = Engine {
    name: "WebKit",
    needs: &[
        Need {
            variable: "WEBKITDRIVER",
            names: &["WebKitWebDriver"],
            package: Some("webkit2gtk-driver"),
        },
        Need {
            variable: "WEBKIT",
            names: &[
                "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
                "/usr/lib/aarch64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
                "/usr/libexec/webkit2gtk-4.1/MiniBrowser",
            ],
            package: Some("webkit2gtk-driver"),
        },
        Need {
            variable: "XVFB",
            names: &["Xvfb"],
            package: Some("xvfb"),
        },
    ],
};

/// Firefox. Debian has no package of its driver.
pub const FIREFOX: Engine = Engine {
    name: "Firefox",
    needs: &[
        Need {
            variable: "FIREFOX",
            names: &["firefox-esr", "firefox"],
            package: Some("firefox-esr"),
        },
        Need {
            variable: "GECKODRIVER",
            names: &["geckodriver"],
            package: None,
        },
    ],
};

impl Engine {
    /// Finds all that it needs, as variables for the tests; installs what is missing if it may.
    pub fn find_or_install(&self) -> anyhow::Result<Vec<(&'static str, PathBuf)>> {
        let missing: Vec<&Need> = self.needs.iter().filter(|need| need.find().is_none()).collect();
        let mut packages: Vec<&str> = missing.iter().filter_map(|need| need.package).collect();
        packages.dedup();
        if !packages.is_empty() {
            self.install(&packages)?;
        }
        if missing.iter().any(|need| need.package.is_none()) {
            install_driver()?;
        }
        let found = self.needs.iter().map(|need| {
            let place = need.find();
            place.map(|place| (need.variable, place)).with_context(|| {
                format!(
                    "{} is not found; put its path into {}",
                    need.names[0], need.variable
                )
            })
        });
        found.collect()
    }

    fn install(&self, packages: &[&str]) -> anyhow::Result<()> {
        let prefix = privileged();
        let prefix = prefix.with_context(|| {
            format!(
                "the journeys in {} need {}; install them (on Debian: `sudo apt-get install {}`), or put the paths of {} \
                 into the variables of these names",
                self.name,
                packages.join(" and "),
                packages.join(" "),
                self.needs.iter().map(|need| need.variable).collect::<Vec<_>>().join(", ")
            )
        })?;
        eprintln!("  installing {}", packages.join(" and "));
        apt_get(&prefix, &["update", "-q"])?;
        apt_get(
            &prefix,
            &[&["install", "-q", "-y", "--no-install-recommends"], packages].concat(),
        )
        .with_context(|| {
            format!(
                "installing did not work; install {} by hand",
                packages.join(" and ")
            )
        })
    }
}

impl Need {
    /// Where the variable says, else the first of the names on the PATH or among our own tools.
    fn find(&self) -> Option<PathBuf> {
        if let Some(path) = std::env::var_os(self.variable) {
            return Some(path.into());
        }
        let path = std::env::var_os("PATH")?;
        let mut folders: Vec<PathBuf> = std::env::split_paths(&path).collect();
        folders.push(tools().join("bin"));
        // A whole path among the names stays as it is when it is joined to a folder.
        let mut candidates = self
            .names
            .iter()
            .flat_map(|name| folders.iter().map(move |folder| folder.join(name)));
        candidates.find(|candidate| candidate.is_file())
    }
}

/// Where tools are put that cargo installs.
fn tools() -> PathBuf {
    workspace::target_dir().join("tools")
}

/// Builds the driver of Firefox, once.
fn install_driver() -> anyhow::Result<()> {
    eprintln!("  building the driver of Firefox, once; a few minutes");
    let mut cargo = workspace::cargo(&["install", "--locked", "geckodriver", "--root"]);
    let built = workspace::run(cargo.arg(tools()).arg("--target-dir").arg(tools().join("build")));
    built.context(
        "`cargo install --locked geckodriver` did not work; put the path of a geckodriver into GECKODRIVER",
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
    command.args(&words[1..]).env("DEBIAN_FRONTEND", "noninteractive");
    let status = command.status().context("cannot start apt-get")?;
    ensure!(status.success(), "apt-get failed ({status})");
    Ok(())
}
