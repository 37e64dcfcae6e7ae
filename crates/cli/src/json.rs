//! Results as JSON for programs: the names and signs that the file format fixes. Parts that do not apply are left out.

mod more;

use layshaft_editor::{Units, wording};
use layshaft_kinematics::Ratio;
use layshaft_layout::Layout;
use layshaft_report::{
    Bearings, ElementResult, Finding, Holding, OtherState, PositionReport, Report, ShaftResult, Stall,
    VehicleResult,
};
use serde_json::{Map, Value, json};

/// A report as JSON text.
pub fn solved(layout: &Layout, report: &Report) -> String {
    let text = serde_json::to_string_pretty(&solved_json(layout, report));
    text.expect("a JSON value can be written") + "\n"
}

/// A report as JSON.
pub fn solved_json(layout: &Layout, report: &Report) -> Value {
    let mut root = Map::new();
    root.insert("layshaft".into(), json!(1));
    root.insert("title".into(), json!(layout.title));
    put(
        &mut root,
        "drive",
        report.drive.as_ref().map(|drive| json!(drive.as_str())),
    );
    let positions = report
        .positions
        .iter()
        .map(|position| position_json(layout, report, position))
        .collect();
    root.insert("positions".into(), Value::Array(positions));
    if !report.shifting.is_empty() {
        root.insert(
            "shifting".into(),
            report.shifting.iter().map(more::shifting).collect(),
        );
    }
    root.insert(
        "findings".into(),
        findings_json(layout, report, &report.findings, true),
    );
    Value::Object(root)
}

fn put(map: &mut Map<String, Value>, name: &str, value: Option<Value>) {
    if let Some(value) = value {
        map.insert(name.into(), value);
    }
}

/// A number, left out where it is none; zero without a sign.
fn number(map: &mut Map<String, Value>, name: &str, value: Option<f64>) {
    put(
        map,
        name,
        value
            .filter(|value| value.is_finite())
            .map(|value| json!(value + 0.0)),
    );
}

/// One position of a report as JSON.
pub fn position_json(layout: &Layout, report: &Report, position: &PositionReport) -> Value {
    let mut map = Map::new();
    map.insert("id".into(), json!(position.id.as_str()));
    map.insert("name".into(), json!(position.name));
    map.insert("mobility".into(), json!(position.mobility));
    if !position.held.is_empty() {
        let held: Vec<&str> = position.held.iter().map(layshaft_layout::Id::as_str).collect();
        map.insert("held".into(), json!(held));
    }
    map.insert("state".into(), json!(position.state.code()));
    map.insert("shafts".into(), position.shafts.iter().map(shaft_json).collect());
    map.insert(
        "elements".into(),
        position.elements.iter().map(element_json).collect(),
    );
    number(&mut map, "efficiency", position.efficiency);
    number(
        &mut map,
        "input_w",
        position.input_power.map(|power| power.to_watts()),
    );
    number(
        &mut map,
        "output_w",
        position.output_power.map(|power| power.to_watts()),
    );
    put(&mut map, "stall", position.stall.as_ref().map(stall_json));
    put(&mut map, "start", position.start.as_ref().map(stall_json));
    put(&mut map, "holding", position.holding.map(holding_json));
    put(&mut map, "range", position.range.as_ref().map(more::range));
    if !position.others.is_empty() {
        map.insert(
            "other_states".into(),
            position.others.iter().map(other_json).collect(),
        );
    }
    if !position.loops.is_empty() {
        map.insert("loops".into(), position.loops.iter().map(loop_json).collect());
    }
    if !position.shares.is_empty() {
        let shares = position.shares.iter().map(|shares| more::shares(shares));
        map.insert("shares".into(), shares.collect());
    }
    put(&mut map, "vehicle", position.vehicle.as_ref().map(vehicle_json));
    if !position.findings.is_empty() {
        map.insert(
            "findings".into(),
            findings_json(layout, report, &position.findings, false),
        );
    }
    Value::Object(map)
}

/// A fraction in lowest terms, without its denominator where that is 1.
fn ratio_text(ratio: &Ratio) -> String {
    ratio.to_string()
}

fn shaft_json(shaft: &ShaftResult) -> Value {
    let mut map = Map::new();
    map.insert("id".into(), json!(shaft.id.as_str()));
    put(
        &mut map,
        "ratio",
        shaft.ratio.as_ref().map(|ratio| json!(ratio_text(ratio))),
    );
    if !shaft.of_sources.is_empty() {
        let parts = shaft.of_sources.iter();
        let parts: Map<String, Value> = parts
            .map(|(source, factor)| (source.as_str().to_owned(), json!(ratio_text(factor))))
            .collect();
        map.insert("of_sources".into(), Value::Object(parts));
    }
    if shaft.free {
        map.insert("free".into(), json!(true));
    }
    number(&mut map, "rpm", shaft.speed.map(|speed| speed.to_rpm()));
    number(
        &mut map,
        "torque_nm",
        shaft.torque.map(|torque| torque.to_newton_metres()),
    );
    let loss = shaft.loss.map(|loss| loss.to_watts()).filter(|loss| *loss > 0.0);
    number(&mut map, "loss_w", loss);
    if let Some(bearings) = shaft.bearings {
        let (word, relief) = match bearings {
            Bearings::Sum => ("sum", None),
            Bearings::Vector { relief } => ("vector", Some(relief)),
        };
        map.insert("bearing_forces".into(), json!(word));
        number(&mut map, "bearing_relief", relief);
    }
    Value::Object(map)
}

