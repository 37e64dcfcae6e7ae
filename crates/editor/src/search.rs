//! Finding actions by words of their names, of their help, and by their keys.

use crate::actions::{self, ActionInfo};

/// The actions whose name, help or key holds every word of the query; those whose name begins with it come first.
#[must_use]
pub fn actions(query: &str) -> Vec<ActionInfo> {
    let query = query.trim().to_lowercase();
    let mut found: Vec<ActionInfo> = actions::all()
        .into_iter()
        .filter(|info| holds_all_words(info, &query))
        .collect();
    found.sort_by_key(|info| rank(info, &query));
    found
}

fn holds_all_words(info: &ActionInfo, query: &str) -> bool {
    let text = format!("{} {} {}", info.name, info.help, info.key).to_lowercase();
    query.split_whitespace().all(|word| text.contains(word))
}

/// Equal ranks keep the order of the list.
fn rank(info: &ActionInfo, query: &str) -> u8 {
    let name = info.name.to_lowercase();
    match () {
        () if name.starts_with(query) || !query.is_empty() && info.key.to_lowercase() == query => 0,
        () if name.contains(query) => 1,
        () => 2,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_query_finds_everything() {
        assert_eq!(actions(" "), actions::all());
    }

    #[test]
    fn names_come_before_mentions() {
        let found = actions("undo");
        assert!(
            found
                .first()
                .is_none_or(|info| info.name.to_lowercase().starts_with("undo"))
        );
    }

    #[test]
    fn words_that_nothing_has_find_nothing() {
        assert_eq!(actions("zyzzyva"), Vec::new());
    }
}
