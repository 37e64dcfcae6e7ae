//! From the document to JSON objects, leaving out what the table has as default.

use serde_json::{Map, Number, Value, json};

use super::fields::Table;
use super::kinds::kind_named;
use super::tables::{GROUP, POSITION, SHAFT, STRETCH};
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
    if let Some(axis) = shaft.axis_mm {
        object.put("axis_mm", place(axis));
    }
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

/// A group's object.
pub(crate) fn group(group: &Group) -> Map<String, Value> {
    let mut object = Writer::new(&GROUP);
    object.id("id", &group.id);
    if group.name != group.id.as_str() {
        object.put("name", Value::from(group.name.as_str()));
    }
    object.put("members", names(&group.members));
    object.put("folded", Value::Bool(group.folded));
    object.map
}

/// A stretch's object.
pub(crate) fn stretch(stretch: &Stretch) -> Map<String, Value> {
    let mut object = Writer::new(&STRETCH);
    object.number("length_m", stretch.length_m);
    object.number("slope_deg", stretch.slope_deg);
    object.map
}

/// An element's object.
pub(crate) fn element(element: &Element) -> Map<String, Value> {
    let word = element.kind.word();
    let known = kind_named(word).expect("every kind of the document is in the table");
    let mut object = Writer::new(known.table);
    object.id("id", &element.id);
    object.put("kind", Value::from(word));
    kind(&mut object, &element.kind);
    if let Some(at) = element.at {
        object.put("at", place(at));
    }
    object.map
}

/// An object that is being written.
pub(super) struct Writer {
    pub(super) map: Map<String, Value>,
    table: &'static Table,
}

impl Writer {
    pub(super) fn new(table: &'static Table) -> Self {
        Self {
            map: Map::new(),
            table,
        }
    }

    /// Writes a field unless it holds its default.
    pub(super) fn put(&mut self, name: &'static str, value: Value) {
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

    pub(super) fn number(&mut self, name: &'static str, value: f64) {
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
            object.maybe("pitch_mm", it.pitch_mm);
            object.number("pretension_n", it.pretension_n);
        }
        ElementKind::Belt(it) => belt(object, it),
        ElementKind::FrictionWheel(it) => friction_wheel(object, it),
        ElementKind::Worm(it) => worm(object, it),
        ElementKind::Differential(it) => {
            object.put("sides", names(&it.sides));
            object.id("carrier", &it.carrier);
            if let Some(BevelTeeth { side, planet }) = it.teeth {
                object.put("teeth", json!({ "side": side, "planet": planet }));
            }
            loss(object, it.loss);
            pins(object, it.pins);
        }
        ElementKind::Planetary(it) => planetary(object, it),
        ElementKind::Stepped(it) => stepped(object, it),
        ElementKind::Clutch(it) => {
            object.id("a", &it.a);
            object.id("b", &it.b);
        }
        ElementKind::Brake(it) => {
            object.id("shaft", &it.shaft);
            object.maybe("limit_nm", it.limit_nm);
        }
        ElementKind::OneWay(it) => {
            object.id("a", &it.a);
            object.id("b", &it.b);
            object.put("sense", Value::from(it.sense.word()));
        }
        ElementKind::SlipClutch(it) => {
            object.id("a", &it.a);
            object.id("b", &it.b);
            object.number("limit_nm", it.limit_nm);
        }
        ElementKind::TorqueSwitch(it) => torque_switch(object, it),
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
    loss(object, mesh.loss);
    object.maybe("module_mm", mesh.module_mm);
    object.number("pressure_angle_deg", mesh.pressure_angle_deg);
    if let Some(material) = mesh.material {
        object.put("material", Value::from(material.name));
    }
    object.maybe("width_mm", mesh.width_mm);
    object.maybe("skip_nm", mesh.skip_nm);
}

fn loss(object: &mut Writer, loss: MeshLoss) {
    match loss {
        MeshLoss::NotGiven => {}
        MeshLoss::Efficiency(efficiency) => object.number("efficiency", efficiency),
        MeshLoss::Friction(friction) => object.number("friction", friction),
        MeshLoss::MaterialPair(pair) => object.put("material_pair", Value::from(pair.name)),
    }
}

fn pins(object: &mut Writer, pins: Pins) {
    object.number("pin_friction", pins.friction);
    object.number("pin_ratio", pins.ratio);
}

fn belt(object: &mut Writer, belt: &Belt) {
    object.id("a", &belt.a);
    object.id("b", &belt.b);
    object.put("diameters_mm", place(belt.diameters_mm));
    object.put("crossed", Value::Bool(belt.crossed));
    object.maybe("efficiency", belt.efficiency);
    object.maybe("slip_nm", belt.slip_nm);
    object.number("pretension_n", belt.pretension_n);
}

fn friction_wheel(object: &mut Writer, wheels: &FrictionWheel) {
    object.id("a", &wheels.a);
    object.id("b", &wheels.b);
    object.put("diameters_mm", place(wheels.diameters_mm));
    object.put("form", Value::from(wheels.form.word()));
    object.maybe("efficiency", wheels.efficiency);
    object.maybe("slip_nm", wheels.slip_nm);
    object.number("press_n", wheels.press_n);
}

fn torque_switch(object: &mut Writer, switch: &TorqueSwitch) {
    object.id("a", &switch.a);
    object.id("b", &switch.b);
    object.number("up_nm", switch.up_nm);
    object.number("down_nm", switch.down_nm);
    object.id("from", &switch.from);
    object.id("to", &switch.to);
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
    object.maybe("wheel_mm", worm.wheel_mm);
    object.maybe("collar_mm", worm.collar_mm);
    object.maybe("collar_friction", worm.collar_friction);
}

fn planetary(object: &mut Writer, set: &Planetary) {
    object.id("sun", &set.sun);
    object.id("ring", &set.ring);
    object.id("carrier", &set.carrier);
    object.put("teeth", json!({ "sun": set.sun_teeth, "ring": set.ring_teeth }));
    object.put("planets", Value::from(set.planets.word()));
    loss(object, set.loss);
    pins(object, set.pins);
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
    loss(object, set.loss);
    pins(object, set.pins);
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
    object.number("rotor_kgm2", motor.rotor_kgm2);
    object.number("winding_c", motor.winding_c);
    object.maybe("battery_mah", motor.battery_mah);
    object.maybe("heat_limit_w", motor.heat_limit_w);
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
    object.maybe("rear_share", vehicle.rear_share);
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
