//! The top of the repository holds exactly what its readers are told to expect.

use std::collections::BTreeSet;

use crate::workspace;

/// What stands at the top, apart from dot-files and what is made.
const ENTRIES: [&str; 10] = [
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "README.md",
    "crates",
    "static",
    "tests",
    "web",
];

/// Written last, when there is something to describe; its absence is only noted.
const MAY_BE_MISSING: &str = "DEVELOPERS.md";

/// What is missing at the top or does not belong there.
pub fn faults() -> anyhow::Result<Vec<String>> {
    let mut found = BTreeSet::new();
    for entry in std::fs::read_dir(workspace::root())? {
        found.insert(entry?.file_name().to_string_lossy().into_owned());
    }
    let strange = found.iter().filter(|name| !is_expected(name));
    let strange = strange.map(|name| format!("{name} does not belong at the top of the repository"));
    let missing = ENTRIES
        .iter()
        .filter(|name| !found.contains(**name) && **name != MAY_BE_MISSING);
    let missing = missing.map(|name| format!("{name} is missing at the top of the repository"));
    Ok(strange.chain(missing).collect())
}

fn is_expected(name: &str) -> bool {
    let made = name == "target" || name.starts_with("target-") || name == "dist";
    made || name.starts_with('.') || ENTRIES.contains(&name)
}
