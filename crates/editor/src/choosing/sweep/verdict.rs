//! What a sweep comes to: the greatest value of every line, and how it compares with that of the first position.

use layshaft_choose::sweep::{MarkKind, Series};
use layshaft_report::Limit;

use super::plot::Named;

/// What differs by less than this share is the same.
const SAME: f64 = 1e-6;
/// A line whose values differ by less than this share is flat.
const FLAT: f64 = 2e-3;

/// The greatest value of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Best {
    /// Where it begins.
    pub from: f64,
    /// Where it ends; the same where it is a single place.
    pub to: f64,
    /// The value.
    pub value: f64,
    /// Whether it is at an end of the range, so that beyond it there may be more.
    pub at_end: bool,
    /// What limits the pull there.
    pub limit: Option<Limit>,
    /// Where a stretch ends because the load stands still there and is turned the other way beyond.
    pub turns: Option<f64>,
}

/// How a line compares with another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// Less everywhere.
    Less,
    /// More somewhere, but less at its best than the other at its own.
    Below,
    /// More at its best than the other anywhere.
    More,
    /// The same, within what can be told apart, at its best.
    Same,
}

/// How a line compares with another, and the value that says so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compared {
    /// How.
    pub how: Against,
    /// The other's value.
    pub other: f64,
    /// Whether that is the other's best, and elsewhere it has less.
    pub at_best: bool,
}

/// What one line comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Its name; empty where there is one line only.
    pub name: String,
    /// Its greatest value; none where it has no value at all.
    pub best: Option<Best>,
    /// Whether it is the same all along.
    pub flat: bool,
    /// How it compares with the first line; none for the first line itself.
    pub against: Option<Compared>,
    /// Its speed where it is best, and that of the first line there.
    pub speeds: Option<[f64; 2]>,
}

fn values(series: &Series, output: usize) -> impl Iterator<Item = (f64, f64)> {
    let points = series.points.iter();
    points.filter_map(move |point| {
        point
            .values
            .get(output)
            .copied()
            .flatten()
            .map(|value| (point.at, value))
    })
}

/// Whether a line is the same all along.
pub fn flat(series: &Series, output: usize) -> bool {
    let (least, most) = values(series, output)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), (_, value)| {
            (least.min(value), most.max(value))
        });
    most - least <= FLAT * most.abs().max(least.abs())
}

/// The greatest value of an output along a line; none where it has no value at all.
pub fn best(series: &Series, output: usize) -> Option<Best> {
    let points: Vec<(f64, f64)> = values(series, output).collect();
    let most = points
        .iter()
        .map(|(_, value)| *value)
        .fold(f64::NEG_INFINITY, f64::max);
    let marked = series.marks.iter().find_map(|mark| match mark.kind {
        MarkKind::Most { output: of, value } if of == output => Some((mark.at, value)),
        _ => None,
    });
    let value = marked.map_or(most, |(_, value)| value.max(most));
    let high = |(_, own): &&(f64, f64)| *own >= value - SAME * value.abs();
    let first_high = points.iter().find(high).map(|(at, _)| *at);
    let last_high = points.iter().rev().find(high).map(|(at, _)| *at);
    let (from, to) = match (first_high.zip(last_high), marked) {
        (Some((from, to)), _) if from < to => widened(series, &points, [from, to]),
        (_, Some((at, _))) => (at, at),
        (Some(ends), None) => ends,
        (None, None) => return None,
    };
    let turns = turning_round(series, [from, to]);
    let to = turns.unwrap_or(to);
    let (first, last) = (points.first()?.0, points.last()?.0);
    let near = |one: f64, other: f64| (one - other).abs() <= 1e-9 * (last - first).abs();
    let limit = nearest(series, (from + to) / 2.0).and_then(|number| series.points[number].limit);
    Some(Best {
        at_end: near(from, first) || near(to, last),
        from,
        to,
        value,
        limit,
        turns,
    })
}

/// Where the load begins to turn the other way within a stretch, which ends there: behind it the drive backs up the hill.
fn turning_round(series: &Series, [from, to]: [f64; 2]) -> Option<f64> {
    let mut marks = series.marks.iter();
    marks
        .find(|mark| matches!(mark.kind, MarkKind::TurnsRound) && mark.at > from && mark.at <= to)
        .map(|mark| mark.at)
}

