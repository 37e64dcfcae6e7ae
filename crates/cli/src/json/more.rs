//! Parts of a report that only some layouts have: ranges of friction, parallel paths, torque switches, losses in detail.

use layshaft_editor::wording::standing_words;
use layshaft_report::{BestPoint, LossModel, Materials, PathShare, Range, Shifting};
use serde_json::{Map, Value, json};

use super::{number, put};

/// The model behind a loss by its word.
pub fn loss_model(model: LossModel) -> &'static str {
    match model {
        LossModel::NotGiven => "not-given",
        LossModel::Efficiency(_) => "efficiency",
        LossModel::ToothFriction { meshes: 0, .. } => "planet-pins",
        LossModel::ToothFriction {
            integrated: false, ..
        } => "tooth-friction-polynomial",
        LossModel::ToothFriction { integrated: true, .. } => "tooth-friction-integral",
        LossModel::WormFriction { collar: None, .. } => "worm-friction",
        LossModel::WormFriction { collar: Some(_), .. } => "worm-friction-collar",
    }
}

/// What the model was computed from; none where its word says all.
pub fn loss_from(model: LossModel) -> Option<Value> {
    let mut map = Map::new();
    match model {
        LossModel::NotGiven => return None,
        LossModel::Efficiency(efficiency) => number(&mut map, "efficiency", Some(efficiency)),
        LossModel::ToothFriction {
            friction,
            loss_factor,
            efficiency,
            undercut,
            meshes,
            pins,
            materials,
            ..
        } => {
            if meshes > 0 {
                number(&mut map, "friction", Some(friction));
                number(&mut map, "loss_factor", Some(loss_factor));
                map.insert("meshes".into(), json!(meshes));
            }
            number(&mut map, "efficiency", Some(efficiency));
            number(&mut map, "pins", Some(pins).filter(|pins| *pins < 1.0));
            if undercut {
                map.insert("undercut".into(), json!(true));
            }
            put(&mut map, "materials", materials.map(materials_json));
        }
        LossModel::WormFriction {
            driving,
            back,
            collar,
        } => {
            number(&mut map, "driving", Some(driving));
            number(&mut map, "back", Some(back));
            number(&mut map, "collar", collar);
        }
    }
    Some(Value::Object(map))
}

fn materials_json(materials: Materials) -> Value {
    let mut map = Map::new();
    map.insert("pair".into(), json!(materials.pair.name));
    map.insert("by_default".into(), json!(materials.by_default));
    map.insert("friction".into(), json!(materials.pair.friction));
    map.insert("efficiency".into(), json!(materials.efficiency));
    map.insert("standing".into(), json!(standing_words(materials.pair.standing)));
    map.insert("source".into(), json!(materials.pair.source));
    Value::Object(map)
}

pub fn best(best: BestPoint) -> Value {
    let mut map = Map::new();
    number(&mut map, "rpm", Some(best.speed.to_rpm()));
    number(&mut map, "torque_nm", Some(best.torque.to_newton_metres()));
    number(&mut map, "current_a", Some(best.current.to_amperes()));
    number(&mut map, "efficiency", Some(best.efficiency));
    Value::Object(map)
}

pub fn range(range: &Range) -> Value {
    let mut map = Map::new();
    let mut both = |name: &str, ends: Option<[f64; 2]>| {
        let finite = ends.filter(|ends| ends.iter().all(|end| end.is_finite()));
        put(&mut map, name, finite.map(|ends| json!(ends)));
    };
    both("efficiency", range.efficiency);
    both(
        "pull_n",
        range.pull.map(|ends| ends.map(|pull| pull.to_newtons())),
    );
    both(
        "torque_nm",
        range
            .torque
            .map(|ends| ends.map(|torque| torque.to_newton_metres())),
    );
    both(
        "slope_deg",
        range.slope.map(|ends| ends.map(|slope| slope.to_degrees())),
    );
    map.insert("states".into(), json!(range.states.map(|state| state.code())));
    Value::Object(map)
}

pub fn shares(shares: &[PathShare]) -> Value {
    let entry = |share: &PathShare| {
        json!({
            "id": share.element.as_str(),
            "shaft": share.shaft.as_str(),
            "torque_nm": share.torque.to_newton_metres() + 0.0,
            "range_nm": share.range.map(|torque| torque.to_newton_metres() + 0.0),
        })
    };
    json!({ "elements": shares.iter().map(entry).collect::<Vec<_>>() })
}

pub fn shifting(shifts: &Shifting) -> Value {
    let mut map = Map::new();
    map.insert("switch".into(), json!(shifts.switch.as_str()));
    map.insert("from".into(), json!(shifts.from.as_str()));
    map.insert("to".into(), json!(shifts.to.as_str()));
    map.insert("unit".into(), json!(shifts.unit.code()));
    number(&mut map, "up_at", shifts.up_at);
    number(&mut map, "back_at", shifts.back_at);
    put(&mut map, "hunting", shifts.hunting.map(|loads| json!(loads)));
    put(&mut map, "stalls", shifts.stalls.map(|loads| json!(loads)));
    Value::Object(map)
}
