//! From checked JSON objects to the document. Nothing here can fail: the validator has been over every field.

use std::borrow::Cow;

use serde_json::{Map, Value};

use super::fields::Table;
use super::kinds::kind_named;
use layshaft_powerflow::materials::{MaterialPair, material_named, pair_named};

use super::tables::{GROUP, POSITION, SHAFT, STRETCH};
use crate::document::*;

/// The fields of one checked object, with the table's values for those that were left out.
pub(super) struct Fields<'a> {
    pub(super) map: &'a Map<String, Value>,
    pub(super) table: &'static Table,
}

impl Fields<'_> {
    fn value(&self, name: &str) -> Option<Cow<'_, Value>> {
        let written = self.map.get(name).map(Cow::Borrowed);
        written.or_else(|| self.table.field(name)?.need.default_value().map(Cow::Owned))
    }

    fn must(&self, name: &str) -> Cow<'_, Value> {
        self.value(name)
            .expect("the validator has seen that this field is there or has a default")
    }

    pub(super) fn maybe_number(&self, name: &str) -> Option<f64> {
        self.map.get(name).map(number)
    }

    pub(super) fn number(&self, name: &str) -> f64 {
        number(&self.must(name))
    }

    fn count(&self, name: &str) -> u32 {
        count(&self.must(name))
    }

    fn id(&self, name: &str) -> Id {
        id(&self.must(name))
    }

    fn flag(&self, name: &str) -> bool {
        self.must(name).as_bool().unwrap_or(false)
    }

    /// The choice that a word means; its first variant where the word was left out and has no default.
    pub(super) fn word<T: Default>(&self, name: &str, choice: impl Fn(&str) -> Option<T>) -> T {
        self.value(name)
            .as_deref()
            .and_then(Value::as_str)
            .and_then(choice)
            .unwrap_or_default()
    }

    pub(super) fn list<T>(&self, name: &str, entry: impl Fn(&Value) -> T) -> Vec<T> {
        self.value(name)
            .as_deref()
            .and_then(Value::as_array)
            .into_iter()
            .flatten()
            .map(entry)
            .collect()
    }

    fn two<T: Clone>(&self, name: &str, entry: impl Fn(&Value) -> T) -> [T; 2] {
        pair(&self.must(name), entry)
    }
}

pub(super) fn number(value: &Value) -> f64 {
    // Adding zero turns a negative zero, which means nothing here, into a plain one.
    value.as_f64().expect("the validator has seen a number here") + 0.0
}

pub(super) fn count(value: &Value) -> u32 {
    u32::try_from(whole(value)).expect("the validator has seen a count here, and counts end below 2^32")
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "the validator has seen a whole number within its limits"
)]
fn whole(value: &Value) -> i64 {
    number(value) as i64
}

pub(super) fn id(value: &Value) -> Id {
    Id::from(value.as_str().expect("the validator has seen a name here"))
}

pub(super) fn pair<T: Clone>(value: &Value, entry: impl Fn(&Value) -> T) -> [T; 2] {
    let list = value
        .as_array()
        .expect("the validator has seen a list of two here");
    [entry(&list[0]), entry(&list[1])]
}

/// A number of the document's own counter.
pub(super) fn counter(value: &Value) -> u64 {
    u64::try_from(whole(value)).unwrap_or(0)
}

/// A shaft; `place_in_row` is where it stands in the list.
pub(crate) fn shaft(map: &Map<String, Value>, place_in_row: usize) -> Shaft {
    let fields = Fields { map, table: &SHAFT };
    Shaft {
        id: fields.id("id"),
        at: map
            .get("at")
            .map_or_else(|| in_a_row(place_in_row), |at| pair(at, number)),
        axis_mm: map.get("axis_mm").map(|axis| pair(axis, number)),
        drag_nm: fields.number("drag_nm"),
        viscous_nms: fields.number("viscous_nms"),
        inertia_kgm2: fields.number("inertia_kgm2"),
        journal_friction: fields.number("journal_friction"),
        journal_radius_mm: fields.number("journal_radius_mm"),
        overhang: fields.number("overhang"),
    }
}

