//! What a position can pull, start and hold, and when it shifts, as lines of text.

use layshaft_layout::{Id, Layout};
use layshaft_report::{PositionReport, Range, Report, Shifting, Stall};

use super::{Context, drives, limit_words};
use crate::numbers;
use crate::summary::pull;
use crate::units::Units;

/// A line each for the pull to keep moving, the pull to start, holding with the motor off, the range by friction, and a
/// vehicle's slopes, as far as there are such.
#[must_use]
pub fn reach_words(position: &PositionReport, units: Units) -> Vec<String> {
    let mut lines = Vec::new();
    lines.extend(
        position
            .stall
            .as_ref()
            .map(|stall| before("Keeps moving", stall, units)),
    );
    lines.extend(
        position
            .start
            .as_ref()
            .map(|start| before("Starts", start, units)),
    );
    lines.extend(position.holding.map(|holding| {
        let held = if holding.holds { "stays" } else { "runs back" };
        match holding.needed {
            Some(needed) if needed.to_newton_metres() < 0.0 => {
                format!("With the motor off the load {held}: it would have to be driven down")
            }
            Some(needed) => format!(
                "With the motor off the load {held}: holding takes {}, the motor's friction holds {}",
                units.torque(needed).text(),
                units.torque(holding.available).text()
            ),
            None => format!("With the motor off the load {held}"),
        }
    }));
    lines.extend(
        position
            .range
            .as_ref()
            .and_then(|range| range_words(range, units)),
    );
    if let Some(vehicle) = &position.vehicle {
        let slope = |angle: Option<_>, limit: &str| {
            angle.map(|angle| format!("{} by {limit}", numbers::angle(angle).text()))
        };
        let slopes: Vec<String> = [
            slope(vehicle.torque, "torque"),
            slope(vehicle.traction, "grip"),
            slope(vehicle.tipping, "tipping"),
        ]
        .into_iter()
        .flatten()
        .collect();
        if !slopes.is_empty() {
            lines.push(format!("Steepest slope: {}", slopes.join(", ")));
        }
        lines.extend(
            vehicle
                .top_speed
                .map(|speed| format!("On the level {}", numbers::line_speed(speed).text())),
        );
    }
    lines
}

fn before(what: &str, stall: &Stall, units: Units) -> String {
    let (_, measure) = pull(stall, units);
    let element = stall
        .limiting
        .as_ref()
        .map_or_else(String::new, |id| format!(" ({id})"));
    format!(
        "{what} up to {}, then {}{element}",
        measure.text(),
        limit_words(stall.limit)
    )
}

/// What the friction of materials leaves open.
#[must_use]
pub fn range_words(range: &Range, units: Units) -> Option<String> {
    let between = |[low, high]: [String; 2]| format!("{low} to {high}");
    let mut parts = Vec::new();
    parts.extend(range.efficiency.map(|ends| {
        let ends = ends.map(|share| numbers::percent(share).text());
        format!("efficiency {}", between(ends))
    }));
    let reach = match (range.slope, range.pull, range.torque) {
        (Some(slope), ..) => Some(slope.map(|slope| numbers::angle(slope).text())),
        (None, Some(pull), _) => Some(pull.map(|pull| units.force(pull.abs()).text())),
        (None, None, Some(torque)) => Some(torque.map(|torque| units.torque(torque.abs()).text())),
        (None, None, None) => None,
    };
    parts.extend(reach.map(|ends| format!("keeps moving up to {}", between(ends))));
    if range.states[0] != range.states[1] {
        let [least, most] = range.states.map(super::state_words);
        parts.push(format!("{least} with the least friction, {most} with the most"));
    }
    (!parts.is_empty()).then(|| format!("By the friction of its materials: {}", parts.join(", ")))
}

/// When a torque switch shifts: a line for each thing it does.
#[must_use]
pub fn shifting_words(layout: &Layout, report: &Report, shifts: &Shifting, units: Units) -> Vec<String> {
    let at = Context {
        layout,
        report,
        position: None,
        units,
    };
    let load = |value| drives::load(at, value, shifts.unit);
    let name = |id: &Id| at.position_name(id);
    let up = match shifts.up_at {
        Some(up) => format!(
            "shifts from {} to {} at {}",
            name(&shifts.from),
            name(&shifts.to),
            load(up)
        ),
        None => format!("never shifts from {}", name(&shifts.from)),
    };
    let back = match shifts.back_at {
        Some(back) => format!("back at {}", load(back)),
        None => "never back".to_owned(),
    };
    let mut lines = vec![format!("{} {up}, {back}", shifts.switch)];
    let band = |[low, high]: [f64; 2]| format!("{} to {}", load(low), load(high));
    lines.extend(
        shifts
            .hunting
            .map(|loads| format!("  hunts from {}", band(loads))),
    );
    lines.extend(
        shifts
            .stalls
            .map(|loads| format!("  shifts and stalls from {}", band(loads))),
    );
    lines
}
