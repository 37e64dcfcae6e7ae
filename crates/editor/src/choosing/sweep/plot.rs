//! A sweep's answer as a plot: lines by position, plots by unit, marks of what is worth marking.

use layshaft_choose::Output;
use layshaft_choose::sweep::{MarkKind, Series, SweepAnswer};

use layshaft_layout::Id;
use layshaft_report::State;

use super::verdict::{Best, best, flat};
use super::{Asking, Work};
use crate::chart::{AxisSpec, ChartSpec, LineSpec, MarkSort, MarkSpec, PanelSpec};
use crate::fields::sentence_case;
use crate::units::Units;
use crate::wording::choosing_sweep as words;

/// Changes marked at most; more would hide the lines.
const MOST_TURNS: usize = 4;

/// A series that is drawn, with its name.
#[derive(Clone, Debug)]
pub struct Named<'a> {
    /// The series.
    pub series: &'a Series,
    /// Its name.
    pub name: String,
}

/// The series that are drawn: through plain gears only where that is something else and can be computed at all.
pub fn named<'a>(asking: &Asking, answer: &'a SweepAnswer) -> Vec<Named<'a>> {
    let positions = asking.layout.effective_positions();
    let several = positions.len() > 1;
    let drawn = |series: &&Series| {
        let first = answer
            .series
            .iter()
            .find(|other| other.input == 0 && other.position == series.position);
        let same = first.is_some_and(|first| {
            let values = |series: &Series| -> Vec<(f64, Vec<Option<f64>>)> {
                let points = series.points.iter();
                points.map(|point| (point.at, point.values.clone())).collect()
            };
            values(first) == values(series)
        });
        let some = series
            .points
            .iter()
            .any(|point| point.values.iter().any(Option::is_some));
        series.input == 0 || some && !same
    };
    let name = |series: &Series| {
        let position = positions.iter().find(|position| position.id == series.position);
        let position = position.map_or_else(String::new, |position| position.name.clone());
        words::line(if several { &position } else { "" }, series.input > 0)
    };
    let series = answer.series.iter().filter(drawn);
    series
        .map(|series| Named {
            name: name(series),
            series,
        })
        .collect()
}

/// Positions in which nothing is determined any more once plain gears stand in a worm's place: it held its branch, they don't.
pub fn let_go(asking: &Asking, answer: &SweepAnswer) -> Vec<String> {
    let undetermined = |series: &Series| {
        series
            .points
            .iter()
            .all(|point| point.state == Some(State::Undetermined))
    };
    let positions = asking.layout.effective_positions().into_iter();
    let of = |position: &Id, plain: bool| {
        let mut all = answer.series.iter();
        all.any(|series| series.position == *position && (series.input > 0) == plain && undetermined(series))
    };
    positions
        .filter(|position| of(&position.id, true) && !of(&position.id, false))
        .map(|position| position.name)
        .collect()
}

/// The plot in the units shown; `now` is where the mark of the present value stands, and whether it was carried there.
pub fn chart(
    asking: &Asking,
    answer: &SweepAnswer,
    whole: bool,
    now: Option<(f64, bool)>,
    units: Units,
) -> Option<ChartSpec> {
    let Work::Sweep(job) = &asking.work else {
        return None;
    };
    let variable = &asking.variable;
    let named = named(asking, answer);
    let mut panels: Vec<(PanelSpec, Vec<(usize, usize)>)> = Vec::new();
    for group in by_unit(&job.outputs) {
        panels.push(panel(&named, &job.outputs, &group));
    }
    let numbers: Vec<(usize, usize)> = panels.iter().flat_map(|(_, numbers)| numbers.clone()).collect();
    let mut marks = now.map_or_else(Vec::new, |now| present(asking, now, units));
    if whole {
        marks.extend(bests(asking, &named, &job.outputs, &numbers, units));
        marks.extend(turns(asking, &named, units));
    }
    let title = words::title(&words::output(&job.outputs[0]), &variable.name);
    let mut panels = panels.into_iter().map(|(panel, _)| panel);
    let first = panels.next()?;
    let plot = ChartSpec {
        title,
        across: AxisSpec {
            title: sentence_case(&variable.name),
            unit: variable.unit.to_owned(),
        },
        up: first.up,
        lines: first.lines,
        below: panels.collect(),
        marks,
    };
    Some(plot.shown_in(units))
}

