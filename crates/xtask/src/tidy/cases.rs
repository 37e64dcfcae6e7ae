//! A published case without a source is refused: a number whose origin nobody can look up proves nothing.

use super::files::File;

/// Cases in `tests/cases/*.toml` that do not say where they come from.
pub fn faults(file: &File) -> Vec<String> {
    if !file.path.starts_with("tests/cases/") || !file.path.ends_with(".toml") {
        return Vec::new();
    }
    let starts: Vec<usize> = file
        .text
        .lines()
        .enumerate()
        .filter(|(_, line)| opens_case(line))
        .map(|(index, _)| index)
        .collect();
    if starts.is_empty() {
        return vec![format!("{}: holds no case", file.path)];
    }
    let lines: Vec<&str> = file.text.lines().collect();
    let ends = starts.iter().skip(1).copied().chain([lines.len()]);
    let without = starts
        .iter()
        .zip(ends)
        .filter(|(start, end)| !lines[**start..*end].iter().any(|line| names_source(line)));
    without
        .map(|(start, _)| format!("{}:{}: a case without a source", file.path, start + 1))
        .collect()
}

/// `[[case]]`, but not a table inside a case (`[[case.row]]`).
fn opens_case(line: &str) -> bool {
    line.starts_with("[[") && !line.contains('.')
}

fn names_source(line: &str) -> bool {
    let Some((key, value)) = line.split_once('=') else {
        return false;
    };
    key.trim() == "source" && value.chars().any(char::is_alphanumeric)
}
