//! Who may depend on whom, and what each crate must not know: read off cargo's own graph, so that an absence is
//! proved and not promised.
//!
//! Clocks and threads, which no dependency shows, are refused by `wasm-lints/clippy.toml`.

use std::collections::{BTreeMap, BTreeSet};

use anyhow::Context;
use serde_json::Value;

use crate::workspace;

/// Our crates from the bottom up: each may know only those above it in this list.
const ORDER: [&str; 11] = [
    "layshaft-quantity",
    "layshaft-geometry",
    "layshaft-kinematics",
    "layshaft-powerflow",
    "layshaft-motion",
    "layshaft-layout",
    "layshaft-report",
    "layshaft-choose",
    "layshaft-editor",
    "layshaft-cli",
    "layshaft-web",
];

/// What only the page may know: how a browser is talked to.
const BROWSER: [&str; 5] = ["yew", "web-sys", "js-sys", "wasm-bindgen", "gloo"];

/// What speaks of files and their formats.
const FILES: [&str; 5] = ["serde", "serde_json", "schemars", "base64", "miniz_oxide"];

/// Crates that must not know files; the page is the only one that may know the browser.
const WITHOUT_FILES: [&str; 4] = [
    "layshaft-geometry",
    "layshaft-kinematics",
    "layshaft-powerflow",
    "layshaft-motion",
];

/// Crates that stand beside the product: nothing may depend on them.
const BESIDE: [&str; 3] = ["xtask", "layshaft-tests", "layshaft-bench"];

/// What each of our packages is made of, without what only its tests need.
pub struct Packages {
    below: BTreeMap<String, BTreeSet<String>>,
}

impl Packages {
    /// Asks cargo, package by package: asked for all at once, it would give each the features that any of them wants.
    pub fn read() -> anyhow::Result<Self> {
        let mut below = BTreeMap::new();
        for package in members()? {
            let made_of = made_of(&package)?;
            below.insert(package, made_of);
        }
        Ok(Self { below })
    }

    /// Our own packages that one of ours is made of, itself included.
    pub fn of_ours_below(&self, package: &str) -> Vec<String> {
        let below = &self.below[package];
        self.below
            .keys()
            .filter(|name| *name == package || below.contains(*name))
            .cloned()
            .collect()
    }

    /// All that breaks the layers, one sentence each.
    pub fn faults(&self) -> Vec<String> {
        self.below
            .iter()
            .flat_map(|(package, below)| self.faults_of(package, below))
            .collect()
    }

    fn faults_of(&self, package: &str, below: &BTreeSet<String>) -> Vec<String> {
        if BESIDE.contains(&package) {
            return Vec::new();
        }
        let Some(level) = ORDER.iter().position(|known| *known == package) else {
            return vec![format!(
                "{package} has no place in the order of layers; give it one in crates/xtask/src/layers.rs"
            )];
        };
        let lower = &ORDER[..level];
        let ours = below
            .iter()
            .filter(|name| self.below.contains_key(*name) && !lower.contains(&name.as_str()));
        let upward = ours.map(|name| format!("{package} must not know {name}, which stands above it"));
        let banned = banned_for(package)
            .into_iter()
            .filter(|name| below.contains(*name));
        let leaks = banned.map(|name| {
            format!("{package} must not know {name} (`cargo tree -p {package} -i {name}` shows the way)")
        });
        upward.chain(leaks).collect()
    }
}

fn banned_for(package: &str) -> Vec<&'static str> {
    let mut banned = Vec::new();
    if package != "layshaft-web" {
        banned.extend(BROWSER);
    }
    if WITHOUT_FILES.contains(&package) {
        banned.extend(FILES);
    }
    banned
}

/// Names of the packages of this workspace.
fn members() -> anyhow::Result<Vec<String>> {
    let ask = ["metadata", "--format-version", "1", "--no-deps", "--locked"];
    let metadata: Value = serde_json::from_str(&workspace::output_of(&mut workspace::cargo(&ask))?)?;
    let packages = metadata["packages"]
        .as_array()
        .context("cargo metadata lists packages")?;
    Ok(packages
        .iter()
        .filter_map(|package| package["name"].as_str())
        .map(str::to_owned)
        .collect())
}

/// Names of all packages that one is made of, on any platform.
fn made_of(package: &str) -> anyhow::Result<BTreeSet<String>> {
    let ask = [
        "tree",
        "-p",
        package,
        "-e",
        "normal,build",
        "--target",
        "all",
        "--prefix",
        "none",
        "--locked",
    ];
    let tree = workspace::output_of(&mut workspace::cargo(&ask))?;
    Ok(tree
        .lines()
        .skip(1)
        .filter_map(|line| line.split(' ').next())
        .map(str::to_owned)
        .collect())
}
