//! A map's answer as a field of values over two inputs.

use layshaft_choose::map::MapAnswer;
use layshaft_layout::Layout;

use super::{Asking, Variable, Work};
use crate::chart::AxisSpec;
use crate::chart::field::FieldSpec;
use crate::fields::sentence_case;
use crate::wording::choosing_sweep as words;

/// Values of an input on a map; whole inputs take every whole number at most once.
pub const POINTS: usize = 33;

fn axis(variable: &Variable) -> AxisSpec {
    AxisSpec {
        title: sentence_case(&variable.name),
        unit: variable.unit.to_owned(),
    }
}

/// The map.
pub fn map(asking: &Asking, answer: &MapAnswer, layout: &Layout) -> Option<FieldSpec> {
    let Work::Map(work) = &asking.work else {
        return None;
    };
    let (job, also) = &**work;
    let positions = asking.layout.effective_positions();
    let position = positions.iter().find(|position| position.id == job.position);
    let position = position.filter(|_| positions.len() > 1);
    let output = words::output(&job.output);
    Some(FieldSpec {
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
    })
}