/// Where a shaft is drawn that does not say so.
#[expect(clippy::cast_precision_loss, reason = "there are far fewer shafts than 2^53")]
fn in_a_row(place: usize) -> [f64; 2] {
    [160.0 * place as f64, 0.0]
}

/// A shift position.
pub(crate) fn position(map: &Map<String, Value>) -> Position {
    let fields = Fields {
        map,
        table: &POSITION,
    };
    let id = fields.id("id");
    let name = map
        .get("name")
        .and_then(Value::as_str)
        .unwrap_or(id.as_str())
        .to_owned();
    Position {
        name,
        engaged: fields.list("engaged", self::id),
        id,
    }
}

/// A group.
pub(crate) fn group(map: &Map<String, Value>) -> Group {
    let fields = Fields { map, table: &GROUP };
    let id = fields.id("id");
    Group {
        name: map
            .get("name")
            .and_then(Value::as_str)
            .unwrap_or(id.as_str())
            .to_owned(),
        members: fields.list("members", self::id),
        folded: fields.flag("folded"),
        id,
    }
}

/// A stretch of the course.
pub(crate) fn stretch(value: &Value) -> Stretch {
    let Value::Object(map) = value else {
        let [length_m, slope_deg] = pair(value, number);
        return Stretch { length_m, slope_deg };
    };
    let fields = Fields { map, table: &STRETCH };
    Stretch {
        length_m: fields.number("length_m"),
        slope_deg: fields.number("slope_deg"),
    }
}

/// The material pair that an object names.
pub(crate) fn material_pair(map: &Map<String, Value>) -> Option<&'static MaterialPair> {
    pair_named(map.get("material_pair")?.as_str()?)
}

/// An element.
pub(crate) fn element(map: &Map<String, Value>) -> Element {
    let known = map.get("kind").and_then(Value::as_str).and_then(kind_named);
    let table = known.expect("the validator has seen a kind that it knows").table;
    Element {
        id: id(&map["id"]),
        at: map.get("at").map(|at| pair(at, number)),
        kind: kind(map, table),
    }
}

/// What an element is.
pub(super) fn kind(map: &Map<String, Value>, table: &'static Table) -> ElementKind {
    let fields = Fields { map, table };
    match map["kind"].as_str() {
        Some("mesh") => ElementKind::Mesh(mesh(&fields)),
        Some("chain") => ElementKind::Chain(Chain {
            a: fields.id("a"),
            b: fields.id("b"),
            teeth: fields.two("teeth", count),
            efficiency: fields.maybe_number("efficiency"),
            pitch_mm: fields.maybe_number("pitch_mm"),
            pretension_n: fields.number("pretension_n"),
        }),
        Some("belt") => ElementKind::Belt(Belt {
            a: fields.id("a"),
            b: fields.id("b"),
            diameters_mm: fields.two("diameters_mm", number),
            crossed: fields.flag("crossed"),
            efficiency: fields.maybe_number("efficiency"),
            slip_nm: fields.maybe_number("slip_nm"),
            pretension_n: fields.number("pretension_n"),
        }),
        Some("friction_wheel") => ElementKind::FrictionWheel(friction_wheel(&fields)),
        Some("worm") => ElementKind::Worm(worm(&fields)),
        Some("differential") => ElementKind::Differential(Differential {
            sides: fields.two("sides", id),
            carrier: fields.id("carrier"),
            teeth: map.get("teeth").map(|teeth| BevelTeeth {
                side: count(&teeth["side"]),
                planet: count(&teeth["planet"]),
            }),
            loss: loss(&fields),
            pins: pins(&fields),
        }),
        Some("planetary") => ElementKind::Planetary(planetary(&fields)),
        Some("stepped") => ElementKind::Stepped(stepped(&fields)),
        Some("clutch") => ElementKind::Clutch(Clutch {
            a: fields.id("a"),
            b: fields.id("b"),
        }),
        Some("brake") => ElementKind::Brake(Brake {
            shaft: fields.id("shaft"),
            limit_nm: fields.maybe_number("limit_nm"),
        }),
        Some("one_way") => ElementKind::OneWay(OneWay {
            a: fields.id("a"),
            b: fields.id("b"),
            sense: fields.word("sense", OneWaySense::from_word),
        }),
        Some("slip_clutch") => ElementKind::SlipClutch(SlipClutch {
            a: fields.id("a"),
            b: fields.id("b"),
            limit_nm: fields.number("limit_nm"),
        }),
        Some("torque_switch") => ElementKind::TorqueSwitch(torque_switch(&fields)),
        Some("motor") => ElementKind::Motor(motor(&fields)),
        Some("crank") => ElementKind::Crank(Crank {
            shaft: fields.id("shaft"),
            speed_rpm: fields.number("speed_rpm"),
            limit_nm: fields.maybe_number("limit_nm"),
        }),
        Some("load") => ElementKind::Load(load(&fields)),
        Some("vehicle") => ElementKind::Vehicle(vehicle(&fields)),
        Some("winch") => ElementKind::Winch(winch(&fields)),
        other => unreachable!("the validator lets no other kind through: {other:?}"),
    }
}

