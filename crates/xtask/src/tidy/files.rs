//! What holds for each file by itself: a Rust file opens by saying what lives in it, and no file mentions what
//! readers of the repository cannot have.

use std::path::Path;

use anyhow::Context;

use crate::workspace;

/// Folders that hold what is made, not what is written.
const MADE: [&str; 4] = [".git", "target", "dist", "node_modules"];

/// What is never mentioned: texts that are not in the repository, and paths and hosts of the machine it was built on.
/// Each is written in two halves, so that this list does not find itself.
const NEVER: [(&str, &str); 12] = [
    ("files", ".md"),
    ("physics", ".md"),
    ("product", ".md"),
    ("look", ".md"),
    ("style", ".md"),
    ("architecture", ".md"),
    ("references", ".md"),
    ("/wo", "rk/"),
    ("/tm", "p/"),
    ("/ro", "ot/"),
    ("arti", "factory"),
    ("index.cra", "tes.io"),
];

/// A text file of the repository.
pub struct File {
    /// Its path from the top, with slashes.
    pub path: String,
    /// Its contents.
    pub text: String,
}

/// All text files that people wrote.
pub fn all() -> anyhow::Result<Vec<File>> {
    let mut files = Vec::new();
    read_folder(workspace::root(), "", &mut files)?;
    files.sort_by(|one, other| one.path.cmp(&other.path));
    Ok(files)
}

fn read_folder(folder: &Path, below: &str, files: &mut Vec<File>) -> anyhow::Result<()> {
    for entry in std::fs::read_dir(folder).with_context(|| format!("cannot list {}", folder.display()))? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = format!("{below}{name}");
        if MADE.contains(&name.as_str()) || (below.is_empty() && name.starts_with("target-")) {
            continue;
        }
        if entry.file_type()?.is_dir() {
            read_folder(&entry.path(), &format!("{path}/"), files)?;
        } else if let Ok(text) = std::fs::read_to_string(entry.path()) {
            files.push(File { path, text });
        }
    }
    Ok(())
}

/// What is wrong with one file.
pub fn faults(file: &File) -> Vec<String> {
    let mut faults = Vec::new();
    if file.path.ends_with(".rs") && !file.text.starts_with("//!") {
        faults.push(format!("{}: open with `//!` and say what lives here", file.path));
    }
    faults.extend(mentions(file));
    faults
}

fn mentions(file: &File) -> Vec<String> {
    let mut faults = Vec::new();
    for (index, line) in file.text.lines().enumerate() {
        for word in NEVER.map(|(start, end)| format!("{start}{end}")) {
            if says(line, &word) {
                faults.push(format!(
                    "{}:{}: mentions “{word}”, which no reader has",
                    file.path,
                    index + 1
                ));
            }
        }
    }
    faults
}

/// Does the line hold this word, not as the end of a longer one?
fn says(line: &str, word: &str) -> bool {
    line.match_indices(word).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        word.starts_with('/') || !before.is_some_and(|letter| letter.is_alphanumeric() || letter == '_')
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(path: &str, text: &str, expected: &[&str]) {
        let file = File {
            path: path.to_owned(),
            text: text.to_owned(),
        };
        assert_eq!(faults(&file), expected);
    }

    #[test]
    fn a_rust_file_opens_by_saying_what_lives_in_it() {
        check("a.rs", "//! Gears.\n", &[]);
        check(
            "a.rs",
            "use std::io;\n",
            &["a.rs: open with `//!` and say what lives here"],
        );
        check("a.txt", "gears\n", &[]);
    }

    #[test]
    fn what_no_reader_has_is_not_mentioned() {
        let text = concat!("see files", ".md\n");
        check(
            "a.txt",
            text,
            &[concat!("a.txt:1: mentions “files", ".md”, which no reader has")],
        );
        check("a.txt", concat!("see profiles", ".md\n"), &[]);
        let path = concat!("in /tm", "p/x\n");
        check(
            "a.txt",
            path,
            &[concat!("a.txt:1: mentions “/tm", "p/”, which no reader has")],
        );
    }
}
