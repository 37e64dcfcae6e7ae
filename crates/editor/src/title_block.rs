//! The title block: the result of the sheet in a few rows.

use layshaft_layout::{ElementKind, Id, Layout};
use layshaft_quantity::Power;
use layshaft_report::{Holding, PositionReport, Report, Stall, State};

use crate::numbers::{self, RatioText};
use crate::summary::{limit_of, output_shaft, pull, ratio_of, speed_of};
use crate::table::Cell;
use crate::units::Units;
use crate::wording::{duration, state_words};

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

/// What is read first, where there is room for a few results only.
const CHIEF: [&str; 5] = ["Overall ratio", "Output speed", "Climbs", "Pulls", "Efficiency"];

impl BlockRow {
    /// Whether it is among the few results that a small screen shows: ratio, speed, pull, efficiency, and the state
    /// where it is not simply that the layout runs.
    #[must_use]
    pub fn is_chief(&self) -> bool {
        let runs = Cell::Text(state_words(State::Runs).to_owned());
        CHIEF.contains(&self.label) || self.label == "State" && self.value != runs
    }
}

/// The title block of a layout at a position.
#[must_use]
pub fn title_block(
    layout: &Layout,
    report: &Report,
    position: &Id,
    hide_answers: bool,
    units: Units,
) -> TitleBlock {
    let result = report.positions.iter().find(|result| result.id == *position);
    let mut rows = result.map_or_else(Vec::new, |result| rows(layout, result, units));
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

fn rows(layout: &Layout, result: &PositionReport, units: Units) -> Vec<BlockRow> {
    let output = output_shaft(layout).or_else(|| layout.shafts.last().map(|shaft| &shaft.id));
    let mut rows = Vec::new();
    if let Some(ratio) = output.and_then(|shaft| ratio_of(result, shaft)) {
        rows.push(ratio_row(&RatioText::new(ratio)));
    }
    if let Some(speed) = output.and_then(|shaft| speed_of(result, shaft)) {
        let line = result.elements.iter().find_map(|element| element.line_speed);
        rows.push(BlockRow {
            label: "Output speed",
            value: Cell::Number(units.rotation(speed)),
            also: line.map_or_else(String::new, |line| numbers::line_speed(line).text()),
        });
    }
    let until = |stall: &Stall| format!("until {}", limit_of(stall));
    rows.extend(result.stall.as_ref().map(|stall| BlockRow {
        label: if stall.slope.is_some() { "Climbs" } else { "Pulls" },
        value: Cell::Number(pull(stall, units).1),
        also: until(stall),
    }));
    rows.extend(result.start.as_ref().map(|start| {
        BlockRow {
            label: "From rest",
            value: Cell::Number(pull(start, units).1),
            // What ends both is said once.
            also: Some(until(start))
                .filter(|words| result.stall.as_ref().map(until).as_ref() != Some(words))
                .unwrap_or_default(),
        }
    }));
    rows.extend(result.holding.as_ref().map(|holding| holding_row(holding, units)));
    rows.extend(motor_rows(layout, result));
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

/// How long the first motor's battery lasts, and its heat where its limit is known.
fn motor_rows(layout: &Layout, result: &PositionReport) -> Vec<BlockRow> {
    let mut elements = layout.elements.iter().zip(&result.elements);
    let first = elements.find_map(|(element, found)| match &element.kind {
        ElementKind::Motor(motor) => Some((motor, found)),
        _ => None,
    });
    let Some((motor, found)) = first else {
        return Vec::new();
    };
    let battery = found.battery.map(|life| BlockRow {
        label: "Battery lasts",
        value: Cell::Text(duration(life)),
        also: String::new(),
    });
    let heat = found.heat.zip(motor.heat_limit_w.map(Power::watts));
    let heat = heat.map(|(heat, limit)| {
        let bears = numbers::power(limit).text();
        BlockRow {
            label: "Heat",
            value: Cell::Number(numbers::power(heat)),
            also: if heat > limit {
                format!("over the {bears} it stands")
            } else {
                format!("stands {bears}")
            },
        }
    });
    battery.into_iter().chain(heat).collect()
}

/// What becomes of the load when the motor is switched off.
fn holding_row(holding: &Holding, units: Units) -> BlockRow {
    let also = match holding.needed {
        Some(needed) if !holding.holds => format!("{} would hold", units.torque(needed).text()),
        _ => String::new(),
    };
    BlockRow {
        label: "Motor off",
        value: Cell::Text(if holding.holds { "it holds" } else { "it runs back" }.to_owned()),
        also,
    }
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
