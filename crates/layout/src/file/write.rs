//! From the document to JSON objects, leaving out what the table has as default.

use serde_json::{Map, Number, Value, json};

use super::fields::Table;
use super::kinds::kind_named;
use super::tables::{POSITION, SHAFT};
use crate::document::*;

/// A number in its shortest form: whole numbers without a point.
pub(crate) fn number(number: f64) -> Value {
    // Up to here whole doubles print the same digits with or without a point; larger ones read better with exponent.
    const MOST_PLAIN: f64 = 1e15;
    if number.fract() == 0.0 && number.abs() < MOST_PLAIN {
        #[expect(clippy::cast_possible_truncation, reason = "whole and below 2^53")]
        return Value::from(number as i64);
    }
    Number::from_f64(number).map_or(Value::Null, Value::Number)
}

/// A shaft's object.
pub(crate) fn shaft(shaft: &Shaft) -> Map<String, Value> {
    let mut object = Writer::new(&SHAFT);
    object.id("id", &shaft.id);
    object.put("at", place(shaft.at));
    object.number("drag_nm", shaft.drag_nm);
    object.number("viscous_nms", shaft.viscous_nms);
    object.number("inertia_kgm2", shaft.inertia_kgm2);
    object.number("journal_friction", shaft.journal_friction);
    object.number("journal_radius_mm", shaft.journal_radius_mm);
    object.number("overhang", shaft.overhang);
    object.map
}

/// A position's object.
pub(crate) fn position(position: &Position) -> Map<String, Value> {
    let mut object = Writer::new(&POSITION);
    object.id("id", &position.id);
    if position.name != position.id.as_str() {
        object.put("name", Value::from(position.name.as_str()));
    }
    object.put("engaged", names(&position.engaged));
    object.map
}

/// An element's object.
pub(crate) fn element(element: &Element) -> Map<String, Value> {
    let word = element.kind.word();
    let table = kind_named(word).and_then(|kind| kind.table);
    let mut object = Writer::new(table.expect("every kind of the document is in the table"));
    object.id("id", &element.id);
    object.put("kind", Value::from(word));
    kind(&mut object, &element.kind);
    if let Some(at) = element.at {
        object.put("at", place(at));
    }
    object.map
}

/// An object that is being written.
struct Writer {
    map: Map<String, Value>,
    table: &'static Table,
}

impl Writer {
    fn new(table: &'static Table) -> Self {
        Self {
            map: Map::new(),
            table,
        }
    }

    /// Writes a field unless it holds its default.
    fn put(&mut self, name: &'static str, value: Value) {
        let default = self
            .table
            .field(name)
            .and_then(|field| field.need.default_value());
        if default.as_ref() != Some(&value) {
            self.map.insert(name.to_owned(), value);
        }
    }

    fn id(&mut self, name: &'static str, id: &Id) {
        self.put(name, Value::from(id.as_str()));
    }

    fn number(&mut self, name: &'static str, value: f64) {
        self.put(name, number(value));
    }

    fn maybe(&mut self, name: &'static str, value: Option<f64>) {
        if let Some(value) = value {
            self.number(name, value);
        }
    }
}

fn place(at: [f64; 2]) -> Value {
    Value::from(at.map(number).to_vec())
}

fn names(ids: &[Id]) -> Value {
    ids.iter().map(Id::as_str).collect()
}

fn kind(object: &mut Writer, kind: &ElementKind) {
    match kind {
        ElementKind::Mesh(it) => mesh(object, it),
        ElementKind::Chain(it) => {
            object.id("a", &it.a);
            object.id("b", &it.b);
            object.put("teeth", json!(it.teeth));
            object.maybe("efficiency", it.efficiency);
        }
        ElementKind::Belt(it) => belt(object, it),
        ElementKind::Worm(it) => worm(object, it),
        ElementKind::Differential(it) => {
            object.put("sides", names(&it.sides));
            object.id("carrier", &it.carrier);
            object.maybe("efficiency", it.efficiency);
        }
        ElementKind::Planetary(it) => planetary(object, it),
        ElementKind::Stepped(it) => stepped(object, it),
        ElementKind::Clutch(it) => {
            object.id("a", &it.a);
            object.id("b", &it.b);
        }
        ElementKind::Brake(it) => object.id("shaft", &it.shaft),
        ElementKind::Motor(it) => motor(object, it),
        ElementKind::Crank(it) => {
            object.id("shaft", &it.shaft);
            object.number("speed_rpm", it.speed_rpm);
            object.maybe("limit_nm", it.limit_nm);
        }
        ElementKind::Load(it) => load(object, it),
        ElementKind::Vehicle(it) => vehicle(object, it),
        ElementKind::Winch(it) => winch(object, it),
    }
}