/// A stretch of equal values: the places at which what limits the pull changes say more exactly than the points where it
/// begins and ends.
fn widened(series: &Series, points: &[(f64, f64)], [from, to]: [f64; 2]) -> (f64, f64) {
    let before = points
        .iter()
        .rev()
        .find(|(at, _)| *at < from)
        .map_or(from, |(at, _)| *at);
    let after = points.iter().find(|(at, _)| *at > to).map_or(to, |(at, _)| *at);
    let changes = series
        .marks
        .iter()
        .filter(|mark| matches!(mark.kind, MarkKind::Limit { .. }));
    let (mut begin, mut end) = (from, to);
    for mark in changes {
        if (before..=from).contains(&mark.at) {
            begin = mark.at;
        } else if (to..=after).contains(&mark.at) {
            end = mark.at;
        }
    }
    (begin, end)
}

fn nearest(series: &Series, at: f64) -> Option<usize> {
    let far = |number: &usize| (series.points[*number].at - at).abs();
    (0..series.points.len()).min_by(|one, other| far(one).total_cmp(&far(other)))
}

fn value_near(series: &Series, output: usize, at: f64) -> Option<f64> {
    let number = nearest(series, at)?;
    series.points[number].values.get(output).copied().flatten()
}

/// What all lines come to; `speed` is the number of the output that says how fast the load goes.
pub fn outcomes(named: &[Named<'_>], output: usize, speed: Option<usize>) -> Vec<Outcome> {
    let reference = named.first().map(|first| first.series);
    let outcome = |(number, one): (usize, &Named<'_>)| {
        let best = best(one.series, output);
        let compared = reference.filter(|_| number > 0).zip(best.as_ref());
        let speeds = compared.zip(speed).and_then(|((reference, best), speed)| {
            let at = |series: &Series| value_near(series, speed, best.from);
            Some([at(one.series)?, at(reference)?])
        });
        Outcome {
            name: one.name.clone(),
            flat: flat(one.series, output),
            against: compared.and_then(|(reference, best)| against(one.series, reference, best, output)),
            speeds,
            best,
        }
    };
    named.iter().enumerate().map(outcome).collect()
}

/// Bests are compared with bests: a line may have more than another where that one has little, and still be no better.
fn against(own: &Series, reference: &Series, own_best: &Best, output: usize) -> Option<Compared> {
    let there = value_near(reference, output, own_best.from)?;
    let most = best(reference, output)?.value;
    let at_best = !flat(reference, output);
    let more = |value: f64, other: f64| value > other + SAME * other.abs();
    let somewhere = values(own, output)
        .any(|(at, value)| value_near(reference, output, at).is_some_and(|other| more(value, other)));
    let how = if more(own_best.value, most) {
        Against::More
    } else if !more(most, own_best.value) {
        Against::Same
    } else if somewhere {
        Against::Below
    } else {
        Against::Less
    };
    Some(Compared {
        how,
        other: if how == Against::Less { there } else { most },
        at_best: at_best && how != Against::Less,
    })
}

#[cfg(test)]
mod tests {
    use layshaft_choose::sweep::Point;
    use layshaft_layout::Id;

    use super::*;

    fn series(values: &[f64]) -> Series {
        let point = |(number, value): (usize, &f64)| Point {
            at: number as f64,
            state: None,
            limit: None,
            sense: 1,
            values: vec![Some(*value)],
        };
        Series {
            input: 0,
            position: Id::from("one"),
            points: values.iter().enumerate().map(point).collect(),
            marks: Vec::new(),
        }
    }

    fn check(first: &[f64], second: &[f64], expected: (Against, f64, bool)) {
        let all = [series(first), series(second)];
        let named: Vec<Named<'_>> = all
            .iter()
            .map(|series| Named {
                series,
                name: String::new(),
            })
            .collect();
        let compared = outcomes(&named, 0, None)[1]
            .against
            .expect("there is a first line");
        assert_eq!((compared.how, compared.other, compared.at_best), expected);
    }

    #[test]
    fn what_is_more_than_a_weak_spot_is_not_more_than_the_best() {
        check(&[10.0, 38.7, 12.0], &[17.8; 3], (Against::Below, 38.7, true));
        check(&[10.0, 16.0, 12.0], &[17.8; 3], (Against::More, 16.0, true));
        check(&[16.5; 3], &[12.0, 38.7, 12.0], (Against::More, 16.5, false));
        check(&[16.5; 3], &[15.5, 12.0, 9.0], (Against::Less, 16.5, false));
        check(&[16.5; 3], &[16.5, 12.0, 9.0], (Against::Same, 16.5, false));
    }
}