fn element_json(element: &ElementResult) -> Value {
    let mut map = Map::new();
    map.insert("id".into(), json!(element.id.as_str()));
    put(&mut map, "mode", element.mode.map(|mode| json!(mode.code())));
    if !element.ports.is_empty() {
        let ports = element.ports.iter().map(|port| {
            let mut map = Map::new();
            map.insert("shaft".into(), json!(port.shaft.as_str()));
            number(&mut map, "torque_nm", Some(port.torque.to_newton_metres()));
            number(&mut map, "power_w", Some(port.power.to_watts()));
            Value::Object(map)
        });
        map.insert("ports".into(), ports.collect());
    }
    number(&mut map, "loss_w", element.loss.map(|loss| loss.to_watts()));
    number(&mut map, "loss_share", element.loss_share);
    number(&mut map, "efficiency", element.efficiency);
    put(
        &mut map,
        "loss_model",
        element.loss_model.map(|model| json!(more::loss_model(model))),
    );
    put(
        &mut map,
        "loss_from",
        element.loss_model.and_then(more::loss_from),
    );
    number(&mut map, "split_within", element.split_within);
    number(
        &mut map,
        "tooth_limit_nm",
        element.tooth_limit.map(|limit| limit.to_newton_metres()),
    );
    number(&mut map, "rolling_times_output", element.rolling_times_output);
    number(
        &mut map,
        "electric_w",
        element.electric.map(|power| power.to_watts()),
    );
    number(
        &mut map,
        "current_a",
        element.current.map(|current| current.to_amperes()),
    );
    number(&mut map, "heat_w", element.heat.map(|power| power.to_watts()));
    number(&mut map, "battery_h", element.battery.map(|life| life.to_hours()));
    put(&mut map, "best", element.best.map(more::best));
    number(
        &mut map,
        "line_m_s",
        element.line_speed.map(|speed| speed.to_metres_per_s()),
    );
    Value::Object(map)
}

fn stall_json(stall: &Stall) -> Value {
    let mut map = Map::new();
    map.insert("load".into(), json!(stall.load.as_str()));
    number(&mut map, "pull_n", stall.pull.map(|pull| pull.to_newtons()));
    number(&mut map, "torque_nm", Some(stall.torque.to_newton_metres()));
    number(&mut map, "slope_deg", stall.slope.map(|slope| slope.to_degrees()));
    map.insert("limit".into(), json!(stall.limit.code()));
    put(
        &mut map,
        "element",
        stall.limiting.as_ref().map(|id| json!(id.as_str())),
    );
    Value::Object(map)
}

fn holding_json(holding: Holding) -> Value {
    let mut map = Map::new();
    map.insert("holds".into(), json!(holding.holds));
    number(
        &mut map,
        "needed_nm",
        holding.needed.map(|torque| torque.to_newton_metres()),
    );
    number(
        &mut map,
        "available_nm",
        Some(holding.available.to_newton_metres()),
    );
    Value::Object(map)
}

/// What stands otherwise, by element.
fn other_json(other: &OtherState) -> Value {
    let modes: Map<String, Value> = other
        .modes
        .iter()
        .map(|(id, mode)| (id.as_str().to_owned(), json!(mode.code())))
        .collect();
    json!({ "modes": modes })
}

fn loop_json(part: &layshaft_report::PowerLoop) -> Value {
    let mut map = Map::new();
    let elements: Vec<&str> = part.elements.iter().map(layshaft_layout::Id::as_str).collect();
    map.insert("elements".into(), json!(elements));
    number(&mut map, "power_w", Some(part.power.to_watts()));
    number(&mut map, "times_output", part.times_output);
    Value::Object(map)
}

fn vehicle_json(vehicle: &VehicleResult) -> Value {
    let mut map = Map::new();
    number(
        &mut map,
        "traction_deg",
        vehicle.traction.map(|angle| angle.to_degrees()),
    );
    number(
        &mut map,
        "tipping_deg",
        vehicle.tipping.map(|angle| angle.to_degrees()),
    );
    number(
        &mut map,
        "torque_deg",
        vehicle.torque.map(|angle| angle.to_degrees()),
    );
    number(
        &mut map,
        "top_speed_m_s",
        vehicle.top_speed.map(|speed| speed.to_metres_per_s()),
    );
    Value::Object(map)
}

fn findings_json(layout: &Layout, report: &Report, findings: &[Finding], with_position: bool) -> Value {
    let entry = |finding: &Finding| {
        let words = wording::finding(finding, layout, report, Units::default());
        let mut map = Map::new();
        map.insert("code".into(), json!(finding.kind.code()));
        if with_position {
            put(
                &mut map,
                "position",
                finding.position.as_ref().map(|position| json!(position.as_str())),
            );
        }
        let elements = finding.kind.elements();
        let elements: Vec<&str> = elements.into_iter().map(layshaft_layout::Id::as_str).collect();
        map.insert("elements".into(), json!(elements));
        map.insert(
            "text".into(),
            json!(format!("{}. {}", words.headline, words.detail)),
        );
        Value::Object(map)
    };
    findings.iter().map(entry).collect()
}
