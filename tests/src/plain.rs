//! A report as plain JSON under the names of the file format, so that expectations can be written as data.
//!
//! This is not the command line's printer: that one is tested against this one. Here stands only what tests ask for.

use layshaft_layout::Id;
use layshaft_report::{ElementResult, FindingKind, PositionReport, Report, ShaftResult};
use serde_json::{Map, Value, json};

/// A report under the names of the file format.
#[must_use]
pub fn plain(report: &Report) -> Value {
    let positions: Vec<Value> = report
        .positions
        .iter()
        .map(|position| plain_position(position))
        .collect();
    let shifting: Vec<Value> = report.shifting.iter().map(plain_shifting).collect();
    json!({ "positions": positions, "shifting": shifting })
}

fn plain_shifting(shifting: &layshaft_report::Shifting) -> Value {
    let mut map = Map::new();
    put(&mut map, "switch", Some(shifting.switch.as_str()));
    put(&mut map, "up_at", shifting.up_at);
    put(&mut map, "back_at", shifting.back_at);
    put(&mut map, "hunting", shifting.hunting.map(|loads| loads.to_vec()));
    put(&mut map, "stalls", shifting.stalls.map(|loads| loads.to_vec()));
    Value::Object(map)
}

fn put(map: &mut Map<String, Value>, name: &str, value: Option<impl Into<Value>>) {
    if let Some(value) = value {
        map.insert(name.into(), value.into());
    }
}

fn plain_position(position: &PositionReport) -> Value {
    let mut map = Map::new();
    put(&mut map, "id", Some(position.id.as_str()));
    put(&mut map, "mobility", Some(position.mobility));
    let held: Vec<Value> = position.held.iter().map(|id| json!(id.as_str())).collect();
    put(&mut map, "held", (!held.is_empty()).then_some(held));
    put(&mut map, "state", Some(position.state.code()));
    put(
        &mut map,
        "shafts",
        Some(position.shafts.iter().map(plain_shaft).collect::<Vec<_>>()),
    );
    put(
        &mut map,
        "elements",
        Some(position.elements.iter().map(plain_element).collect::<Vec<_>>()),
    );
    put(&mut map, "efficiency", position.efficiency);
    put(&mut map, "stall", position.stall.as_ref().map(plain_stall));
    let loops: Vec<Value> = position.loops.iter().map(plain_loop).collect();
    put(&mut map, "loops", (!loops.is_empty()).then_some(loops));
    put(&mut map, "vehicle", position.vehicle.as_ref().map(plain_vehicle));
    let findings: Vec<Value> = position
        .findings
        .iter()
        .map(|finding| plain_finding(&finding.kind))
        .collect();
    put(&mut map, "findings", Some(findings));
    Value::Object(map)
}

fn plain_shaft(shaft: &ShaftResult) -> Value {
    let mut map = Map::new();
    put(&mut map, "id", Some(shaft.id.as_str()));
    put(&mut map, "ratio", shaft.ratio.as_ref().map(ToString::to_string));
    put(&mut map, "free", shaft.free.then_some(true));
    put(&mut map, "rpm", shaft.speed.map(|speed| speed.to_rpm()));
    put(
        &mut map,
        "torque_nm",
        shaft.torque.map(|torque| torque.to_newton_metres()),
    );
    put(&mut map, "loss_w", shaft.loss.map(|loss| loss.to_watts()));
    Value::Object(map)
}

fn plain_element(element: &ElementResult) -> Value {
    let mut map = Map::new();
    put(&mut map, "id", Some(element.id.as_str()));
    put(&mut map, "mode", element.mode.map(|mode| mode.code()));
    let ports: Vec<Value> = element
        .ports
        .iter()
        .map(|port| {
            json!({
                "shaft": port.shaft.as_str(),
                "torque_nm": port.torque.to_newton_metres(),
                "power_w": port.power.to_watts(),
            })
        })
        .collect();
    put(&mut map, "ports", (!ports.is_empty()).then_some(ports));
    put(&mut map, "loss_w", element.loss.map(|loss| loss.to_watts()));
    put(&mut map, "efficiency", element.efficiency);
    put(&mut map, "rolling_times_output", element.rolling_times_output);
    put(
        &mut map,
        "electric_w",
        element.electric.map(|power| power.to_watts()),
    );
    put(
        &mut map,
        "current_a",
        element.current.map(|current| current.to_amperes()),
    );
    put(&mut map, "heat_w", element.heat.map(|power| power.to_watts()));
    Value::Object(map)
}

fn plain_stall(stall: &layshaft_report::Stall) -> Value {
    let mut map = Map::new();
    put(&mut map, "load", Some(stall.load.as_str()));
    put(&mut map, "pull_n", stall.pull.map(|pull| pull.to_newtons()));
    put(&mut map, "torque_nm", Some(stall.torque.to_newton_metres()));
    put(&mut map, "slope_deg", stall.slope.map(|slope| slope.to_degrees()));
    put(&mut map, "limit", Some(stall.limit.code()));
    Value::Object(map)
}

fn plain_loop(part: &layshaft_report::PowerLoop) -> Value {
    let elements: Vec<&str> = part.elements.iter().map(Id::as_str).collect();
    let mut map = Map::new();
    put(&mut map, "elements", Some(elements));
    put(&mut map, "power_w", Some(part.power.to_watts()));
    put(&mut map, "times_output", part.times_output);
    Value::Object(map)
}

/// The code, and the elements where the finding is about several.
fn plain_finding(kind: &FindingKind) -> Value {
    let mut map = Map::new();
    put(&mut map, "code", Some(kind.code()));
    let elements = match kind {
        FindingKind::JammedLoop { elements, .. }
        | FindingKind::JammedBrakes { elements }
        | FindingKind::Undetermined { elements, .. }
        | FindingKind::Ambiguous { elements, .. }
        | FindingKind::SelfLocking { elements, .. }
        | FindingKind::CirculatingPower { elements, .. }
        | FindingKind::RedundantLoop { elements, .. } => Some(elements),
        _ => None,
    };
    put(
        &mut map,
        "elements",
        elements.map(|ids| ids.iter().map(Id::as_str).collect::<Vec<_>>()),
    );
    Value::Object(map)
}

fn plain_vehicle(vehicle: &layshaft_report::VehicleResult) -> Value {
    let mut map = Map::new();
    put(
        &mut map,
        "traction_deg",
        vehicle.traction.map(|angle| angle.to_degrees()),
    );
    put(
        &mut map,
        "tipping_deg",
        vehicle.tipping.map(|angle| angle.to_degrees()),
    );
    put(
        &mut map,
        "torque_deg",
        vehicle.torque.map(|angle| angle.to_degrees()),
    );
    put(
        &mut map,
        "top_speed_m_s",
        vehicle.top_speed.map(|speed| speed.to_metres_per_s()),
    );
    Value::Object(map)
}