fn loss(fields: &Fields<'_>) -> MeshLoss {
    let efficiency = fields.maybe_number("efficiency").map(MeshLoss::Efficiency);
    let friction = || fields.maybe_number("friction").map(MeshLoss::Friction);
    let pair = || material_pair(fields.map).map(MeshLoss::MaterialPair);
    efficiency.or_else(friction).or_else(pair).unwrap_or_default()
}

fn pins(fields: &Fields<'_>) -> Pins {
    Pins {
        friction: fields.number("pin_friction"),
        ratio: fields.number("pin_ratio"),
    }
}

fn friction_wheel(fields: &Fields<'_>) -> FrictionWheel {
    FrictionWheel {
        a: fields.id("a"),
        b: fields.id("b"),
        diameters_mm: fields.two("diameters_mm", number),
        form: fields.word("form", WheelForm::from_word),
        efficiency: fields.maybe_number("efficiency"),
        slip_nm: fields.maybe_number("slip_nm"),
        press_n: fields.number("press_n"),
    }
}

fn torque_switch(fields: &Fields<'_>) -> TorqueSwitch {
    TorqueSwitch {
        a: fields.id("a"),
        b: fields.id("b"),
        up_nm: fields.number("up_nm"),
        down_nm: fields.number("down_nm"),
        from: fields.id("from"),
        to: fields.id("to"),
    }
}

fn mesh(fields: &Fields<'_>) -> Mesh {
    let form = fields.word("form", MeshForm::from_word);
    Mesh {
        a: fields.id("a"),
        b: fields.id("b"),
        teeth: fields.two("teeth", count),
        form,
        sense: if form == MeshForm::Bevel {
            fields.word("sense", Sense::from_word)
        } else {
            Sense::default()
        },
        loss: loss(fields),
        module_mm: fields.maybe_number("module_mm"),
        pressure_angle_deg: fields.number("pressure_angle_deg"),
        material: fields
            .map
            .get("material")
            .and_then(Value::as_str)
            .and_then(material_named),
        width_mm: fields.maybe_number("width_mm"),
        skip_nm: fields.maybe_number("skip_nm"),
    }
}

fn worm(fields: &Fields<'_>) -> Worm {
    Worm {
        worm: fields.id("worm"),
        wheel: fields.id("wheel"),
        starts: fields.count("starts"),
        teeth: fields.count("teeth"),
        hand: fields.word("hand", Hand::from_word),
        lead_angle_deg: fields.number("lead_angle_deg"),
        friction: fields.number("friction"),
        pressure_angle_deg: fields.number("pressure_angle_deg"),
        wheel_mm: fields.maybe_number("wheel_mm"),
        collar_mm: fields.maybe_number("collar_mm"),
        collar_friction: fields.maybe_number("collar_friction"),
    }
}

