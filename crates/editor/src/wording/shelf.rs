//! Sentences about the layouts kept in the browser, other tabs, and a newer program.

/// A title, also where there is none.
pub(crate) fn title(title: &str) -> String {
    if title.trim().is_empty() {
        "Untitled".to_owned()
    } else {
        title.to_owned()
    }
}

pub(crate) fn changed(when: &str) -> String {
    format!("changed {when}")
}

pub(crate) fn no_cards(total: usize, search: &str) -> String {
    if total == 0 {
        "Nothing is kept yet. What you change on the bench comes here by itself.".to_owned()
    } else {
        format!("None of the {total} layouts has “{search}” in it.")
    }
}

pub(crate) fn deleted(name: &str) -> String {
    format!("Deleted “{}”.", title(name))
}

/// The title of a copy: `Hoist, copy`, then `Hoist, copy 2`.
pub(crate) fn copy_title<'a>(of: &str, taken: impl Iterator<Item = &'a str> + Clone) -> String {
    let stem = match of.rsplit_once(", copy") {
        Some((stem, number)) if number.trim().chars().all(|c| c.is_ascii_digit()) => stem,
        _ => of,
    };
    let stem = title(stem);
    let first = format!("{stem}, copy");
    let numbered = (2..).map(|number| format!("{stem}, copy {number}"));
    std::iter::once(first)
        .chain(numbered)
        .find(|name| taken.clone().all(|other| other != name))
        .unwrap_or(stem)
}

pub(crate) const ALSO_OPEN: &str =
    "This layout is open in another tab too. What you change in one shows in the other.";
pub(crate) const FOLLOWED: &str = "Changed in another tab, and followed here. Undo shows it as it was here.";
pub(crate) const NO_STORE: &str = "This browser keeps nothing for this page: a private window, or no room left. Save the layout as a file, or copy its link, before you leave.";
pub(crate) const UPDATE: &str = "A newer Layshaft is ready. Load it when you like.";
/// Why there is no code for a phone.
#[must_use]
pub const fn code_too_long() -> &'static str {
    "This link is too long for a code that a phone reads from a screen. Copy the link, or send the file."
}

pub(crate) const NOT_READ: &str = "This layout could not be opened from the shelf; the bench is as it was.";

pub(crate) fn kept_as_copy(name: &str) -> String {
    format!(
        "This layout was changed in another tab at the same time. What you have here is kept as “{}”; the other stays as it is.",
        title(name)
    )
}

pub(crate) fn left_as_copy(name: &str) -> String {
    format!(
        "Another tab changed this layout at the same time, and its change shows here. Your own is kept on the shelf as “{}”.",
        title(name)
    )
}

pub(crate) fn imported(added: usize, known: usize, failed: usize) -> String {
    let mut sentence = match added {
        0 => "No layout was put on the shelf".to_owned(),
        1 => "One layout was put on the shelf".to_owned(),
        more => format!("{more} layouts were put on the shelf"),
    };
    if known > 0 {
        sentence += &format!(
            "; {known} {} there already",
            if known == 1 { "was" } else { "were" }
        );
    }
    if failed > 0 {
        sentence += &format!("; {failed} could not be read");
    }
    sentence + "."
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn copies_are_numbered() {
        let check = |of: &str, taken: &[&str], expected: &str| {
            assert_eq!(copy_title(of, taken.iter().copied()), expected);
        };
        check("Hoist", &["Hoist"], "Hoist, copy");
        check("Hoist", &["Hoist", "Hoist, copy"], "Hoist, copy 2");
        check("Hoist, copy", &["Hoist, copy"], "Hoist, copy 2");
        check("Hoist, copy 2", &["Hoist, copy"], "Hoist, copy 2");
        check("", &[], "Untitled, copy");
        check("Rope, copy shop", &[], "Rope, copy shop, copy");
    }

    #[test]
    fn imports_are_told_in_one_sentence() {
        assert_eq!(imported(3, 0, 0), "3 layouts were put on the shelf.");
        assert_eq!(
            imported(1, 1, 2),
            "One layout was put on the shelf; 1 was there already; 2 could not be read."
        );
    }
}
