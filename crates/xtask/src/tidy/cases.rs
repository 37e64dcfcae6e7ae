//! A published case without a source is refused: a number whose origin nobody can look up proves nothing. What was
//! left out of a table (`[[omitted]]`) says why.

use super::files::File;

/// Rows of `tests/cases/*.toml` that do not say where they come from, or why they are left out.
pub fn faults(file: &File) -> Vec<String> {
    if !file.path.starts_with("tests/cases/") || !file.path.ends_with(".toml") {
        return Vec::new();
    }
    let lines: Vec<&str> = file.text.lines().collect();
    let starts: Vec<usize> = (0..lines.len())
        .filter(|index| opens_row(lines[*index]))
        .collect();
    if starts.is_empty() {
        return vec![format!("{}: holds no case", file.path)];
    }
    let ends = starts.iter().skip(1).copied().chain([lines.len()]);
    let rows = starts.iter().copied().zip(ends);
    rows.filter_map(|(start, end)| Some((start, fault(lines[start], &lines[start..end])?)))
        .map(|(start, fault)| format!("{}:{}: {fault}", file.path, start + 1))
        .collect()
}

/// `[[case]]`, but not a table inside a case (`[[case.row]]`).
fn opens_row(line: &str) -> bool {
    line.starts_with("[[") && !line.contains('.')
}

fn fault(header: &str, row: &[&str]) -> Option<String> {
    let (kind, needed) = match header.trim() {
        "[[case]]" => ("case", "source"),
        "[[omitted]]" => ("row left out", "reason"),
        other => {
            return Some(format!(
                "{other} is neither a case nor what is left out ([[omitted]])"
            ));
        }
    };
    (!row.iter().any(|line| gives(line, needed))).then(|| format!("a {kind} without a {needed}"))
}

/// Is this the line of the key, with something written in it?
fn gives(line: &str, key: &str) -> bool {
    let Some((found, value)) = line.split_once('=') else {
        return false;
    };
    found.trim() == key && value.chars().any(char::is_alphanumeric)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: &[&str]) {
        let file = File {
            path: "tests/cases/x.toml".to_owned(),
            text: text.to_owned(),
        };
        assert_eq!(faults(&file), expected);
    }

    #[test]
    fn a_case_needs_a_source_that_says_something() {
        check("[[case]]\nname = \"a\"\nsource = \"b\"\n", &[]);
        check(
            "[[case]]\nname = \"a\"\n",
            &["tests/cases/x.toml:1: a case without a source"],
        );
        check(
            "[[case]]\nsource = \"\"\n",
            &["tests/cases/x.toml:1: a case without a source"],
        );
        check(
            "[[case]]\nsource = \"b\"\n[[case]]\nname = \"source\"\n",
            &["tests/cases/x.toml:3: a case without a source"],
        );
    }

    #[test]
    fn what_is_left_out_needs_a_reason() {
        check("[[omitted]]\nreason = \"no numbers\"\n", &[]);
        check(
            "[[omitted]]\n",
            &["tests/cases/x.toml:1: a row left out without a reason"],
        );
    }

    #[test]
    fn a_misspelt_header_hides_nothing() {
        check(
            "[[cases]]\nname = \"a\"\n",
            &["tests/cases/x.toml:1: [[cases]] is neither a case nor what is left out ([[omitted]])"],
        );
        check("# nothing\n", &["tests/cases/x.toml: holds no case"]);
    }
}