fn mesh(object: &mut Writer, mesh: &Mesh) {
    object.id("a", &mesh.a);
    object.id("b", &mesh.b);
    object.put("teeth", json!(mesh.teeth));
    object.put("form", Value::from(mesh.form.word()));
    if mesh.form == MeshForm::Bevel && mesh.sense != Sense::default() {
        object.put("sense", Value::from(mesh.sense.word()));
    }
    match mesh.loss {
        MeshLoss::NotGiven => {}
        MeshLoss::Efficiency(efficiency) => object.number("efficiency", efficiency),
        MeshLoss::Friction(friction) => object.number("friction", friction),
    }
    object.maybe("module_mm", mesh.module_mm);
    object.number("pressure_angle_deg", mesh.pressure_angle_deg);
}

fn belt(object: &mut Writer, belt: &Belt) {
    object.id("a", &belt.a);
    object.id("b", &belt.b);
    object.put("diameters_mm", place(belt.diameters_mm));
    object.put("crossed", Value::Bool(belt.crossed));
    object.maybe("efficiency", belt.efficiency);
}

fn worm(object: &mut Writer, worm: &Worm) {
    object.id("worm", &worm.worm);
    object.id("wheel", &worm.wheel);
    object.put("starts", Value::from(worm.starts));
    object.put("teeth", Value::from(worm.teeth));
    object.put("hand", Value::from(worm.hand.word()));
    object.number("lead_angle_deg", worm.lead_angle_deg);
    object.number("friction", worm.friction);
    object.number("pressure_angle_deg", worm.pressure_angle_deg);
}

fn planetary(object: &mut Writer, set: &Planetary) {
    object.id("sun", &set.sun);
    object.id("ring", &set.ring);
    object.id("carrier", &set.carrier);
    object.put("teeth", json!({ "sun": set.sun_teeth, "ring": set.ring_teeth }));
    object.put("planets", Value::from(set.planets.word()));
    object.maybe("efficiency", set.efficiency);
    object.maybe("count", set.count.map(f64::from));
}

fn stepped(object: &mut Writer, set: &Stepped) {
    object.id("first", &set.first);
    object.id("second", &set.second);
    object.id("carrier", &set.carrier);
    match &set.ratio {
        SteppedRatio::Basic(ratio) => object.put("basic_ratio", json!(ratio)),
        SteppedRatio::Teeth {
            first,
            second,
            first_is_ring,
            second_is_ring,
        } => {
            object.put("teeth", json!([first, second]));
            let rings = [("first", *first_is_ring), ("second", *second_is_ring)];
            object.put(
                "rings",
                rings
                    .iter()
                    .filter(|(_, is_ring)| *is_ring)
                    .map(|(name, _)| *name)
                    .collect(),
            );
        }
    }
    object.maybe("efficiency", set.efficiency);
}

fn motor(object: &mut Writer, motor: &Motor) {
    object.id("shaft", &motor.shaft);
    object.number("nominal_v", motor.nominal_v);
    object.number("no_load_rpm", motor.no_load_rpm);
    object.number("no_load_a", motor.no_load_a);
    object.number("stall_nm", motor.stall_nm);
    object.number("stall_a", motor.stall_a);
    object.maybe("supply_v", motor.supply_v);
    object.number("supply_ohm", motor.supply_ohm);
}

fn load(object: &mut Writer, load: &Load) {
    object.id("shaft", &load.shaft);
    object.number("torque_nm", load.torque_nm);
    object.number("viscous_nms", load.viscous_nms);
    object.number("fan_nms2", load.fan_nms2);
    object.number("inertia_kgm2", load.inertia_kgm2);
}

fn vehicle(object: &mut Writer, vehicle: &Vehicle) {
    object.put("shafts", names(&vehicle.shafts));
    object.number("wheel_mm", vehicle.wheel_mm);
    object.number("mass_kg", vehicle.mass_kg);
    object.number("rolling", vehicle.rolling);
    object.number("slope_deg", vehicle.slope_deg);
    object.maybe("tyre_friction", vehicle.tyre_friction);
    object.maybe("wheelbase_mm", vehicle.wheelbase_mm);
    object.maybe("cg_height_mm", vehicle.cg_height_mm);
    object.maybe("cg_from_rear_mm", vehicle.cg_from_rear_mm);
    object.put("driven", Value::from(vehicle.driven.word()));
    object.put("forward", Value::from(vehicle.forward.word()));
}

fn winch(object: &mut Writer, winch: &Winch) {
    object.id("shaft", &winch.shaft);
    object.number("drum_mm", winch.drum_mm);
    object.number("rope_mm", winch.rope_mm);
    object.put("layers", Value::from(winch.layers));
    match winch.load {
        WinchLoad::Mass(mass) => object.number("mass_kg", mass),
        WinchLoad::Pull(pull) => object.number("pull_n", pull),
    }
    object.put("lifts", Value::from(winch.lifts.word()));
}
