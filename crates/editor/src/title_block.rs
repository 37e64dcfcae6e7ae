//! The title block: the result of the sheet in a few rows.

use layshaft_layout::{ElementKind, Id, Layout};
use layshaft_report::{PositionReport, Report, State};

use crate::numbers::{self, RatioText};
use crate::summary::{output_shaft, pull, ratio_of, speed_of};
use crate::table::Cell;
use crate::wording::{limit_words, state_words};

/// The title block.
#[derive(Clone, Debug, PartialEq)]
pub struct TitleBlock {
    /// Name of the layout.
    pub title: String,
    /// Name of the position shown.
    pub position: String,
    /// Rows from top to bottom.
    pub rows: Vec<BlockRow>,
}

/// A row of the title block.
#[derive(Clone, Debug, PartialEq)]
pub struct BlockRow {
    /// What it is: `Overall ratio`.
    pub label: &'static str,
    /// Its value.
    pub value: Cell,
    /// A second form of it: the decimal beside the fraction, what limits beside the pull.
    pub also: String,
}

/// The title block of a layout at a position.
#[must_use]
pub fn title_block(layout: &Layout, report: &Report, position: &Id, hide_answers: bool) -> TitleBlock {
    let result = report.positions.iter().find(|result| result.id == *position);
    let mut rows = result.map_or_else(Vec::new, |result| rows(layout, result));
    if hide_answers {
        for row in &mut rows {
            row.value.hide();
            row.also.clear();
        }
    }
    TitleBlock {
        title: if layout.title.is_empty() {
            "Untitled".to_owned()
        } else {
            layout.title.clone()
        },
        position: result.map_or_else(String::new, |result| result.name.clone()),
        rows,
    }
}

fn rows(layout: &Layout, result: &PositionReport) -> Vec<BlockRow> {
    let output = output_shaft(layout).or_else(|| layout.shafts.last().map(|shaft| &shaft.id));
    let mut rows = Vec::new();
    if let Some(ratio) = output.and_then(|shaft| ratio_of(result, shaft)) {
        rows.push(ratio_row(&RatioText::new(ratio)));
    }
    if let Some(speed) = output.and_then(|shaft| speed_of(result, shaft)) {
        let line = result.elements.iter().find_map(|element| element.line_speed);
        rows.push(BlockRow {
            label: "Output speed",
            value: Cell::Number(numbers::rotation(speed)),
            also: line.map_or_else(String::new, |line| numbers::line_speed(line).text()),
        });
    }
    if let Some(stall) = &result.stall {
        rows.push(BlockRow {
            label: if stall.slope.is_some() { "Climbs" } else { "Pulls" },
            value: Cell::Number(pull(stall).1),
            also: format!("until {}", limit_words(stall.limit)),
        });
    }
    if let Some(share) = result.efficiency {
        rows.push(BlockRow {
            label: "Efficiency",
            value: Cell::Number(numbers::percent(share)),
            also: result.input_power.map_or_else(String::new, |power| {
                format!("of {}", numbers::power(power).text())
            }),
        });
    }
    // What has no source does not run: there is nothing to say of it.
    let driven = layout
        .elements
        .iter()
        .any(|element| matches!(element.kind, ElementKind::Motor(_) | ElementKind::Crank(_)));
    if driven || result.state != State::Runs {
        rows.push(BlockRow {
            label: "State",
            value: Cell::Text(state_words(result.state).to_owned()),
            also: String::new(),
        });
    }
    rows
}

fn ratio_row(ratio: &RatioText) -> BlockRow {
    let also = if ratio.denominator.is_none() {
        String::new()
    } else {
        ratio.decimal.clone()
    };
    BlockRow {
        label: "Overall ratio",
        value: Cell::Ratio(ratio.clone()),
        also,
    }
}
