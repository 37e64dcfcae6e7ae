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
}

/// How a line compares with another all along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// Less everywhere.
    Less,
    /// More somewhere.
    More,
    /// The same, within what can be told apart, at its best.
    Same,
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
    /// How it compares with the first line, and that one's value where this one is best; none for the first line itself.
    pub against: Option<(Against, f64)>,
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
    let to = before_turning_round(series, [from, to]);
    let (first, last) = (points.first()?.0, points.last()?.0);
    let near = |one: f64, other: f64| (one - other).abs() <= 1e-9 * (last - first).abs();
    let limit = nearest(series, (from + to) / 2.0).and_then(|number| series.points[number].limit);
    Some(Best {
        at_end: near(from, first) || near(to, last),
        from,
        to,
        value,
        limit,
    })
}

/// The end of a stretch, cut where the load begins to turn the other way: behind that the drive backs up the hill.
fn before_turning_round(series: &Series, [from, to]: [f64; 2]) -> f64 {
    let marks = series.marks.iter();
    let turns = marks.filter(|mark| matches!(mark.kind, MarkKind::TurnsRound) && mark.at > from);
    turns.map(|mark| mark.at).fold(to, f64::min)
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

/// What all lines come to.
pub fn outcomes(named: &[Named<'_>], output: usize) -> Vec<Outcome> {
    let reference = named.first().map(|first| first.series);
    let outcome = |(number, one): (usize, &Named<'_>)| {
        let best = best(one.series, output);
        let against = reference
            .filter(|_| number > 0)
            .zip(best.as_ref())
            .and_then(|(reference, best)| against(one.series, reference, best, output));
        Outcome {
            name: one.name.clone(),
            flat: flat(one.series, output),
            best,
            against,
        }
    };
    named.iter().enumerate().map(outcome).collect()
}

fn against(own: &Series, reference: &Series, best: &Best, output: usize) -> Option<(Against, f64)> {
    let there = value_near(reference, output, best.from)?;
    let more = values(own, output).any(|(at, value)| {
        value_near(reference, output, at).is_some_and(|other| value > other + SAME * other.abs())
    });
    let how = if more {
        Against::More
    } else if (best.value - there).abs() <= SAME * there.abs() {
        Against::Same
    } else {
        Against::Less
    };
    Some((how, there))
}
