//! Words about variants side by side: where they are from, how they differ, what to do.

use crate::choosing::compare::Trend;
use crate::numbers::{MINUS, THIN_SPACE};

/// How much something differs, before it is put into words.
#[derive(Clone, Debug, PartialEq)]
pub enum DifferenceWords {
    /// Its trend says all.
    Plain,
    /// It has the other sign.
    OtherWay,
    /// There was none of it.
    FromNothing,
    /// A multiple.
    Times(String),
    /// So many percent, with a sign.
    Percent(String),
    /// So many percentage points, with a sign.
    Points(String),
    /// So many pieces.
    Count(usize),
}

/// What stands behind the sign of a difference, and the same as it is said.
#[must_use]
pub fn difference_words(trend: Trend, words: &DifferenceWords, letter: &str) -> (String, String) {
    let more = if trend == Trend::Less { "less" } else { "more" };
    let bare = |text: &str| text.trim_start_matches(['+', MINUS]).to_owned();
    match words {
        DifferenceWords::Plain if trend == Trend::Same => ("same".to_owned(), format!("same as {letter}")),
        DifferenceWords::Plain => ("different".to_owned(), format!("different from {letter}")),
        DifferenceWords::OtherWay => (
            "other way round".to_owned(),
            format!("the other way round than {letter}"),
        ),
        DifferenceWords::FromNothing => (format!("none in {letter}"), format!("more; {letter} has none")),
        DifferenceWords::Times(times) => (format!("×{times}"), format!("{times} times {letter}'s")),
        DifferenceWords::Percent(percent) => (
            format!("{percent}{THIN_SPACE}%"),
            format!("{} percent {more} than {letter}", bare(percent)),
        ),
        DifferenceWords::Points(points) => (
            format!("{points} points"),
            format!("{} percentage points {more} than {letter}", bare(points)),
        ),
        DifferenceWords::Count(count) => {
            let fewer = if trend == Trend::Less { "fewer" } else { "more" };
            (
                format!("{count} {fewer}"),
                format!("{count} {fewer} than {letter}"),
            )
        }
    }
}

/// What to do with variants.
#[must_use]
pub fn compare_hint(variants: usize, most: usize, base: &str, is_older: bool) -> String {
    let kept = if is_older { ", the one kept" } else { "" };
    match variants {
        0 | 1 => "Keep the bench as it is and go on changing it, or add something else: each further column says how it differs from it.".to_owned(),
        some if some < most => format!("All are measured against {base}{kept}."),
        _ => format!("All are measured against {base}{kept}. {most} fit side by side. Take one away to add another."),
    }
}

/// A name for the bench among variants, and where variants are from.
pub(crate) const BENCH: &str = "The bench";
pub(crate) const FROM_BENCH: &str = "Changes with the bench";
pub(crate) const FROM_KEPT: &str = "Kept aside";

/// A state before a change.
#[must_use]
pub(crate) fn before_change(change: &str) -> String {
    format!("Before: {change}")
}

/// A layout that lay on the bench before another was opened.
#[must_use]
pub(crate) fn bench_before(title: &str) -> String {
    if title.is_empty() {
        "The layout before".to_owned()
    } else {
        format!("The layout before: {title}")
    }
}

/// A file that can't be compared.
#[must_use]
pub(crate) fn unreadable_variant(name: &str, first_error: &str) -> String {
    format!("{name} could not be read: {first_error}")
}

/// What is taken where an end of a range is left empty.
#[must_use]
pub(crate) fn usual_end(number: &str) -> String {
    format!("{number} if left empty")
}

/// Two ends that make no range.
#[must_use]
pub(crate) const fn range_problem() -> &'static str {
    "Type two numbers, the second larger than the first"
}

/// What a variant pulls at most: `A climbs 16.5° in First`, and without the verb.
#[must_use]
pub(crate) fn strongest_words(
    letter: &str,
    verb: &str,
    measure: &str,
    position: Option<&String>,
) -> [String; 2] {
    let place = position.map_or_else(String::new, |position| format!(" in {position}"));
    [
        format!("{letter} {verb} {measure}{place}"),
        format!("{letter} {measure}{place}"),
    ]
}

/// What all of them pull at most, the strongest first; the verb is said once.
#[must_use]
pub(crate) fn compare_verdict(strongest: impl Iterator<Item = [String; 2]>) -> String {
    let told = strongest
        .enumerate()
        .map(|(at, [whole, short])| if at == 0 { whole } else { short });
    format!("At most {}.", told.collect::<Vec<_>>().join(", "))
}

/// Which positions are held against which, names telling nothing: each pair a position and that of the base.
#[must_use]
pub(crate) fn paired_by_gear(letter: &str, base: &str, pairs: &[[String; 2]]) -> String {
    let told = pairs.iter().map(|[own, other]| format!("{own} against {other}"));
    let told = told.collect::<Vec<_>>().join(", ");
    format!("Positions of {letter} are held against those of {base} by their gear: {told}.")
}
