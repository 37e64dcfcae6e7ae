//! The element that a kind begins as: numbers that a builder would plausibly have in the box.
//!
//! Efficiencies are of dry plastic gears; each is a typed value that stands in its field to be changed.

use layshaft_layout::{
    Belt, Brake, Chain, Clutch, Crank, Differential, DrivenAxles, ElementKind, FRAME, FrictionWheel, Hand,
    Id, LiftSense, Load, Mesh, MeshForm, MeshLoss, Motor, OneWay, OneWaySense, Pins, Planetary, Planets,
    Sense, SlipClutch, Stepped, SteppedRatio, TorqueSwitch, Vehicle, WheelForm, Winch, WinchLoad, Worm,
};

use super::Kind;

/// The positions that a new torque switch shifts between, until it is placed in a layout and gets that one's.
pub const SWITCHED: [&str; 2] = ["p1", "p2"];

/// A new element of this kind on these shafts, in the order of its fields; missing ones are the frame. A vehicle is
/// driven by all of them. None for a
/// plain shaft, which is no element.
#[must_use]
pub fn default_element(kind: Kind, shafts: &[Id]) -> Option<ElementKind> {
    let shaft = |n: usize| shafts.get(n).cloned().unwrap_or_else(|| Id::from(FRAME));
    Some(match kind {
        Kind::Shaft => return None,
        Kind::Mesh => mesh(shaft(0), shaft(1), [12, 36], MeshForm::External, 0.9),
        Kind::RingMesh => mesh(shaft(0), shaft(1), [12, 60], MeshForm::Internal, 0.93),
        Kind::BevelMesh => mesh(shaft(0), shaft(1), [12, 20], MeshForm::Bevel, 0.88),
        Kind::Chain => ElementKind::Chain(Chain {
            a: shaft(0),
            b: shaft(1),
            teeth: [10, 20],
            efficiency: Some(0.94),
            pitch_mm: None,
            pretension_n: 0.0,
        }),
        Kind::Belt => ElementKind::Belt(Belt {
            a: shaft(0),
            b: shaft(1),
            diameters_mm: [12.0, 36.0],
            crossed: false,
            efficiency: Some(0.9),
            slip_nm: None,
            pretension_n: 0.0,
        }),
        Kind::FrictionWheel => ElementKind::FrictionWheel(FrictionWheel {
            a: shaft(0),
            b: shaft(1),
            diameters_mm: [12.0, 36.0],
            form: WheelForm::External,
            efficiency: Some(0.9),
            slip_nm: None,
            press_n: 0.0,
        }),
        Kind::Worm => ElementKind::Worm(Worm {
            worm: shaft(0),
            wheel: shaft(1),
            starts: 1,
            teeth: 24,
            hand: Hand::Right,
            lead_angle_deg: 5.0,
            friction: 0.2,
            pressure_angle_deg: 20.0,
            wheel_mm: None,
            collar_mm: None,
            collar_friction: None,
        }),
        Kind::Differential => ElementKind::Differential(Differential {
            sides: [shaft(0), shaft(1)],
            carrier: shaft(2),
            teeth: None,
            loss: MeshLoss::Efficiency(0.88),
            pins: Pins::NOT_GIVEN,
        }),
        Kind::Planetary => ElementKind::Planetary(Planetary {
            sun: shaft(0),
            ring: shaft(1),
            carrier: shaft(2),
            sun_teeth: 24,
            ring_teeth: 72,
            planets: Planets::Single,
            loss: MeshLoss::Efficiency(0.92),
            pins: Pins::NOT_GIVEN,
            count: None,
        }),
        Kind::Stepped => stepped(shaft(0), shaft(1), shaft(2)),
        Kind::Clutch => ElementKind::Clutch(Clutch {
            a: shaft(0),
            b: shaft(1),
        }),
        Kind::Brake => ElementKind::Brake(Brake {
            shaft: shaft(0),
            limit_nm: None,
        }),
        Kind::OneWay => ElementKind::OneWay(OneWay {
            a: shaft(0),
            b: shaft(1),
            sense: OneWaySense::Positive,
        }),
        Kind::SlipClutch => ElementKind::SlipClutch(SlipClutch {
            a: shaft(0),
            b: shaft(1),
            limit_nm: 0.2,
        }),
        Kind::TorqueSwitch => ElementKind::TorqueSwitch(TorqueSwitch {
            a: shaft(0),
            b: shaft(1),
            up_nm: 0.1,
            down_nm: 0.05,
            from: Id::from(SWITCHED[0]),
            to: Id::from(SWITCHED[1]),
        }),
        Kind::Motor => motor(shaft(0)),
        Kind::Crank => ElementKind::Crank(Crank {
            shaft: shaft(0),
            speed_rpm: 60.0,
            limit_nm: Some(1.0),
        }),
        Kind::Load => ElementKind::Load(Load {
            shaft: shaft(0),
            torque_nm: 0.2,
            viscous_nms: 0.0,
            fan_nms2: 0.0,
            inertia_kgm2: 0.0,
        }),
        Kind::Winch => ElementKind::Winch(Winch {
            shaft: shaft(0),
            drum_mm: 30.0,
            rope_mm: 1.0,
            layers: 1,
            load: WinchLoad::Mass(2.0),
            lifts: LiftSense::Drive,
        }),
        Kind::Vehicle => vehicle(if shafts.is_empty() {
            vec![shaft(0)]
        } else {
            shafts.to_vec()
        }),
    })
}

fn mesh(a: Id, b: Id, teeth: [u32; 2], form: MeshForm, efficiency: f64) -> ElementKind {
    ElementKind::Mesh(Mesh {
        a,
        b,
        teeth,
        form,
        sense: Sense::Opposite,
        loss: MeshLoss::Efficiency(efficiency),
        module_mm: None,
        pressure_angle_deg: 20.0,
        material: None,
        width_mm: None,
        skip_nm: None,
    })
}

fn stepped(first: Id, second: Id, carrier: Id) -> ElementKind {
    ElementKind::Stepped(Stepped {
        first,
        second,
        carrier,
        ratio: SteppedRatio::Teeth {
            first: [20, 30],
            second: [20, 30],
            first_is_ring: false,
            second_is_ring: false,
        },
        loss: MeshLoss::Efficiency(0.9),
        pins: Pins::NOT_GIVEN,
    })
}

/// A small 12 V geared motor.
fn motor(shaft: Id) -> ElementKind {
    ElementKind::Motor(Motor {
        shaft,
        nominal_v: 12.0,
        no_load_rpm: 310.0,
        no_load_a: 0.09,
        stall_nm: 0.36,
        stall_a: 1.3,
        supply_v: None,
        supply_ohm: 0.0,
        rotor_kgm2: 0.0,
        winding_c: 20.0,
        battery_mah: None,
        heat_limit_w: None,
    })
}

fn vehicle(wheels: Vec<Id>) -> ElementKind {
    ElementKind::Vehicle(Vehicle {
        shafts: wheels,
        wheel_mm: 60.0,
        mass_kg: 1.4,
        rolling: 0.02,
        slope_deg: 10.0,
        tyre_friction: Some(0.6),
        wheelbase_mm: None,
        cg_height_mm: None,
        cg_from_rear_mm: None,
        driven: DrivenAxles::All,
        rear_share: None,
        forward: LiftSense::Drive,
    })
}
