//! DEVELOPERS.md names folders; they must be there, and every folder a newcomer meets first must be named.

use std::collections::BTreeSet;

use super::files::File;
use crate::workspace;

/// The guide.
const GUIDE: &str = "DEVELOPERS.md";

/// Folders at the top, whose names begin all paths that the guide may mention.
const TOPS: [&str; 4] = ["crates", "static", "tests", "web"];

/// Paths in the guide that lead nowhere, and folders it leaves out.
pub fn faults(files: &[File]) -> anyhow::Result<Vec<String>> {
    let Some(guide) = files.iter().find(|file| file.path == GUIDE) else {
        eprintln!("  {GUIDE} is not there yet; its folder names are not checked");
        return Ok(Vec::new());
    };
    let named = named_paths(&guide.text);
    let gone = named.iter().filter(|path| !workspace::root().join(path).exists());
    let gone = gone.map(|path| format!("{GUIDE} names {path}, which is not there"));
    let left_out = folders(files)
        .into_iter()
        .filter(|folder| !named.contains(folder));
    let left_out = left_out.map(|folder| format!("{GUIDE} does not name the folder {folder}"));
    Ok(gone.chain(left_out).collect())
}

/// What stands between backticks and starts like a path of ours, without a slash at the end. Patterns
/// (`tests/cases/*.toml`) count up to the folder they speak of.
fn named_paths(text: &str) -> BTreeSet<String> {
    let quoted = text.split('`').skip(1).step_by(2);
    quoted.filter(|word| is_path(word)).map(without_pattern).collect()
}

fn is_path(word: &str) -> bool {
    let top = word.split('/').next().unwrap_or_default();
    TOPS.contains(&top) && !word.contains(' ')
}

fn without_pattern(path: &str) -> String {
    let plain = path.split(['*', '{', '<', '…']).next().unwrap_or_default();
    let folder = if plain.len() == path.len() {
        plain
    } else {
        &plain[..plain.rfind('/').unwrap_or(0)]
    };
    folder.trim_end_matches('/').to_owned()
}

/// Each crate, and the other folders at the top.
fn folders(files: &[File]) -> BTreeSet<String> {
    let crates = files
        .iter()
        .filter_map(|file| file.path.strip_prefix("crates/")?.split('/').next());
    let crates = crates.map(|name| format!("crates/{name}"));
    crates
        .chain(["static", "tests", "web"].map(str::to_owned))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_told_from_other_quoted_words() {
        let text =
            "In `web` and `tests/cases/*.toml`, `cargo xtask`, `crates/layout/src/link.rs`, but not tests/x.";
        let found: Vec<_> = named_paths(text).into_iter().collect();
        assert_eq!(found, ["crates/layout/src/link.rs", "tests/cases", "web"]);
    }
}
