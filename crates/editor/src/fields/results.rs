//! Results of one thing in the current position, as rows.

use layshaft_layout::{Group, Id, Layout};
use layshaft_quantity::{Power, Torque};
use layshaft_report::PositionReport;

use super::{ResultRow, ResultValue};
use crate::numbers::{self, Measure, RatioText};
use crate::units::Units;
use crate::wording;

fn row(label: impl Into<String>, value: ResultValue) -> ResultRow {
    ResultRow {
        label: label.into(),
        value,
    }
}

fn number(label: impl Into<String>, measure: Measure) -> ResultRow {
    row(label, ResultValue::Number(measure))
}

/// Results of a shaft.
pub fn of_shaft(position: Option<&PositionReport>, id: &Id, units: Units) -> Vec<ResultRow> {
    let Some(result) = position.and_then(|position| position.shafts.iter().find(|result| result.id == *id))
    else {
        return Vec::new();
    };
    let mut rows = Vec::new();
    rows.extend(
        result
            .ratio
            .as_ref()
            .map(|ratio| row("Ratio", ResultValue::Ratio(RatioText::new(ratio)))),
    );
    if !result.of_sources.is_empty() {
        let parts: Vec<String> = result
            .of_sources
            .iter()
            .map(|(source, factor)| format!("{} × {source}", RatioText::new(factor).exact()))
            .collect();
        rows.push(row("Speed is the sum of", ResultValue::Text(parts.join(", "))));
    }
    if result.unreached {
        rows.push(row(
            "Speed",
            ResultValue::Text("not joined to the drive".to_owned()),
        ));
    } else if result.free && result.speed.is_none() {
        rows.push(row("Speed", ResultValue::Text("free".to_owned())));
    }
    rows.extend(result.speed.map(|speed| number("Speed", units.rotation(speed))));
    rows.extend(
        result
            .torque
            .map(|torque| number("Hands through", units.torque(torque))),
    );
    rows.extend(
        result
            .loss
            .filter(some_power)
            .map(|loss| number("Lost in its bearings", numbers::power(loss))),
    );
    rows.extend(result.bearings.map(|bearings| {
        row(
            "Forces on bearings",
            ResultValue::Text(wording::bearing_words(bearings)),
        )
    }));
    rows
}

/// What becomes heat in the elements of a group and in the bearings of its shafts; none where nothing does.
pub fn loss_of_group(position: &PositionReport, layout: &Layout, group: &Group) -> Option<Power> {
    let elements = position.elements.iter();
    let in_elements = elements
        .filter(|result| group.holds(&result.id) && layout.element(&result.id).is_some())
        .filter_map(|result| result.loss);
    let shafts = position.shafts.iter();
    let in_shafts = shafts
        .filter(|result| group.holds(&result.id) && layout.shaft(&result.id).is_some())
        .filter_map(|result| result.loss);
    Some(in_elements.chain(in_shafts).sum()).filter(some_power)
}

/// Results of a group.
pub fn of_group(position: Option<&PositionReport>, layout: &Layout, group: &Group) -> Vec<ResultRow> {
    let Some(position) = position else {
        return Vec::new();
    };
    let loss = loss_of_group(position, layout, group);
    let heat = loss.map(|loss| number("Becomes heat", numbers::power(loss)));
    let loops = position.loops.iter();
    let round = loops
        .filter(|power_loop| power_loop.elements.iter().any(|id| group.holds(id)))
        .map(|power_loop| number("Only goes round", numbers::power(power_loop.power)));
    heat.into_iter().chain(round).collect()
}

fn some_power(power: &Power) -> bool {
    power.abs() > Power::watts(1e-12)
}

/// Results of an element.
pub fn of_element(position: Option<&PositionReport>, id: &Id, units: Units) -> Vec<ResultRow> {
    let Some(result) = position.and_then(|position| position.elements.iter().find(|result| result.id == *id))
    else {
        return Vec::new();
    };
    let mut rows = Vec::new();
    if let Some(mode) = result.mode {
        let words = wording::mode_words(mode);
        rows.push(row("In this position", ResultValue::Text(words.to_owned())));
    }
    for port in &result.ports {
        rows.push(row(
            format!("At {}", port.shaft),
            ResultValue::Text(port_text(port.torque, port.power, units)),
        ));
    }
    rows.extend(
        result
            .loss
            .filter(some_power)
            .map(|loss| number("Becomes heat", numbers::power(loss))),
    );
    rows.extend(
        result
            .loss_share
            .filter(|share| *share > 1e-9)
            .map(|share| number("Share of all loss", numbers::percent(share))),
    );
    rows.extend(
        result
            .efficiency
            .map(|share| number("Efficiency", numbers::percent(share))),
    );
    rows.extend(
        result
            .loss_model
            .as_ref()
            .map(wording::loss_words)
            .map(|text| row("Loss from", ResultValue::Text(text))),
    );
    rows.extend(
        result
            .electric
            .map(|power| number("Electric power", numbers::power(power))),
    );
    rows.extend(
        result
            .current
            .map(|current| number("Current", numbers::current(current))),
    );
    rows.extend(
        result
            .heat
            .map(|heat| number("Heat in the motor", numbers::power(heat))),
    );
    rows.extend(result.best.map(|best| {
        let text = format!(
            "{}, {}: {}",
            units.torque(best.torque.abs()).text(),
            units.rotation(best.speed.abs()).text(),
            numbers::percent(best.efficiency).text()
        );
        row("Runs best at", ResultValue::Text(text))
    }));
    rows.extend(
        result
            .battery
            .map(|life| row("Battery lasts", ResultValue::Text(wording::duration(life)))),
    );
    rows.extend(
        result
            .tooth_limit
            .map(|limit| number("Teeth bear", units.torque(limit))),
    );
    rows.extend(
        result
            .split_within
            .map(|share| number("Its split is known within", numbers::percent(share))),
    );
    rows.extend(result.rolling_times_output.map(|multiple| {
        row(
            "Rolling power",
            ResultValue::Text(format!("{} the output", numbers::times(multiple))),
        )
    }));
    rows.extend(
        result
            .line_speed
            .map(|speed| number("Line speed", numbers::line_speed(speed))),
    );
    rows
}

/// What goes through one end, told by its direction instead of a sign.
fn port_text(torque: Torque, power: Power, units: Units) -> String {
    let torque_text = units.torque(torque.abs()).text();
    let power_text = numbers::power(power.abs()).text();
    if !some_power(&power) {
        format!("{torque_text}, no power")
    } else if power > Power::ZERO {
        format!("{torque_text}, takes {power_text}")
    } else {
        format!("{torque_text}, gives {power_text}")
    }
}
