//! The plot of all variants as it is shown: its fields, and a curve for each variant and position looked at.

use layshaft_choose::sweep::Series;
use layshaft_layout::Layout;

use super::plot::{Axes, Common, Plotted, Seen, shared};
use super::show::looked_at;
use super::{ComparePlot, LETTERS, Side};
use crate::chart::{AxisSpec, Chart, ChartSpec, LineSpec, MarkSort, MarkSpec, draw};
use crate::choosing::{Choice, ChoiceOption, Entry, Typed};
use crate::numbers::significant;
use crate::units::Units;
use crate::wording::{range_problem, usual_end};

/// What all variants have: inputs and results.
pub(crate) fn offered(sides: &[Side<'_>]) -> (Vec<Common>, Vec<Seen>) {
    let layouts: Vec<&Layout> = sides.iter().map(|side| &**side.layout).collect();
    let inputs = shared(&Common::ALL, &layouts, Common::find, |found| found.unit);
    let results = shared(&Seen::ALL, &layouts, Seen::find, |looked| looked.unit);
    (inputs, results)
}

/// The fields of the plot.
pub(crate) fn fields(
    sides: &[Side<'_>],
    axes: Axes,
    typed: &[Typed; 2],
    is_range: bool,
    units: Units,
) -> Option<ComparePlot> {
    let layout = sides.first()?.layout;
    let (inputs, results) = offered(sides);
    let input = axes.over.find(layout)?;
    let usual = axes.over.usual_range(input.present);
    let scale = units.scale(input.unit);
    let over = inputs
        .into_iter()
        .filter_map(|one| Some(option(one.code(), one.find(layout)?.title, one == axes.over)));
    let seen = results
        .into_iter()
        .filter_map(|one| Some(option(one.code(), one.find(layout)?.title, one == axes.seen)));
    let entry = |at: usize, key: &str, label: &str| Entry {
        key: key.to_owned(),
        label: label.to_owned(),
        unit: scale.unit.to_owned(),
        text: typed[at].shown(input.quantity(), input.unit, units),
        hint: usual_end(&significant(scale.shown(usual[at]))),
        problem: (at == 1 && !is_range).then(|| range_problem().to_owned()),
    };
    Some(ComparePlot {
        seen: choice("compare-seen", "Show", seen.collect()),
        over: choice("compare-over", "Over", over.collect()),
        ends: [entry(0, "compare-from", "From"), entry(1, "compare-to", "To")],
        chart: None,
    })
}

fn choice(key: &str, label: &str, options: Vec<ChoiceOption>) -> Choice {
    Choice {
        key: key.to_owned(),
        label: label.to_owned(),
        options,
        hint: String::new(),
    }
}

fn option(value: &str, name: &str, chosen: bool) -> ChoiceOption {
    ChoiceOption {
        value: value.to_owned(),
        name: name.to_owned(),
        chosen,
        ..ChoiceOption::default()
    }
}

/// The plot in the units shown; none until something has been computed.
pub(crate) fn chart(
    sides: &[Side<'_>],
    plotted: &[Plotted],
    axes: Axes,
    width: f64,
    units: Units,
) -> Option<Chart> {
    let first = sides.first()?;
    let input = axes.over.find(first.layout)?;
    let looked = axes.seen.find(first.layout)?;
    // The first variant's curves come last, so that they lie on top.
    let lines: Vec<LineSpec> = sides
        .iter()
        .zip(LETTERS)
        .rev()
        .flat_map(|(side, letter)| curves(side, letter, plotted, looked.scale).into_iter().rev())
        .collect();
    if lines.is_empty() {
        return None;
    }
    let now = MarkSpec {
        at: input.present,
        dot: None,
        text: format!("{} now", LETTERS[0]),
        kind: MarkSort::Present,
    };
    let axis = |title: &str, unit: &str| AxisSpec {
        title: title.to_owned(),
        unit: unit.to_owned(),
    };
    let spec = ChartSpec {
        title: format!("{} over {}", looked.title, input.title.to_lowercase()),
        across: axis(input.title, input.unit),
        up: axis(looked.title, looked.unit),
        lines,
        below: Vec::new(),
        marks: vec![now],
    };
    Some(draw(&spec.shown_in(units), width))
}

/// A variant's curves: one per position looked at.
fn curves(side: &Side<'_>, letter: &str, plotted: &[Plotted], scale: f64) -> Vec<LineSpec> {
    let own = plotted
        .iter()
        .find(|plotted| plotted.number == side.variant.number);
    let Some((_, answer)) = own.and_then(|own| own.answer.as_ref()) else {
        return Vec::new();
    };
    let positions = looked_at(side.variant, side.report);
    let several = side.report.positions.len() > 1;
    let curve = |(at, position): (usize, _)| {
        let position: &layshaft_report::PositionReport = position;
        let series = answer
            .series
            .iter()
            .find(|series| series.position == position.id)?;
        let name = if several {
            format!("{letter} {}", position.name)
        } else {
            letter.to_owned()
        };
        Some(LineSpec {
            name,
            points: points(series, scale),
            beside: at > 0,
        })
    };
    let positions = positions.into_iter().map(std::rc::Rc::as_ref);
    positions.enumerate().filter_map(curve).collect()
}

fn points(series: &Series, scale: f64) -> Vec<(f64, Option<f64>)> {
    let value = |values: &[Option<f64>]| values.first().copied().flatten().map(|value| value * scale);
    series
        .points
        .iter()
        .map(|point| (point.at, value(&point.values)))
        .collect()
}
