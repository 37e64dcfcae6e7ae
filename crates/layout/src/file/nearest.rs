//! The known name that is nearest to one that was mistyped.

use std::cell::Cell;

/// Longest list of names that is looked through for one mistyped name.
const MOST_NAMES: usize = 5000;

/// How many comparisons one document may cost. A document full of wrong names would otherwise cost the square of its
/// length; past the budget names go without a suggestion.
const MOST_COMPARISONS: usize = 200_000;

/// Keeps count of the comparisons made for one document.
pub(crate) struct Nearest {
    left: Cell<usize>,
}

impl Nearest {
    /// A fresh budget.
    pub(crate) const fn new() -> Self {
        Self {
            left: Cell::new(MOST_COMPARISONS),
        }
    }

    /// The nearest of `names`, where there are any and the budget lasts.
    pub(crate) fn of<'n>(&self, wrong: &str, names: impl Iterator<Item = &'n str>) -> Option<&'n str> {
        let wrong: String = wrong.chars().take(60).collect();
        let mut best: Option<(usize, &str)> = None;
        for name in names.take(MOST_NAMES.min(self.left.get())) {
            self.left.set(self.left.get().saturating_sub(1));
            let distance = distance(&wrong, name);
            if best.is_none_or(|(least, _)| distance < least) {
                best = Some((distance, name));
            }
        }
        best.map(|(_, name)| name)
    }
}

/// The nearest of some names to one that was mistyped; none where there are none.
#[must_use]
pub fn nearest_name<'n>(wrong: &str, names: impl Iterator<Item = &'n str>) -> Option<&'n str> {
    Nearest::new().of(wrong, names)
}

/// The nearest of a fixed, non-empty list of names.
pub(crate) fn nearest_word(wrong: &str, names: impl Iterator<Item = &'static str>) -> &'static str {
    Nearest::new().of(wrong, names).unwrap_or("")
}

/// Edits between two names, capital letters counting little, so that `Motor` finds `motor` before `rotor`.
fn distance(wrong: &str, name: &str) -> usize {
    let cut: String = name.chars().take(60).collect();
    let edits = strsim::osa_distance(&wrong.to_lowercase(), &cut.to_lowercase());
    10 * edits + usize::from(wrong != cut)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_finger_finds_the_name_meant() {
        assert_eq!(
            nearest_word("theet", ["form", "teeth", "sense"].into_iter()),
            "teeth"
        );
        assert_eq!(nearest_word("Motor", ["rotor", "motor"].into_iter()), "motor");
    }

    #[test]
    fn the_budget_ends() {
        let nearest = Nearest { left: Cell::new(1) };
        assert_eq!(nearest.of("a", ["b", "a"].into_iter()), Some("b"));
        assert_eq!(nearest.of("a", ["b", "a"].into_iter()), None);
    }
}