fn planetary(fields: &Fields<'_>) -> Planetary {
    let teeth = fields.must("teeth");
    Planetary {
        sun: fields.id("sun"),
        ring: fields.id("ring"),
        carrier: fields.id("carrier"),
        sun_teeth: count(&teeth["sun"]),
        ring_teeth: count(&teeth["ring"]),
        planets: fields.word("planets", Planets::from_word),
        loss: loss(fields),
        pins: pins(fields),
        count: fields.map.get("count").map(count),
    }
}

fn stepped(fields: &Fields<'_>) -> Stepped {
    let rings = fields.list("rings", |ring| ring.as_str().unwrap_or_default().to_owned());
    let ratio = match fields.map.get("teeth") {
        Some(teeth) => {
            let [first, second] = pair(teeth, |teeth| pair(teeth, count));
            let is_ring = |central: &str| rings.iter().any(|ring| ring == central);
            let (first_is_ring, second_is_ring) = (is_ring("first"), is_ring("second"));
            SteppedRatio::Teeth {
                first,
                second,
                first_is_ring,
                second_is_ring,
            }
        }
        None => SteppedRatio::Basic(fields.two("basic_ratio", whole)),
    };
    Stepped {
        first: fields.id("first"),
        second: fields.id("second"),
        carrier: fields.id("carrier"),
        ratio,
        loss: loss(fields),
        pins: pins(fields),
    }
}

fn motor(fields: &Fields<'_>) -> Motor {
    Motor {
        shaft: fields.id("shaft"),
        nominal_v: fields.number("nominal_v"),
        no_load_rpm: fields.number("no_load_rpm"),
        no_load_a: fields.number("no_load_a"),
        stall_nm: fields.number("stall_nm"),
        stall_a: fields.number("stall_a"),
        supply_v: fields.maybe_number("supply_v"),
        supply_ohm: fields.number("supply_ohm"),
        rotor_kgm2: fields.number("rotor_kgm2"),
        winding_c: fields.number("winding_c"),
        battery_mah: fields.maybe_number("battery_mah"),
        heat_limit_w: fields.maybe_number("heat_limit_w"),
    }
}

fn load(fields: &Fields<'_>) -> Load {
    Load {
        shaft: fields.id("shaft"),
        torque_nm: fields.number("torque_nm"),
        viscous_nms: fields.number("viscous_nms"),
        fan_nms2: fields.number("fan_nms2"),
        inertia_kgm2: fields.number("inertia_kgm2"),
    }
}

fn vehicle(fields: &Fields<'_>) -> Vehicle {
    Vehicle {
        shafts: fields.list("shafts", id),
        wheel_mm: fields.number("wheel_mm"),
        mass_kg: fields.number("mass_kg"),
        rolling: fields.number("rolling"),
        slope_deg: fields.number("slope_deg"),
        tyre_friction: fields.maybe_number("tyre_friction"),
        wheelbase_mm: fields.maybe_number("wheelbase_mm"),
        cg_height_mm: fields.maybe_number("cg_height_mm"),
        cg_from_rear_mm: fields.maybe_number("cg_from_rear_mm"),
        driven: fields.word("driven", DrivenAxles::from_word),
        rear_share: fields.maybe_number("rear_share"),
        forward: fields.word("forward", LiftSense::from_word),
    }
}

fn winch(fields: &Fields<'_>) -> Winch {
    let load = match fields.maybe_number("mass_kg") {
        Some(mass) => WinchLoad::Mass(mass),
        None => WinchLoad::Pull(fields.number("pull_n")),
    };
    Winch {
        shaft: fields.id("shaft"),
        drum_mm: fields.number("drum_mm"),
        rope_mm: fields.number("rope_mm"),
        layers: fields.count("layers"),
        load,
        lifts: fields.word("lifts", LiftSense::from_word),
    }
}