/// Outputs that share a plot, by their numbers: those of one unit; numbers without a unit stand alone.
fn by_unit(outputs: &[Output]) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (number, output) in outputs.iter().enumerate() {
        let shares =
            |group: &&mut Vec<usize>| !output.unit().is_empty() && outputs[group[0]].unit() == output.unit();
        match groups.iter_mut().find(shares) {
            Some(group) => group.push(number),
            None => groups.push(vec![number]),
        }
    }
    groups
}

/// A plot of some outputs, and per line the numbers of its series and output.
fn panel(named: &[Named<'_>], outputs: &[Output], group: &[usize]) -> (PanelSpec, Vec<(usize, usize)>) {
    let mut lines = Vec::new();
    let mut numbers = Vec::new();
    for output in group.iter().rev() {
        // The first position is what the others are measured by, so it is drawn last and plainest.
        for (at, one) in named.iter().enumerate().rev() {
            let points = one.series.points.iter();
            let output_name = words::output(&outputs[*output]);
            let name = match (group.len() > 1, one.name.is_empty()) {
                (true, true) => output_name,
                (true, false) => format!("{}: {output_name}", one.name),
                (false, _) => one.name.clone(),
            };
            lines.push(LineSpec {
                name,
                points: points.map(|point| (point.at, point.values[*output])).collect(),
                beside: false,
            });
            numbers.push((at, *output));
        }
    }
    let title = match group {
        [one] => sentence_case(&words::output(&outputs[*one])),
        _ => String::new(),
    };
    let up = AxisSpec {
        title,
        unit: outputs[group[0]].unit().to_owned(),
    };
    (PanelSpec { up, lines }, numbers)
}

/// The mark that is carried, and where it was carried away, a bare line where the layout is.
fn present(asking: &Asking, (at, carried): (f64, bool), units: Units) -> Vec<MarkSpec> {
    let variable = &asking.variable;
    let now = carried.then(|| variable.written(variable.present, units));
    let mut marks = vec![MarkSpec {
        at,
        dot: None,
        text: words::here(&variable.written(at, units), now.as_deref()),
        kind: MarkSort::Present,
    }];
    if carried {
        marks.push(MarkSpec {
            at: variable.present,
            dot: None,
            text: String::new(),
            kind: MarkSort::Turn,
        });
    }
    marks
}

/// A dot at the greatest value of every line that has one within the range.
fn bests(
    asking: &Asking,
    named: &[Named<'_>],
    outputs: &[Output],
    numbers: &[(usize, usize)],
    units: Units,
) -> Vec<MarkSpec> {
    let dot = |(line, (at, output)): (usize, &(usize, usize))| {
        let series = named[*at].series;
        let best = best(series, *output)?;
        if best.at_end || flat(series, *output) {
            return None;
        }
        let Best { from, to, value, .. } = best;
        let across = |value: f64| asking.variable.written(value, units);
        Some(MarkSpec {
            at: from,
            dot: Some((line, value)),
            text: words::best(
                &words::value(&outputs[*output], value, units),
                &across(from),
                &across(to),
            ),
            kind: MarkSort::Best,
        })
    };
    numbers.iter().enumerate().filter_map(dot).collect()
}

/// Where the state or what limits the pull changes.
fn turns(asking: &Asking, named: &[Named<'_>], units: Units) -> Vec<MarkSpec> {
    let mut turns: Vec<MarkSpec> = Vec::new();
    for one in named {
        let mut backwards = false;
        for mark in &one.series.marks {
            // Nobody builds what drives the wrong way, so what limits it there needs no mark.
            backwards |= matches!(mark.kind, MarkKind::TurnsRound);
            if backwards && matches!(mark.kind, MarkKind::Limit { .. }) {
                continue;
            }
            let at = asking.variable.written(mark.at, units);
            let said = match mark.kind {
                MarkKind::Most { .. } => None,
                MarkKind::Turns { from, to } => words::state_turns(from, to, &at),
                MarkKind::TurnsRound => Some(words::turns_round(&at)),
                MarkKind::Limit { from, to } => words::limit_turns(from, to, &at),
            };
            let Some(text) = said else { continue };
            if turns.iter().any(|other| other.text == text) {
                continue;
            }
            turns.push(MarkSpec {
                at: mark.at,
                dot: None,
                text,
                kind: MarkSort::Turn,
            });
        }
    }
    turns.truncate(MOST_TURNS);
    turns
}
