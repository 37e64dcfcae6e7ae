//! A map's answer as a field of values over two inputs.

use layshaft_choose::map::MapAnswer;
use layshaft_choose::sweep::{Series, SweepAnswer};
use layshaft_layout::{Id, Layout};

use super::{Asking, Variable, Work};
use crate::chart::AxisSpec;
use crate::chart::field::FieldSpec;
use crate::fields::sentence_case;
use crate::units::Units;
use crate::wording::choosing_sweep as words;

/// Values of an input on a map; whole inputs take every whole number at most once.
pub const POINTS: usize = 33;

/// What differs by less than this share is the same height.
const SAME: f64 = 1e-6;

/// The greatest value of a map and where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Most {
    /// The value.
    pub value: f64,
    /// From where to where across; the same where it is a single place.
    pub across: [f64; 2],
    /// From where to where up.
    pub up: [f64; 2],
    /// Whether it is the same everywhere.
    pub flat: bool,
}

/// The greatest value; none where there is no value at all.
#[must_use]
pub fn most(answer: &MapAnswer) -> Option<Most> {
    let values = || answer.values.iter().flatten().flatten().copied();
    let value = values().reduce(f64::max)?;
    let high = |own: f64| own >= value - SAME * value.abs();
    let mut most = Most {
        value,
        across: [f64::INFINITY, f64::NEG_INFINITY],
        up: [f64::INFINITY, f64::NEG_INFINITY],
        flat: values().all(high),
    };
    for (row, up) in answer.values.iter().zip(&answer.up) {
        for (value, across) in row.iter().zip(&answer.across) {
            if value.is_some_and(high) {
                most.across = [most.across[0].min(*across), most.across[1].max(*across)];
                most.up = [most.up[0].min(*up), most.up[1].max(*up)];
            }
        }
    }
    Some(most)
}

/// The position of a sweep in which an output changes most, as a share of its greatest value; none where none changes.
#[must_use]
pub fn most_moved(answer: &SweepAnswer, output: usize) -> Option<Id> {
    let moved = |series: &Series| {
        let values = || {
            let points = series.points.iter();
            points.filter_map(|point| point.values.get(output).copied().flatten())
        };
        let (least, most) = (values().reduce(f64::min)?, values().reduce(f64::max)?);
        let far = most.abs().max(least.abs());
        (far > 0.0).then(|| (most - least) / far)
    };
    let drawn = answer.series.iter().filter(|series| series.input == 0);
    let all = drawn.filter_map(|series| Some((moved(series)?, &series.position)));
    let (share, position) = all.max_by(|one, other| one.0.total_cmp(&other.0))?;
    (share > SAME).then(|| position.clone())
}

fn axis(variable: &Variable) -> AxisSpec {
    AxisSpec {
        title: sentence_case(&variable.name),
        unit: variable.unit.to_owned(),
    }
}

/// The map, in the units shown.
pub fn map(asking: &Asking, answer: &MapAnswer, layout: &Layout, units: Units) -> Option<FieldSpec> {
    let Work::Map(work) = &asking.work else {
        return None;
    };
    let (job, also) = &**work;
    let positions = asking.layout.effective_positions();
    let position = positions.iter().find(|position| position.id == job.position);
    let position = position.filter(|_| positions.len() > 1);
    let output = words::output(&job.output);
    let map = FieldSpec {
        title: words::map_title(
            &output,
            position.map_or("", |position| &position.name),
            &asking.variable.name,
            &also.name,
        ),
        across: axis(&asking.variable),
        up: axis(also),
        value: AxisSpec {
            title: sentence_case(&output),
            unit: job.output.unit().to_owned(),
        },
        columns: answer.across.clone(),
        rows: answer.up.clone(),
        values: answer.values.clone(),
        present: asking
            .variable
            .input
            .present(layout)
            .ok()
            .zip(also.input.present(layout).ok()),
    };
    Some(map.shown_in(units))
}
